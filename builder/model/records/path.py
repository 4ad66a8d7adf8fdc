"""A path: lessons in the order in which a new hire takes them."""

from typing import Annotated

from builder.model.records.fields import Id, Line, Name, Points, Prose, Stated, record
from builder.model.records.lesson import LessonId

PathId = Annotated[Id, Points(("path",))]


@record
class LearningPath:
    """Lessons in the order in which they are taken, for somebody who begins there."""

    title: Name
    was: tuple[Id, ...] = ()
    summary: Prose
    for_: Line
    """Whom it is for."""
    lessons: tuple[LessonId, ...]
    then: Stated[PathId]
    """The paths that may come after it."""
    ready: tuple[Line, ...]
    """What somebody can do when it is done."""
