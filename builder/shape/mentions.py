"""Marked references, scale words and links in prose -> mentions, each once, and where they stand."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator

from builder.model.place import Span
from builder.model.problem import Problem
from builder.model.records.fields import Marked, Points, Word
from builder.model.reference import LONE_SUBJECTS, Mention, Ref, parse_reference
from builder.model.tree import Scalar, span_of
from builder.shape import codes
from builder.shape.marks import LINKED, Found

LINK = re.compile(r"\]\(([a-z]+:[^)\s]*)\)")
"""A Markdown link with a kind before its colon; one without a colon is left to the prose."""
WEB = ("http", "https")
"""What may stand before the colon beside a kind."""


def mentions_of(marks: Iterable[Found], file: str) -> tuple[tuple[Mention, ...], tuple[Problem, ...]]:
    """Return every mention once, in the order of the file, and the references that are written wrongly."""
    mentions: dict[Mention, None] = {}
    problems: list[Problem] = []
    for found, mention, span in _placed(_each_once(marks), file):
        if mention is None:
            problems.append(_bad_reference(found, span))
        else:
            mentions[mention] = None
    return tuple(mentions), tuple(problems)


def _each_once(marks: Iterable[Found]) -> Iterator[Found]:
    """The same text in the same field is the same mention; a wrong one is told at each of its places."""
    seen: set[tuple[str, str]] = set()
    for found in marks:
        key = (found.field, found.scalar.text)
        if key not in seen:
            if not isinstance(found.mark, Points) or parse_reference(found.scalar.text, _kind(found.mark)):
                seen.add(key)
            yield found


def _kind(mark: Points) -> str:
    """The kind of a bare id, where only one fits."""
    return "" if mark.lone or len(mark.kinds) > 1 else mark.kinds[0]


def places_of(marks: Iterable[Found], mention: Mention, file: str) -> tuple[Span, ...]:
    """Return every place where a record makes this mention."""
    return tuple(span for _, made, span in _placed(marks, file) if made == mention)


def _placed(marks: Iterable[Found], file: str) -> Iterator[tuple[Found, Mention | None, Span]]:
    for found in marks:
        mark, scalar = found.mark, found.scalar
        if isinstance(mark, Points):
            ref = parse_reference(scalar.text, _kind(mark))
            kinds = mark.kinds + LONE_SUBJECTS if mark.lone else mark.kinds
            yield found, None if ref is None else Mention(ref, kinds, found.field), span_of(scalar, file)
        elif isinstance(mark, Word):
            ref = Ref("scale", mark.scale, scalar.text)
            yield found, Mention(ref, ("scale",), found.field), span_of(scalar, file)
        elif isinstance(mark, Marked) and LINKED in scalar.text:
            for link in LINK.finditer(scalar.text):
                if link[1].split(":", 1)[0] not in WEB:
                    ref = parse_reference(link[1])
                    span = _part(scalar, link.start(1), link.end(1), file)
                    yield found, None if ref is None else Mention(ref, (), found.field), span


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
