"""Problems -> workflow commands that a continuous-integration run shows beside the changed lines."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from builder.model.problem import Problem


def github(problems: Iterable[Problem]) -> Iterator[str]:
    """Yield one command a problem."""
    for problem in problems:
        span = problem.span
        where = (
            f"file={_property(span.file)},line={span.line},col={span.column},endColumn={span.end},"
            f"title={_property(f'{problem.code.id} {problem.code.name}')}"
        )
        why = f" Why: {problem.why}" if problem.why else ""
        yield f"::{problem.level} {where}::{_data(f'{problem.message}. Do: {problem.do}.{why}')}"


def _data(text: str) -> str:
    return text.replace("%", "%25").replace("\r", "%0D").replace("\n", "%0A")


def _property(text: str) -> str:
    return _data(text).replace(":", "%3A").replace(",", "%2C")
