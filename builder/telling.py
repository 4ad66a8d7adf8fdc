"""What a way through found -> blocks of text with the author's own lines, and how many of each sort."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from pathlib import Path

from builder import pipeline
from builder.model.place import Span
from builder.model.problem import Problem


def blocks(problems: Sequence[Problem], paths: Mapping[str, Path]) -> tuple[str, ...]:
    """Return one block of lines a problem; `paths` finds a file by the name it is shown under."""
    return tuple(pipeline.report.text(problems, lambda span: _line(span, paths)))


def counted(problems: Sequence[Problem]) -> str:
    """Return `2 errors, 1 warning`."""
    errors = sum(problem.level == "error" for problem in problems)
    warnings = len(problems) - errors
    return f"{errors} error{'s' * (errors != 1)}, {warnings} warning{'s' * (warnings != 1)}"


def paths_of(outcome: pipeline.Outcome) -> dict[str, Path]:
    """Return the files of a book by the names they are shown under."""
    return {file.shown: file.path for file in outcome.discovery.files}


def _line(span: Span, paths: Mapping[str, Path]) -> str:
    """Read the author's line again, now that it must be shown."""
    path = paths.get(span.file) or Path(span.file)
    # A picture has no lines; and a link that is no file of the book may lead to what is not the book's to show.
    if path.suffix not in (".yaml", ".md") or (span.file not in paths and path.is_symlink()):
        return ""
    try:
        text = (pipeline.bytes_of(path) or b"").decode("utf-8-sig", errors="replace")
        return text.replace("\r\n", "\n").replace("\r", "\n").split("\n")[span.line - 1]
    except (OSError, IndexError):
        return ""
