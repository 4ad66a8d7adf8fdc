"""A lesson -> its page: aims, what is read first, then prepare, show, try and follow up."""

from __future__ import annotations

from collections.abc import Iterable

from builder.model.records.lesson import Caught, Lesson, Shown
from builder.model.reference import Ref, parse_reference
from builder.model.signs import NO_BREAK
from builder.model.views import Block, Card, Cards, Facts, Grid, Html, Items, Link, Links, Page, Row
from builder.view.here import NOTHING, Here, minutes_shown
from builder.view.learnt_from import rests_of_lesson
from builder.view.moments import CALCULATOR
from builder.view.page import page, passage
from builder.view.practical import practical_card
from builder.view.stages import PROCEDURE
from builder.view.training import practice, practice_scripts, way_to_breakdown

ASKED = (PROCEDURE, CALCULATOR)
"""The kinds that questions are drawn from."""
NO_BREAK_HYPHEN = "\u2011"
"""A date in a narrow column stays on one line."""
CAUGHT = "What catches the mistake"


def lesson_page(here: Here, ref: Ref, lesson: Lesson) -> Page:
    """Make the page."""
    main: tuple[Block, ...] = (
        Items("Afterwards you can", here.lines(lesson.aims), anchor="aims"),
        *_teaches(here, lesson),
        Links("Read first", _links(here, lesson.read), "Nothing.", "read"),
        Items("Prepare", here.lines(lesson.prepare), anchor="prepare", tick=True),
        Cards("Show", tuple(_shown(here, at, one) for at, one in enumerate(lesson.show, 1)), "show"),
        Items("Try", here.lines(lesson.try_), anchor="try", tick=True),
        *practice(ref, lesson),
        *_tests(here, lesson),
        Items("Follow up", here.lines(lesson.follow_up), anchor="follow-up", tick=True),
        Items("Watch for", here.lines(lesson.watch_for), "Nothing of its own.", "watch-for"),
        *_catches(here, lesson),
        *_rests(here, lesson),
        Links("Sources", here.links("source", lesson.sources), "None.", "sources"),
    )  # fmt: skip
    takes = Facts("", (Row("Takes", Html(minutes_shown(lesson.minutes))),), "takes")
    aside = (takes, Links("Comes after", here.links("lesson", lesson.after), "None: start here.", "after"),)
    caught = [text for one in lesson.catches for text in (one.mistake, one.how)]
    shown = [text for one in lesson.show for text in (one.do, one.key_point, one.why)]
    return page(
        here, ref, lesson.title, "Lesson", here.paragraphs(lesson.summary), main, aside, aliases=lesson.was,
        scripts=practice_scripts(ref, lesson),
        texts=(passage("", lesson.title, lesson.summary, *lesson.aims), passage("show", "Show", *shown),
               *((passage("catches", CAUGHT, *caught),) if caught else ())),
    )  # fmt: skip


def _teaches(here: Here, lesson: Lesson) -> tuple[Block, ...]:
    return (Links("It teaches", here.links("skill", lesson.teaches), anchor="teaches"),) if lesson.teaches else ()


def _tests(here: Here, lesson: Lesson) -> tuple[Block, ...]:
    cards = tuple(practical_card(here, one) for one in lesson.practical)
    return (Cards("Practical tests", cards, "practical"),) if cards else ()


def _catches(here: Here, lesson: Lesson) -> tuple[Block, ...]:
    """Each mistake with what of the book would have caught it."""
    return (Cards(CAUGHT, tuple(_caught(here, one) for one in lesson.catches), "catches"),) if lesson.catches else ()


def _caught(here: Here, one: Caught) -> Card:
    rows = (Row("Caught by", here.anchors(_links(here, (one.by,)))), Row("How", here.line(one.how)))
    return Card(here.line(one.mistake), rows)


def _rests(here: Here, lesson: Lesson) -> tuple[Block, ...]:
    """What questions and tests are made of, with its revision: a later one makes other questions."""
    asked = [ref for ref in rests_of_lesson(here.book, lesson) if ref.kind in ASKED]
    if not asked:
        return ()
    rows = tuple(
        (here.anchor(here.link_to(ref)), here.text(_standing(here, ref, lesson)), _sheet(here, ref)) for ref in asked
    )
    head = ("Record", "Revision", "To show it by")
    return (Grid("What questions and tests are drawn from", head, rows, anchor="drawn-from"),)


def _sheet(here: Here, ref: Ref) -> Html:
    return here.anchor(way_to_breakdown(here, ref)) if ref.kind == PROCEDURE else NOTHING


def _standing(here: Here, ref: Ref, lesson: Lesson) -> str:
    """The revision of a procedure, and whether the lesson has been read through since."""
    found = here.book.catalogue.find(ref)
    if found is None or not found.issues:
        return "none"
    issue = found.issues[0]
    is_later = lesson.read_through is not None and issue.date > lesson.read_through
    later = f"; later than {lesson.read_through}, when this lesson was last read through" if is_later else ""
    return f"{issue.number}, {issue.date.replace('-', NO_BREAK_HYPHEN)}{later}"


def _links(here: Here, references: Iterable[str]) -> tuple[Link, ...]:
    refs = [parse_reference(text) for text in references]
    return tuple(here.link_to(ref) for ref in refs if ref is not None)


def _shown(here: Here, at: int, one: Shown) -> Card:
    rows = [Row("Key point", here.line(one.key_point)), Row("Because", here.line(one.why))]
    if one.look_at:
        rows.append(Row("Look at", here.anchors(_links(here, one.look_at))))
    return Card(Html(f"{at}{NO_BREAK} {here.line(one.do)}"), tuple(rows))
