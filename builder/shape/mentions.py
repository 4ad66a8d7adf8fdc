"""Marked references, scale words and links in prose -> mentions, each once, and where they stand."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping
from functools import lru_cache
from typing import cast

from builder.model.place import Span
from builder.model.problem import Problem
from builder.model.records.fields import Marked, Points, StepOfRun, Word
from builder.model.reference import LONE_SUBJECTS, Mention, Ref, parse_reference, parse_run_step
from builder.model.tree import Scalar, span_of
from builder.shape import codes
from builder.shape.marks import LINKED, Found, Mark

LINK = re.compile(r"\]\(([a-z]+:[^)\s]*)\)")
"""A Markdown link with a kind before its colon; one without a colon is left to the prose."""
WEB = ("http", "https")
"""What may stand before the colon beside a kind."""


def mentions_of(marks: Iterable[Found], file: str) -> tuple[tuple[Mention, ...], tuple[Problem, ...]]:
    """Return every mention once, in the order of the file, and the references that are written wrongly."""
    mentions: dict[Mention, None] = {}
    problems: list[Problem] = []
    for found, mention, span in _placed(marks, file):
        if mention is None:
            problems.append(_bad_reference(found, span))
        else:
            mentions[mention] = None
    return tuple(mentions), tuple(problems)


def mentions_at_once(marks: Mapping[tuple[str, str], Mark]) -> tuple[Mention, ...] | None:
    """Return the mentions of a record's marked texts; None where a reference is written wrongly."""
    made = [mention for (text, field), mark in marks.items() for mention, _, _ in _made(mark, text, field)]
    return None if None in made else cast("tuple[Mention, ...]", tuple(dict.fromkeys(made)))


def places_of(marks: Iterable[Found], mention: Mention, file: str) -> tuple[Span, ...]:
    """Return every place where a record makes this mention."""
    return tuple(span for _, made, span in _placed(marks, file) if made == mention)


def _placed(marks: Iterable[Found], file: str) -> Iterator[tuple[Found, Mention | None, Span]]:
    for found in marks:
        for mention, start, end in _made(found.mark, found.scalar.text, found.field):
            whole = not isinstance(found.mark, Marked)
            yield found, mention, span_of(found.scalar, file) if whole else _part(found.scalar, start, end, file)


@lru_cache(maxsize=65536)
def _made(mark: Mark, text: str, field: str) -> tuple[tuple[Mention | None, int, int], ...]:
    """Return what one text mentions and from which character to which; None where it is written wrongly."""
    if isinstance(mark, Points):
        ref = parse_reference(text, "" if mark.lone or len(mark.kinds) > 1 else mark.kinds[0])
        kinds = mark.kinds + LONE_SUBJECTS if mark.lone else mark.kinds
        return ((None if ref is None else Mention(ref, kinds, field), 0, len(text)),)
    if isinstance(mark, Word):
        return ((Mention(Ref("scale", mark.scale, text), ("scale",), field), 0, len(text)),)
    if isinstance(mark, StepOfRun):
        step = parse_run_step(text)
        return ((None if step is None else Mention(step.ref, ("procedure",), field), 0, len(text)),)
    if not isinstance(mark, Marked) or LINKED not in text:
        return ()
    links = [link for link in LINK.finditer(text) if link[1].split(":", 1)[0] not in WEB]
    refs = [parse_reference(link[1]) for link in links]
    return tuple(
        (None if ref is None else Mention(ref, (), field), link.start(1), link.end(1))
        for link, ref in zip(links, refs, strict=True)
    )  # fmt: skip


def _part(scalar: Scalar, start: int, end: int, file: str) -> Span:
    """Narrow to a part of the scalar where its characters stand one to one; else take its first line."""
    if not scalar.plain:
        return span_of(scalar, file)
    first = scalar.column + scalar.quoted
    return Span(file, scalar.line, first + start, first + end)


def _bad_reference(found: Found, span: Span) -> Problem:
    mark = found.mark
    forms = [f"{kind}:id" for kind in mark.kinds] if isinstance(mark, Points) and len(mark.kinds) > 1 else ["kind:id"]
    if isinstance(mark, Points) and mark.lone:
        forms += LONE_SUBJECTS
    return Problem(
        codes.BAD_REFERENCE, span, f'"{found.scalar.text[:60]}" is no reference',
        f"write it in the form {' or '.join(forms)}",
    )  # fmt: skip
