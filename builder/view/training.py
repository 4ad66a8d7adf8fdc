"""The book -> the pages on which people learn: who is here and what each can do, and the breakdown of any procedure.

Which scripts ask questions, keep what was learnt and lay sheets out is said here alone.
"""

from __future__ import annotations

from dataclasses import replace

from builder.model.records.lesson import Lesson
from builder.model.records.path import LearningPath
from builder.model.reference import Ref
from builder.model.training_views import TrainingDesk
from builder.model.views import Block, Group, Groups, Html, Link, Links, Page
from builder.view.here import Book, Here
from builder.view.lists import BREAKDOWN, LISTS, TRAINING, plain_page
from builder.view.shared import shared
from builder.view.training_data import held, in_turn

TITLE, SHEET = "Training", "Job breakdown sheet"
LEAD = """\
Who learns here, what each has passed and can do. Names and answers stay on this device and in the files that are saved
from it; they are never among the jobs."""
BREAKDOWN_LEAD = "A procedure on one sheet for whoever shows the work: each step with its key point and the reason."
WITHOUT = """\
Here people are added, questions are asked and judged, and what somebody can do is written down. This needs JavaScript,
which does not run here. The paths and their lessons read without it:"""
WITHOUT_BREAKDOWN = """\
Here any procedure is laid out as a sheet of three columns. This needs JavaScript, which does not run here. The same
steps with their key points and reasons stand in the procedures:"""
WITHOUT_PRACTICE = """\
Here questions are drawn from the records that this lesson names, and judged with the reason and the way to the step;
the practical tests are entered here. This needs JavaScript, which does not run here. The tests below read without it,
and what is asked stands in what the lesson is read from."""

DATA, FORM = "assets/training/book.js", "assets/training/form.js"
DESK = shared("numbers", "working", "links", "job_dom", "job_check", "questions", "job_bar", "training")
"""What draws questions and judges answers, and keeps people and what they have passed: of a lesson and of training."""
LESSON = shared("train_lesson")
"""The block of a lesson in which somebody practises; the last one starts it."""
PEOPLE = shared("people")
"""The page of training; the last one starts it."""
SHEETS = shared("job_dom", "breakdown")
"""The page of breakdown sheets; the last one starts it."""


def training_page(book: Book) -> Page:
    """Make the page."""
    here = Here(book, TRAINING)
    paths = [(ref, one) for ref, one in in_turn(book)]
    ways = tuple(here.link_to(ref, _lessons(one)) for ref, one in paths) or (Link("Lessons", f"{LISTS}#lesson"),)
    desk = TrainingDesk("", "train_page", WITHOUT, ways=ways, anchor="training")
    sheet = Link(SHEET, BREAKDOWN, "of any procedure, for whoever shows the work")
    sheets = Links("On paper", (sheet,), anchor="paper")
    page = plain_page(here, Ref("page", "training"), TITLE, _lead(here, LEAD), (desk, *_paths(here), sheets),
                      is_found=True)  # fmt: skip
    return replace(page, scripts=(DATA, FORM, *DESK, *PEOPLE))


def _lessons(path: LearningPath) -> str:
    return f"{len(path.lessons)} lesson{'s' * (len(path.lessons) != 1)}"


def _paths(here: Here) -> tuple[Block, ...]:
    """The lessons of each path in order, and those that are in none."""
    paths = in_turn(here.book)
    groups = [Group(one.title, here.links("lesson", one.lessons), anchor=f"path-{ref.id}") for ref, one in paths]
    named = {Ref("lesson", id_) for _, one in paths for id_ in one.lessons}
    rest = [ref for ref, _ in held(here.book, Lesson) if ref not in named]
    if rest:
        groups.append(Group("In no path" if paths else "", tuple(here.link_to(ref) for ref in rest)))
    return (Groups("Paths and their lessons", tuple(groups), "paths"),) if groups else ()


def breakdown_page(book: Book) -> Page:
    """Make the page."""
    here = Here(book, BREAKDOWN)
    ways = (Link("Procedures", f"{LISTS}#procedure", "with all their steps"),)
    desk = TrainingDesk("", "breakdown_page", WITHOUT_BREAKDOWN, ways=ways, anchor="breakdown")
    page = plain_page(here, Ref("page", "breakdown"), SHEET, _lead(here, BREAKDOWN_LEAD), (desk,), is_found=True)
    return replace(page, scripts=(DATA, *SHEETS))


def _lead(here: Here, text: str) -> Html:
    return Html(f"<p>{here.text(text)}</p>")


def way_to_breakdown(here: Here, procedure: Ref) -> Link:
    """Return the way to a procedure's breakdown sheet."""
    return Link(SHEET, f"{here.root}{BREAKDOWN}#procedure={procedure.id}", "step, key point, reason, to show it by")


def practice(ref: Ref, lesson: Lesson) -> tuple[Block, ...]:
    """Return the block of a lesson in which somebody practises; nothing where it asks nothing."""
    if not is_practised(lesson):
        return ()
    return (TrainingDesk("Practise", "train_desk", WITHOUT_PRACTICE, ref.id, anchor="practise"),)


def is_practised(lesson: Lesson) -> bool:
    """Whether a lesson has questions or tests."""
    asked = lesson.questions
    return bool(lesson.practical or (asked is not None and (asked.procedures or asked.calculators)))


def practice_scripts(ref: Ref, lesson: Lesson) -> tuple[str, ...]:
    """Return the scripts of a lesson's page."""
    if not is_practised(lesson):
        return ()
    return (DATA, FORM, lesson_path(ref), *DESK, *LESSON)


def lesson_path(ref: Ref) -> str:
    """Return where what a lesson is drawn from is put down."""
    return f"assets/training/lesson/{ref.id}.js"
