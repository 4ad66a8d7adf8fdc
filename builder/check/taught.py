"""Lessons, paths and skills together -> what stands out of order, in no path, untaught, or behind a later revision."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from builder.check import codes
from builder.model.links import Catalogue
from builder.model.problem import Problem
from builder.model.reference import Ref
from builder.model.summary import Locate, Summary


def training_problems(catalogue: Catalogue, locate: Locate) -> Iterator[Problem]:
    """Yield a problem for each; what a broken record may say after all is no second problem."""
    broken = {ref.kind for ref in catalogue.broken}
    paths = _of(catalogue, "path")
    lessons = _of(catalogue, "lesson")
    for path in paths:
        yield from _out_of_order(path, catalogue, locate)
    named = {_living(catalogue, ref) for path in paths for ref in path.relations["lessons"]}
    for lesson in lessons:
        if paths and "path" not in broken and _are_known(catalogue, named) and lesson.ref not in named:
            yield Problem(codes.IN_NO_PATH, locate(lesson.ref, ("title",)), "no path has this lesson",
                          "name it in the lessons of a path, or of one of your own", level="warning")  # fmt: skip
        yield from _behind(lesson, catalogue, locate)
    taught = {_living(catalogue, ref) for lesson in lessons for ref in lesson.relations["teaches"]}
    for skill in _of(catalogue, "skill"):
        if "lesson" not in broken and _are_known(catalogue, taught) and skill.ref not in taught:
            yield Problem(codes.TAUGHT_BY_NOBODY, locate(skill.ref, ("title",)), "no lesson teaches this skill",
                          "name it under teaches in a lesson, or take it out", level="warning")  # fmt: skip


def _are_known(catalogue: Catalogue, named: Iterable[Ref]) -> bool:
    """Return False where a name is misspelt: that has a message of its own, and may be meant for the missed one."""
    return all(catalogue.find(ref) is not None for ref in named)


def _out_of_order(path: Summary, catalogue: Catalogue, locate: Locate) -> Iterator[Problem]:
    lessons = [_living(catalogue, ref) for ref in path.relations["lessons"]]
    for at, ref in enumerate(lessons):
        if ref in lessons[:at]:
            yield Problem(codes.PATH_OUT_OF_ORDER, locate(path.ref, ("lessons", at)),
                          f'"{catalogue.title(ref)}" stands here twice', "take it out once")  # fmt: skip
            continue
        found = catalogue.find(ref)
        for other in found.relations["after"] if found is not None else ():
            first = _living(catalogue, other)
            if first in lessons[at:]:
                yield Problem(codes.PATH_OUT_OF_ORDER, locate(path.ref, ("lessons", at)),
                              f'"{catalogue.title(ref)}" comes after "{catalogue.title(first)}" and stands before it',
                              "move it behind that one")  # fmt: skip


def _behind(lesson: Summary, catalogue: Catalogue, locate: Locate) -> Iterator[Problem]:
    """A lesson that was read through before a revision of a procedure that it names."""
    if not lesson.read_through:
        return
    named = dict.fromkeys(_living(catalogue, one.ref) for one in lesson.mentions if one.ref.kind == "procedure")
    for ref in named:
        found = catalogue.find(ref)
        if found is not None and found.issues and found.issues[0].date > lesson.read_through:
            issue = found.issues[0]
            yield Problem(codes.LESSON_BEHIND, locate(lesson.ref, ("read_through",)),
                          f'"{found.title}" went to revision {issue.number} on {issue.date}, after this date',
                          "hold the lesson against it, mend what differs, and write the day on which you did",
                          level="warning")  # fmt: skip


def _of(catalogue: Catalogue, kind: str) -> list[Summary]:
    return [catalogue.summaries[ref] for ref in sorted(catalogue.summaries) if ref.kind == kind]


def _living(catalogue: Catalogue, ref: Ref) -> Ref:
    return catalogue.moved.get(ref.record, ref.record)
