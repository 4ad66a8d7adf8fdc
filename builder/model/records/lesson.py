"""The kind a lesson is: one piece of the work, taught in the four steps of job instruction.

The four steps - prepare the learner, show the work, let them try, follow up - are those of the Training Within Industry
programme (War Manpower Commission, 1940s, public domain; from memory).
"""

from typing import Annotated

from builder.model.records.fields import Id, Line, Minutes, Name, Points, Prose, SourceId, Stated, record

LessonId = Annotated[Id, Points(("lesson",))]
TAUGHT = ("procedure", "panel", "seam", "cavity", "opening", "method", "rule", "hazard", "calculator", "table", "tool",
          "supply", "term")  # fmt: skip
"""The kinds a lesson may send its reader to."""
Taught = Annotated[str, Points(TAUGHT)]


@record
class Shown:
    """One thing the trainer shows: the step, its key point and the reason."""

    do: Line
    key_point: Line
    why: Line
    look_at: tuple[Taught, ...] = ()


@record
class Lesson:
    """What a new hire is taught in one sitting."""

    title: Name
    was: tuple[Id, ...] = ()
    summary: Prose
    aims: tuple[Line, ...]
    """What the learner can do afterwards."""
    after: Stated[LessonId]
    """Lessons that come before it."""
    minutes: Minutes
    read: Stated[Taught]
    """What is read before the sitting."""
    prepare: tuple[Line, ...]
    """The place and the learner made ready."""
    show: tuple[Shown, ...]
    try_: tuple[Line, ...]
    """What the learner does under the trainer's eye."""
    follow_up: tuple[Line, ...]
    """When it is looked at again, and whom to ask meanwhile."""
    watch_for: Stated[Line]
    """Mistakes that learners make."""
    sources: Stated[SourceId]
