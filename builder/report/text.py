"""Problems -> plain text for a terminal or a log: the place, then the author's own line with the culprit marked."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Iterator
from unicodedata import combining, east_asian_width

from builder.model.place import Span
from builder.model.problem import Problem

LineOf = Callable[[Span], str]
"""Returns the author's line at a place, or an empty text where it cannot be had."""
_UNSEEN = re.compile("[\x00-\x1f\x7f-\x9f\u2028\u2029\u202a-\u202e\u2066-\u2069]")
WIDEST = 160
"""A longer line is cut around the culprit."""


def text(problems: Iterable[Problem], line_of: LineOf) -> Iterator[str]:
    """Yield one block of lines a problem."""
    for problem in problems:
        yield "\n".join(visible(line) for line in _block(problem, line_of))


def place(span: Span) -> str:
    """Return `file:line:column`, which editors and terminals turn into a link."""
    return f"{span.file}:{span.line}:{span.column}"


def _block(problem: Problem, line_of: LineOf) -> Iterator[str]:
    span = problem.span
    yield f"{place(span)}: {problem.level}: {problem.message} ({problem.code.id})"
    yield from _quoted(span, line_of(span))
    yield f"    do    {problem.do}"
    if problem.why:
        yield f"    why   {problem.why}"
    for related in problem.see:
        yield f"    see   {place(related.span)} {related.label}"


def _quoted(span: Span, line: str) -> Iterator[str]:
    """The line as written, and below it the culprit dimensioned as on a drawing."""
    if not line.strip():
        return
    margin = f"    {span.line}  "
    first = span.column - 1
    cut = max(0, min(first - 20, len(line) - WIDEST)) if len(line) > WIDEST else 0
    shown = line[cut:cut + WIDEST].replace("\t", " ")
    culprit = shown[first - cut:span.end - 1 - cut]
    yield margin + shown
    yield " " * (len(margin) + columns(shown[:first - cut])) + dimension(columns(culprit))


def columns(text: str) -> int:
    """Return how many columns a terminal gives a text (Unicode Standard Annex 11)."""
    return sum(0 if combining(letter) else 1 + (east_asian_width(letter) in "WF") for letter in text)


def visible(line: str) -> str:
    """Return a line without what would steer the terminal or turn the reading direction: it comes from a file."""
    return _UNSEEN.sub("\N{REPLACEMENT CHARACTER}", " ".join(line.split("\n")))


def dimension(width: int) -> str:
    """Return a dimension line this many characters wide."""
    return "^" if width < 2 else "<" + "-" * (width - 2) + ">"
