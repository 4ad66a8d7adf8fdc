"""A tree -> a typed record and its summary, or every problem that keeps it from being one.

`shape` is the entry point.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from functools import cache
from typing import Any, TypeVar

from pydantic import TypeAdapter, ValidationError

from builder.model.files import SourceFile
from builder.model.place import Span
from builder.model.problem import Problem, Related
from builder.model.records import KIND, Record
from builder.model.records.law import Rule
from builder.model.records.lesson import Lesson
from builder.model.records.procedure import Procedure
from builder.model.summary import Summary
from builder.model.tree import Entry, Mapping, Sequence, plain, span_of
from builder.shape import codes
from builder.shape.facts import Scales
from builder.shape.marks import marked, marked_texts
from builder.shape.mentions import mentions_at_once, mentions_of
from builder.shape.messages import problems_of
from builder.shape.quantities import are_sound as quantities_are_sound
from builder.shape.quantities import quantity_problems
from builder.shape.revisions import are_sound as revisions_are_sound
from builder.shape.revisions import revision_problems
from builder.shape.summaries import summarize
from builder.shape.unfilled import unfilled_problems


def shape(
    file: SourceFile, tree: Mapping, scales: Scales
) -> tuple[Record | None, Summary | None, tuple[Problem, ...]]:
    """Give a tree its type. All problems of the file are found in one go; a record with an error is None.

    `scales` holds the words of each scale in order; what a stack's strictest sheet is depends on it.
    """
    kind = KIND[file.ref.kind]
    unfilled = tuple(unfilled_problems(tree, file.shown))
    try:
        record = _adapter(kind.name).validate_python(plain(tree))
    except ValidationError as error:
        found = problems_of(error.errors(include_url=False, include_input=False), tree, file.shown, kind.type)
        told = {problem.span for problem in unfilled}
        return None, None, (*unfilled, *(problem for problem in found if problem.span not in told))
    if unfilled:
        return None, None, unfilled
    marks = marked(kind.type, tree)
    mentions, problems = mentions_of(marks, file.shown)
    problems += tuple(quantity_problems(marks, file.shown))
    problems += tuple(_own_problems(record, tree, file.shown))
    if problems:
        return None, None, problems
    return record, summarize(file.ref, record, mentions, scales), ()


def shape_at_once(file: SourceFile, value: object, scales: Scales) -> tuple[Record, Summary] | None:
    """Give plain values their type if nothing at all is wrong with them; else `shape` the tree to hear what is."""
    kind = KIND[file.ref.kind]
    try:
        record: Record = _adapter(kind.name).validate_python(value)
    except ValidationError:
        return None
    marks = marked_texts(kind.type, value)
    mentions = mentions_at_once(marks)
    if mentions is None or not quantities_are_sound(marks) or _contradicts_itself(record):
        return None
    return record, summarize(file.ref, record, mentions, scales)


S = TypeVar("S")


def shape_settings(settings_type: type[S], tree: Mapping, file: str) -> tuple[S | None, tuple[Problem, ...]]:
    """Give a tree of settings its type."""
    try:
        asked: Any = settings_type  # mypy does not take it for what can be hashed
        settings: S = _settings_adapter(asked).validate_python(plain(tree))
        return settings, ()
    except ValidationError as error:
        found = problems_of(error.errors(include_url=False, include_input=False), tree, file, settings_type)
        return None, tuple(found)


def get_ready(kinds: Iterable[str]) -> None:
    """Make what shapes records of these kinds, once, before several processes each make it for themselves."""
    for kind in kinds:
        _adapter(kind)


@cache
def _settings_adapter(settings_type: type[Any]) -> TypeAdapter[Any]:
    return TypeAdapter(settings_type)


@cache
def _adapter(kind: str) -> TypeAdapter[Any]:
    return TypeAdapter(KIND[kind].type)


def _contradicts_itself(record: Record) -> bool:
    """Whether `_own_problems` has anything to say."""
    if isinstance(record, Procedure):
        keys = [step.key for phase in record.phases for step in phase.steps]
        return len(set(keys)) < len(keys) or not revisions_are_sound(record)
    if isinstance(record, Lesson):
        return len({one.key for one in record.practical}) < len(record.practical)
    return isinstance(record, Rule) and len(_consequences(record)) != 1


def _consequences(rule: Rule) -> list[str]:
    said = {
        "needs": rule.needs, "owes": rule.owes, "forbids": rule.forbids, "if-both-first": rule.if_both_first,
        "asks": rule.asks,
    }  # fmt: skip
    return [key for key, value in said.items() if value is not None]


def _own_problems(record: Record, tree: Mapping, file: str) -> Iterator[Problem]:
    if isinstance(record, Procedure):
        yield from _same_keys(_step_keys(tree), "step", file)
        yield from revision_problems(record, tree, file)
    elif isinstance(record, Lesson) and _contradicts_itself(record):
        yield from _same_keys(_test_keys(tree), "test", file)
    elif isinstance(record, Rule) and _contradicts_itself(record):
        said = _consequences(record)
        found = f"it has {' and '.join(said)}" if said else "it has none"
        yield Problem(
            codes.ONE_CONSEQUENCE, span_of(tree.entries["when"].key, file),
            f"a rule has exactly one consequence; {found}",
            f"{'keep' if said else 'write'} one of needs, owes, forbids, if-both-first and asks",
        )  # fmt: skip


def _same_keys(keys: Iterable[Entry], what: str, file: str) -> Iterator[Problem]:
    first: dict[str, Span] = {}
    for entry in keys:
        span = span_of(entry.value, file)
        text = plain(entry.value)
        if not isinstance(text, str):
            continue
        if text in first:
            yield Problem(
                codes.SAME_KEY, span, f'another {what} is called "{text}" already',
                f"give this {what} a key of its own", see=(Related(first[text], "the first one"),),
            )  # fmt: skip
        first.setdefault(text, span)


def _step_keys(tree: Mapping) -> Iterator[Entry]:
    phases = tree.entries["phases"].value
    for phase in phases.items if isinstance(phases, Sequence) else ():
        steps = phase.entries["steps"].value if isinstance(phase, Mapping) else None
        for step in steps.items if isinstance(steps, Sequence) else ():
            if isinstance(step, Mapping):
                yield step.entries["key"]


def _test_keys(tree: Mapping) -> Iterator[Entry]:
    tests = tree.entries["practical"].value
    for test in tests.items if isinstance(tests, Sequence) else ():
        if isinstance(test, Mapping):
            yield test.entries["key"]
