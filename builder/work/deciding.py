"""A decision put to work with facts -> the answers that remain, and what of the calculator's warnings holds."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping
from typing import NamedTuple

from builder.formula import Fault, NoAnswer, Program, Value, evaluate_expression
from builder.formula.facts import fact_values
from builder.formula.inputs import Question, answer
from builder.formula.numbers import plain
from builder.formula.plan_script import is_literal
from builder.formula.remaining import Partly, Remaining
from builder.formula.rest import Known, Options, rest_of
from builder.model.decided import Case, Chosen, Decided, Piece, Spot, Told, Warned, Way
from builder.model.records.decision import Decision, Works
from builder.model.summary import Facts
from builder.work.hanging import clauses, names_of, shown
from builder.work.workings import Shop


class Placed(NamedTuple):
    """Facts of one place that a decision is worked out for."""

    name: str
    facts: Facts
    of: str = ""
    """What it is a part of, where a decision is worked out for several of such."""


def decide(id_: str, decision: Decision, places: Iterable[Placed], shop: Shop) -> Decided | None:
    """Work a decision out for each place and put alike ones together; None where there is no place or calculator."""
    program = shop.programs.get(decision.works.calculator)
    if program is None:
        return None
    found: dict[tuple[Way, ...], list[tuple[Spot, Chosen]]] = {}
    parts: Counter[str] = Counter()
    for place in places:
        parts[place.of] += 1
        chosen = _choose(id_, decision.works, program, place.facts, shop)
        spot = Spot(place.name, chosen.fragment, place.of)
        found.setdefault(chosen.ways, []).append((spot, chosen))
    cases = tuple(_case(alike, parts) for alike in found.values())
    return Decided(id_, program.id, cases) if cases else None


def _case(alike: list[tuple[Spot, Chosen]], parts: Mapping[str, int]) -> Case:
    first = alike[0][1]
    known = tuple(told for told in first.known if all(told in chosen.known for _, chosen in alike))
    warned: dict[Warned, list[str]] = {}
    for spot, chosen in alike:
        for one in chosen.warned:
            warned.setdefault(one, []).append(spot.whole)
    said = tuple(one._replace(at=tuple(at) if len(at) < len(alike) else ()) for one, at in warned.items())
    spots = tuple(spot for spot, _ in alike)
    return Case(spots, tuple(_where(spots, parts)), first.ways, first.asks, said, known)


def _where(spots: tuple[Spot, ...], parts: Mapping[str, int]) -> Iterator[str]:
    together: dict[str, list[str]] = {}
    for spot in spots:
        together.setdefault(spot.of, []).append(spot.name)
    for of, names in together.items():
        if len(names) == parts[of]:
            yield of
        else:
            yield f"{of}: {', '.join(names)}" if of else ", ".join(names)


def _choose(id_: str, works: Works, program: Program, facts: Facts, shop: Shop) -> Chosen:
    known, options = _told(works, program, facts)
    key = (id_, *known.items(), *options.items())
    found = shop.chosen.get(key)
    if found is None:
        found = shop.chosen[key] = _chosen(works, program, known, options)
    return found


def _told(works: Works, program: Program, facts: Facts) -> tuple[dict[str, Value], Options]:
    """Part the inputs into those that are known, in base units, and the choices that are open."""
    values = fact_values(facts)
    known: dict[str, Value] = {}
    options: dict[str, tuple[str, ...]] = {}
    for name, question in program.questions.items():
        given = _given(works.with_[name], question, values) if name in works.with_ else None
        if given is not None:
            known[name] = given
        elif question.choices:
            possible = works.possible.get(name, {})
            ids = tuple(id_ for id_ in question.choices
                        if id_ not in possible or evaluate_expression(possible[id_], values) is not False)  # fmt: skip
            if len(ids) == 1:
                known[name] = ids[0]
            else:
                # Where every id is ruled out the record contradicts itself, and nothing is known.
                options[name] = ids or tuple(question.choices)
    return known, options


def _given(text: str, question: Question, values: Mapping[str, Value]) -> float | str | None:
    """Return what an input is; None where that is not known, or is nothing the calculator admits."""
    found: Value = text if is_literal(text, question) else evaluate_expression(text, values)
    if isinstance(found, NoAnswer):
        return None
    taken = answer(question, found if isinstance(found, str) else float(found))
    return None if isinstance(taken, Fault) else taken


def _chosen(works: Works, program: Program, known: Mapping[str, Value], options: Options) -> Chosen:
    partly = Partly(program, known, options)
    remaining = partly.remaining(works.show)
    start = partly.known_at({})
    asked = dict.fromkeys(name for row in remaining for name in names_of(row.rest) if name in program.questions)
    return Chosen(
        ways=tuple(_way(row, program, start) for row in remaining),
        asks=tuple(program.questions[name].ask for name in asked),
        warned=tuple(_warned(program, partly.known_at(_settled(works.show, remaining)))),
        known=tuple(_told_shown(program.questions[name], value) for name, value in known.items()),
        fragment=_fragment(program, known),
    )


def _way(row: Remaining, program: Program, known: Known) -> Way:
    then = tuple(_way(after, program, known) for after in row.then)
    return Way(row.branch.say, row.branch.because, clauses(row.rest, program, known), then)


def _settled(names: tuple[str, ...], rows: tuple[Remaining, ...]) -> dict[str, str]:
    """Return the answers that nothing hangs on any more."""
    settled: dict[str, str] = {}
    for name in names:
        if len(rows) != 1:
            break
        settled[name] = rows[0].branch.answer
        rows = rows[0].then
    return settled


def _warned(program: Program, known: Known) -> Iterator[Warned]:
    """Those that hold and say to stop or take care; of those that hang on something, the ones that say to stop.

    What hangs on the decision itself is told by its rows.
    """
    for warning in program.warnings:
        rest = rest_of(warning.condition, known) if warning.level in ("stop", "care") else False
        if rest is True:
            yield Warned("stop" if warning.level == "stop" else "care", warning.say)
        elif rest is not False and warning.level == "stop" and not set(names_of(rest)) & program.record.decide.keys():
            yield Warned("stop", warning.say, clauses(rest, program, known))


def _told_shown(question: Question, value: Value) -> Told:
    if isinstance(value, str):
        return Told(question.ask, Piece(question.choices[value], is_answer=True))
    assert isinstance(value, float)
    return Told(question.ask, shown(value, question.unit))


def _fragment(program: Program, known: Mapping[str, Value]) -> str:
    """Write what is known so that the calculator's page can be opened with it."""
    parts = []
    for name, value in known.items():
        question = program.questions[name]
        if isinstance(value, str):
            parts.append(f"{name}:{value}")
        elif isinstance(value, float):
            behind = f"~{question.unit.name}" if question.unit.name else ""
            parts.append(f"{name}:{plain(question.unit.from_base(value))}{behind}")
    return "in=" + ",".join(parts)
