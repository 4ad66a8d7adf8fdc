"""Markdown with a head of YAML -> a tree with a place for every key, every value and every line below the head.

`parse_page` is the entry point, `parse_plain_page` its counterpart without places. The text goes into the tree line by
line, since each line's characters stand one to one in the file: so a bad link is told at its own place.
"""

from __future__ import annotations

from typing import NamedTuple

from builder.model.place import Span
from builder.model.problem import Problem, Related
from builder.model.records.fields import FILL_IN
from builder.model.records.page import TEXT
from builder.model.tree import Entry, Mapping, Scalar, Sequence, span_of
from builder.read import codes
from builder.read.plain import Plain, parse_plain
from builder.read.tree import CONTROL, control_character, parse

PAGE_ENDING = ".md"
FENCE = "---"
"""Stands alone on the line before the head and on the line behind it."""


class _Parts(NamedTuple):
    head: str
    """With an empty line in place of the fence, so that lines are counted as the file's."""
    lines: list[str]
    """Below the head."""
    first: int
    """Number of the first of them."""


def parse_page(text: str, file: str) -> tuple[Mapping | None, tuple[Problem, ...]]:
    """Read one page."""
    control = CONTROL.search(text)
    if control:
        return None, (control_character(text, control.start(), file),)
    parts = _parts(text)
    if parts is None:
        return None, (_no_head(text, file),)
    head, problems = parse(parts.head, file)
    if head is None:
        return None, problems
    body = _below(parts)
    if not any(line.strip() for line in parts.lines):
        last = parts.first - 1
        problems += (Problem(
            codes.NO_TEXT, Span(file, last, 1, 1 + len(FENCE)), "nothing stands below the head", "write the page there",
        ),)  # fmt: skip
    if TEXT in head.entries:
        key, place = head.entries[TEXT].key, Span(file, body.line, body.column, body.end)
        return None, (*problems, Problem(
            codes.DUPLICATE_KEY, span_of(key, file), f'"{TEXT}" is what stands below the head',
            "take the key out of the head, and write the text below it", see=(Related(place, "the text"),),
        ))  # fmt: skip
    key = Scalar(TEXT, body.line, body.column, body.end, False)
    return Mapping({**head.entries, TEXT: Entry(key, body)}, head.line, head.column, head.end), problems


def parse_plain_page(text: str) -> Plain | None:
    """Read one page as plain values; None where anything at all is odd."""
    parts = _parts(text)
    if parts is None or CONTROL.search(text) or FILL_IN in text or not any(line.strip() for line in parts.lines):
        return None
    head = parse_plain(parts.head)
    return None if head is None or TEXT in head else {**head, TEXT: parts.lines}


def _parts(text: str) -> _Parts | None:
    lines = text.split("\n")
    if lines[0].rstrip() != FENCE:
        return None
    end = next((at for at, line in enumerate(lines) if at > 0 and line.rstrip() == FENCE), None)
    return None if end is None else _Parts("\n".join(["", *lines[1:end]]), lines[end + 1:], end + 2)


def _below(parts: _Parts) -> Sequence:
    lines = tuple(
        Scalar(line, parts.first + at, 1, max(len(line) + 1, 2), True) for at, line in enumerate(parts.lines)
    )  # fmt: skip
    return Sequence(lines, parts.first, 1, 2)


def _no_head(text: str, file: str) -> Problem:
    begun = text.split("\n")[0].rstrip() == FENCE
    said = "the head of this page is never closed" if begun else "this page has no head"
    do = f"write {FENCE} alone on the line behind its last key" if begun \
        else f"begin it with a line {FENCE}, then title: and what it is called, then a line {FENCE}"  # fmt: skip
    return Problem(codes.NO_HEAD, Span(file, 1, 1, 1 + len(FENCE) if begun else 2), said, do)
