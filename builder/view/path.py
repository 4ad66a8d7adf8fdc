"""A learning path -> its page: for whom it is, its lessons in order, and what somebody can do afterwards."""

from __future__ import annotations

from builder.model.records.lesson import Lesson
from builder.model.records.path import LearningPath
from builder.model.reference import Ref
from builder.model.signs import NO_BREAK
from builder.model.views import Block, Card, Cards, Facts, Html, Items, Links, Page, Row
from builder.view.here import Here, minutes_shown
from builder.view.page import page, passage


def path_page(here: Here, ref: Ref, path: LearningPath) -> Page:
    """Make the page."""
    lessons = [(Ref("lesson", id_), here.book.shelf.get(Ref("lesson", id_))) for id_ in path.lessons]
    minutes = sum(one.minutes for _, one in lessons if isinstance(one, Lesson))
    main: tuple[Block, ...] = (
        Cards("Lessons, in this order",
              tuple(_lesson(here, at, other, one) for at, (other, one) in enumerate(lessons, 1)), "lessons"),
        Items("Who has done it can", here.lines(path.ready), anchor="ready", tick=True),
        Links("Then", here.links("path", path.then), "Nothing more: this is the last.", "then"),
    )  # fmt: skip
    facts = Facts("", (Row("For", here.line(path.for_)), here.row("Takes", minutes_shown(minutes))), "for", wide=True)
    return page(
        here, ref, path.title, "Learning path", here.paragraphs(path.summary), (facts, *main), aliases=path.was,
        texts=(passage("", path.title, path.for_, path.summary, *path.ready),),
    )  # fmt: skip


def _lesson(here: Here, at: int, ref: Ref, lesson: object) -> Card:
    title = Html(f"{at}{NO_BREAK} {here.anchor(here.link_to(ref))}")
    if not isinstance(lesson, Lesson):
        return Card(title)
    rows = [here.row("Takes", minutes_shown(lesson.minutes))]
    if lesson.teaches:
        rows.append(Row("Teaches", here.anchors(here.links("skill", lesson.teaches))))
    return Card(title, tuple(rows), here.paragraphs(lesson.summary))
