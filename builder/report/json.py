"""Problems -> one JSON array, for tools."""

from __future__ import annotations

import json as _json
from collections.abc import Iterable

from builder.model.place import Span
from builder.model.problem import Problem


def json(problems: Iterable[Problem]) -> str:
    """Return the problems as an array of objects; places count from 1."""
    return _json.dumps([_object(problem) for problem in problems], ensure_ascii=False, indent=2)


def _place(span: Span) -> dict[str, object]:
    return {"file": span.file, "line": span.line, "column": span.column, "end": span.end}


def _object(problem: Problem) -> dict[str, object]:
    return {
        "code": problem.code.id,
        "name": problem.code.name,
        "level": problem.level,
        **_place(problem.span),
        "message": problem.message,
        "do": problem.do,
        "why": problem.why,
        "see": [{**_place(related.span), "label": related.label} for related in problem.see],
    }
