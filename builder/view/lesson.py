"""A lesson -> its page: aims, what is read first, then prepare, show, try and follow up."""

from __future__ import annotations

from collections.abc import Iterable

from builder.model.records.lesson import Lesson, Shown
from builder.model.reference import Ref, parse_reference
from builder.model.signs import NO_BREAK
from builder.model.views import Block, Card, Cards, Facts, Html, Items, Link, Links, Page, Row
from builder.view.here import Here, minutes_shown
from builder.view.page import page, passage


def lesson_page(here: Here, ref: Ref, lesson: Lesson) -> Page:
    """Make the page."""
    main: tuple[Block, ...] = (
        Items("Afterwards you can", here.lines(lesson.aims), anchor="aims"),
        Links("Read first", _links(here, lesson.read), "Nothing.", "read"),
        Items("Prepare", here.lines(lesson.prepare), anchor="prepare", tick=True),
        Cards("Show", tuple(_shown(here, at, one) for at, one in enumerate(lesson.show, 1)), "show"),
        Items("Try", here.lines(lesson.try_), anchor="try", tick=True),
        Items("Follow up", here.lines(lesson.follow_up), anchor="follow-up", tick=True),
        Items("Watch for", here.lines(lesson.watch_for), "Nothing of its own.", "watch-for"),
        Links("Sources", here.links("source", lesson.sources), "None.", "sources"),
    )  # fmt: skip
    takes = Facts("", (Row("Takes", Html(minutes_shown(lesson.minutes))),), "takes")
    aside = (takes, Links("Comes after", here.links("lesson", lesson.after), "None: start here.", "after"),)
    shown = [text for one in lesson.show for text in (one.do, one.key_point, one.why)]
    return page(
        here, ref, lesson.title, "Lesson", here.paragraphs(lesson.summary), main, aside, aliases=lesson.was,
        texts=(passage("", lesson.title, lesson.summary, *lesson.aims), passage("show", "Show", *shown)),
    )  # fmt: skip


def _links(here: Here, references: Iterable[str]) -> tuple[Link, ...]:
    refs = [parse_reference(text) for text in references]
    return tuple(here.link_to(ref) for ref in refs if ref is not None)


def _shown(here: Here, at: int, one: Shown) -> Card:
    rows = [Row("Key point", here.line(one.key_point)), Row("Because", here.line(one.why))]
    if one.look_at:
        rows.append(Row("Look at", here.anchors(_links(here, one.look_at))))
    return Card(Html(f"{at}{NO_BREAK} {here.line(one.do)}"), tuple(rows))
