"""Plans as scripts: from a method what a page works its plan out by, and from a seam what is known of its segments.

`emit_method` and `emit_seam` are the entry points. A formula is written from the tree that Python works out, as a
calculator's is; plan.js puts the parts together as `work/methods.py` does.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from functools import lru_cache
from typing import Any

from builder.formula.fault import Fault
from builder.formula.inputs import Question, answer, compile_fixed, compile_input
from builder.formula.javascript import emit, input_data, text
from builder.formula.kinds import ChoiceKind
from builder.formula.pairs import Pairs
from builder.formula.parse import parse
from builder.formula.program import Program
from builder.model.expression import Expression, names_read
from builder.model.quantity import split_quantity
from builder.model.records.calculator import Input
from builder.model.records.law import Method
from builder.model.records.working import Working
from builder.model.summary import Facts

_METHOD = """\
window.seambook = window.seambook || {{}};
window.seambook.methods = window.seambook.methods || {{}};
window.seambook.methods[{id}] = (function () {{
  "use strict";
  return {{
    id: {id},
    fixed: {fixed},
    plan: [
{plan}
    ],
    limits: [
{limits}
    ],
    places: {places}
  }};
}}());
"""
_SEAM = """\
window.seambook = window.seambook || {{}};
window.seambook.seams = window.seambook.seams || {{}};
window.seambook.seams[{id}] = {data};
"""


def emit_method(id_: str, method: Method, programs: Mapping[str, Program]) -> str:
    """Return the script that puts a method into `seambook.methods`; its formulas are without fault."""
    fixed = {name: one.reading.base for name, record in method.fixed.items()
             if not isinstance(one := compile_fixed(record), Fault)}  # fmt: skip
    places = method.places
    named = () if places is None else (
        ("count", places.count), ("first", places.first), ("spacing", places.spacing),
        *((("order", places.order),) if places.order is not None else ()),
    )  # fmt: skip
    return _METHOD.format(
        id=text(id_), fixed=text(fixed),
        plan=",\n".join(_working(working, programs[working.calculator]) for working in method.plan),
        limits=",\n".join(
            f"      {{level: {text(limit.level)}, holds: {_function(limit.if_)}}}" for limit in method.limits
        ),
        places=f"{{{', '.join(f'{name}: {_function(formula)}' for name, formula in named)}}}" if named else "null",
    )  # fmt: skip


def emit_seam(id_: str, facts: Sequence[Facts], asked: Sequence[Input | None], pairs: Pairs) -> str:
    """Return the script that puts a seam into `seambook.seams`: facts of each segment, and how its length is asked."""
    segments = [
        {"facts": dict(known), "input": _length(f"length_{at}", one, pairs) if one is not None else None}
        for at, (known, one) in enumerate(zip(facts, asked, strict=True), 1)
    ]
    return _SEAM.format(id=text(id_), data=text({"segments": segments}))


def _length(name: str, asked: Input, pairs: Pairs) -> dict[str, Any]:
    question, _ = compile_input(name, asked)
    assert question is not None
    return input_data(asked, question, pairs)


def _working(working: Working, program: Program) -> str:
    given = ", ".join(
        f"{name}: {_given(formula, program.questions[name])}" for name, formula in working.with_.items()
    )
    return (
        f"      {{calculator: {text(program.id)}, name: {text(working.as_)}, when: {_function(working.when)}, "
        f"isQuiet: {text(working.quiet)}, otherwise: {text(working.otherwise or '')}, show: {text(working.show)},\n"
        f"       given: {{{given}}}}}"
    )


def _given(formula: str, question: Question) -> str:
    """A literal as its value, a formula as a function."""
    if not is_literal(formula, question):
        return _function(formula)
    value = answer(question, formula)
    # What is not admitted is handed on as it is written, and refused where it is read.
    return text(formula if isinstance(value, Fault) else value)


def is_literal(formula: str, question: Question) -> bool:
    """Whether what is given is no formula: a quantity, or the id of a choice."""
    if isinstance(question.kind, ChoiceKind):
        return formula in question.choices
    return _is_quantity(formula)


@lru_cache(maxsize=8192)
def _is_quantity(formula: str) -> bool:
    """`40 mm` is no formula, and `2 * length` no quantity, though both begin with a number."""
    found = split_quantity(formula)
    return found is not None and (not found.unit or isinstance(parse(formula), Fault))


def _tree(formula: str) -> Expression:
    tree = parse(formula)
    assert not isinstance(tree, Fault)
    return tree


def _names(tree: Expression) -> set[str]:
    return {node.name for node in names_read(tree)}


def _function(formula: str | None) -> str:
    if formula is None:
        return "null"
    tree = _tree(formula)
    # Whatever is known of a segment may be unknown, so every name may have no answer.
    return f"function (v, F) {{ return {emit(tree, _names(tree))}; }}"
