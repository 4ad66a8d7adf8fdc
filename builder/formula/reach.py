"""Reachability: from a decision's conditions the rows that can never be reached, whatever the inputs are.

Every comparison of numbers counts as an open question of its own, every choice as one of its ids. A row is called
unreachable only where no set of answers makes it true and all rows above it false, so the finding is certain; two
comparisons that exclude each other (a < 1, a > 2) are not seen through.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import NamedTuple

from builder.formula.evaluate import evaluate, worker_of
from builder.formula.kinds import ChoiceKind, Kind
from builder.formula.no_answer import NoAnswer, Value
from builder.model.expression import Binary, Choice, Expression, Name, Unary, names_read, shape

MAX_TRIES = 20000
"""Where a decision asks for more, its rows are taken as reachable."""

Key = tuple[str, object]
Answers = dict[Key, object]
Judge = Callable[[Answers], bool | None]
"""Judges a condition from the answers so far; None where they do not settle it."""


class _Condition(NamedTuple):
    judge: Judge
    questions: tuple[tuple[Key, tuple[object, ...]], ...]
    """What it depends on, with the answers there can be."""


def unreachable_rows(conditions: list[Expression], kinds: Mapping[str, Kind | None]) -> list[int]:
    """Return the numbers of the rows, counted from 0, that no input reaches."""
    built = [_condition(condition, kinds) for condition in conditions]
    return [number for number, row in enumerate(built) if not _is_reachable(row, built[:number])]


def _is_reachable(row: _Condition, above: list[_Condition]) -> bool:
    questions = list(dict([*row.questions, *(question for other in above for question in other.questions)]).items())
    tries = 0

    def search(place: int, answers: Answers) -> bool:
        nonlocal tries
        tries += 1
        if tries > MAX_TRIES:
            return True
        judged = [other.judge(answers) for other in above]
        if row.judge(answers) is False or any(found is True for found in judged):
            return False
        if place == len(questions):
            return True
        key, possible = questions[place]
        return any(search(place + 1, {**answers, key: answer}) for answer in possible)

    return search(0, {})


def _condition(node: Expression, kinds: Mapping[str, Kind | None]) -> _Condition:
    match node:
        case Unary(operator="not"):
            inner = _condition(node.operand, kinds)
            return _Condition(lambda answers: _opposite(inner.judge(answers)), inner.questions)
        case Binary(operator="and" | "or"):
            return _joined(node.operator == "or", _condition(node.left, kinds), _condition(node.right, kinds))
        case Binary(operator="==" | "!="):
            name, id_ = (node.left, node.right) if isinstance(node.left, Name) else (node.right, node.left)
            if isinstance(name, Name) and isinstance(id_, Choice):
                return _choice(name.name, id_.id, kinds.get(name.name), node.operator == "==")
    return _atom(node)


def _joined(decisive: bool, left: _Condition, right: _Condition) -> _Condition:
    def judge(answers: Answers) -> bool | None:
        found = (left.judge(answers), right.judge(answers))
        if decisive in found:
            return decisive
        return None if None in found else not decisive

    return _Condition(judge, left.questions + right.questions)


def _choice(name: str, wanted: str, kind: Kind | None, is_equal: bool) -> _Condition:
    key = ("choice", name)
    ids = tuple(sorted(kind.ids)) if isinstance(kind, ChoiceKind) else (wanted, "")
    return _Condition(lambda answers: (answers[key] == wanted) is is_equal if key in answers else None, ((key, ids),))


def _atom(node: Expression) -> _Condition:
    """A comparison that is not looked into; without names it has one answer."""
    if not any(names_read(node)):
        settled: Value = evaluate(worker_of(node), {})
        return _Condition(lambda _: None if isinstance(settled, NoAnswer) else bool(settled), ())
    key = ("atom", shape_of(node))
    return _Condition(lambda answers: bool(answers[key]) if key in answers else None, ((key, (True, False)),))


def shape_of(node: Expression) -> object:
    """Return a comparison without places, `a > b` and `b < a` being one."""
    if isinstance(node, Binary) and node.operator in (">", ">="):
        return (node.operator.replace(">", "<"), shape(node.right), shape(node.left))
    if isinstance(node, Binary) and node.operator in ("<", "<="):
        return (node.operator, shape(node.left), shape(node.right))
    return shape(node)


def _opposite(found: bool | None) -> bool | None:
    return None if found is None else not found
