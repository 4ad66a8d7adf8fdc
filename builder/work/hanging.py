"""What a condition hangs on -> words, as the calculator asks them: `Width of the flange: under 12 mm`."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from builder.formula.evaluate import evaluate, worker_of
from builder.formula.inputs import Question
from builder.formula.numbers import plain
from builder.formula.program import Program
from builder.formula.rest import AllOf, Compared, Known, OneOf, Picks, Rest
from builder.formula.units import Unit, unit
from builder.model.decided import Clause, Piece
from builder.model.expression import Expression, Name, names_read
from builder.model.records.calculator import called

SAID = {"<": "under", "<=": "at most", ">": "over", ">=": "at least", "==": "exactly", "!=": "not"}
TURNED = {"<": ">", "<=": ">=", ">": "<", ">=": "<=", "==": "==", "!=": "!="}


def clauses(rest: Rest, program: Program, known: Known) -> tuple[Clause, ...]:
    """Return all that must be so; nothing where it holds already."""
    if isinstance(rest, bool):
        return ()
    parts = rest.parts if isinstance(rest, AllOf) else (rest,)
    return tuple(tuple(_pieces(part, program, known)) for part in parts)


def names_of(rest: Rest) -> Iterator[str]:
    """Yield the names that a rest is about, some of them more than once."""
    match rest:
        case Picks():
            yield rest.name
        case Compared():
            yield from (name.name for name in names_read(rest.node))
        case AllOf() | OneOf():
            for part in rest.parts:
                yield from names_of(part)


def _pieces(rest: Rest, program: Program, known: Known) -> Iterator[Piece]:
    match rest:
        case Picks():
            yield from picked(program.questions[rest.name], rest.ids, rest.possible)
        case Compared():
            yield from _compared(rest, program, known)
        case AllOf() | OneOf():
            between = Piece(" and " if isinstance(rest, AllOf) else ", or ")
            for at, part in enumerate(rest.parts):
                yield from (between,) * (at > 0)
                yield from _pieces(part, program, known)


def picked(question: Question, ids: frozenset[str], possible: frozenset[str]) -> Iterator[Piece]:
    """Say which choices it must be, or where that is shorter which it must not be."""
    others = possible - ids
    is_shorter = len(others) == 1 and len(ids) > 2
    yield Piece(f"{question.ask}: not " if is_shorter else f"{question.ask}: ")
    labels = [label for id_, label in question.choices.items() if id_ in (others if is_shorter else ids)]
    for at, label in enumerate(labels):
        yield from (Piece(" or "),) * (at > 0)
        yield Piece(label, is_answer=True)


def _compared(rest: Compared, program: Program, known: Known) -> Iterator[Piece]:
    node = rest.node
    left, right, operator = node.left, node.right, node.operator
    if not _is_open(left, known):
        left, right, operator = right, left, TURNED[operator]
    if not isinstance(left, Name) or (_is_open(right, known) and not isinstance(right, Name)):
        asked = dict.fromkeys(called(program.record, name.name) for name in names_read(node))
        yield Piece(f"it hangs on: {'; '.join(asked)}")
        return
    yield Piece(f"{called(program.record, left.name)}: {SAID[operator]} ")
    if isinstance(right, Name) and _is_open(right, known):
        other = called(program.record, right.name)
        yield Piece(other[:1].lower() + other[1:])
    else:
        value = evaluate(worker_of(right, known.tables), known.values)
        yield shown(value if isinstance(value, float) else 0.0, _unit_of((right, left), program))


def _is_open(node: Expression, known: Known) -> bool:
    return not isinstance(evaluate(worker_of(node, known.tables), known.values), float)


def _unit_of(sides: Iterable[Expression], program: Program) -> Unit | None:
    """The unit that a fixed value, an input or an answer among the sides is told in."""
    record = program.record
    for side in sides:
        if isinstance(side, Name):
            told = record.fixed.get(side.name) or record.inputs.get(side.name) or record.outputs.get(side.name)
            if told is not None and told.unit:
                return unit(told.unit)
    return None


def shown(base: float, known: Unit | None) -> Piece:
    """Show a number in base units in its own unit."""
    number = base if known is None else known.from_base(base)
    return Piece(plain(number, 4), known.name if known is not None else "", number, is_answer=True)
