"""Problems -> plain text for a terminal or a log: the place, then the author's own line with the culprit marked."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator

from builder.model.place import Span
from builder.model.problem import Problem

LineOf = Callable[[Span], str]
"""Returns the author's line at a place, or an empty text where it cannot be had."""
WIDEST = 160
"""A longer line is cut around the culprit."""


def text(problems: Iterable[Problem], line_of: LineOf) -> Iterator[str]:
    """Yield one block of lines a problem."""
    for problem in problems:
        yield "\n".join(_block(problem, line_of))


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
    width = max(1, min(span.end - span.column, len(shown) - (first - cut)))
    yield margin + shown
    yield " " * (len(margin) + first - cut) + dimension(width)


def dimension(width: int) -> str:
    """Return a dimension line this many characters wide."""
    return "^" if width < 2 else "<" + "-" * (width - 2) + ">"
