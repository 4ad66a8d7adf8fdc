"""The book's decisions -> those of a record or a step, worked out there; and what is wrong with their records."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

from builder.formula import TRUTH, Fault, Kind, Program, check_expression
from builder.formula.facts import fact_kinds
from builder.formula.inputs import answer
from builder.formula.plan_script import is_literal
from builder.model.decided import Decided
from builder.model.links import Catalogue
from builder.model.near import listed, offer
from builder.model.records.decision import Decision, Works
from builder.model.records.procedure import Procedure, Step
from builder.model.reference import Ref, parse_reference
from builder.model.shelf import of_kind
from builder.model.summary import KEY
from builder.work import codes
from builder.work.deciding import Placed, decide
from builder.work.told import segment_facts, step_facts
from builder.work.workings import Shop


def decided_on(ref: Ref, catalogue: Catalogue, shop: Shop) -> tuple[Decided, ...]:
    """Work out the decisions that stand on a seam's or a panel's page."""
    mine = [(id_, one) for id_, one in _sound(shop) if one.when.on == ref.kind]
    return _all_of(mine, list(_places_on(ref, catalogue, shop)), shop) if mine else ()


def decided_in(procedure: Procedure, catalogue: Catalogue, shop: Shop) -> dict[str, tuple[Decided, ...]]:
    """Work out the decisions that stand with a procedure's steps, by the step's key."""
    by_act: dict[str, list[tuple[str, Decision]]] = {}
    for id_, one in _sound(shop):
        for act in dict.fromkeys(_act_today(name, catalogue) for name in one.when.act):
            by_act.setdefault(act, []).append((id_, one))
    found: dict[str, tuple[Decided, ...]] = {}
    for step in (step for phase in procedure.phases for step in phase.steps) if by_act else ():
        mine = by_act.get(_act_today(step.act, catalogue))
        decided = _all_of(mine, list(_places_at(step, catalogue, shop)), shop) if mine else ()
        if decided:
            found[step.key] = decided
    return found


def _all_of(decisions: Iterable[tuple[str, Decision]], places: list[Placed], shop: Shop) -> tuple[Decided, ...]:
    made = (decide(id_, one, places, shop) for id_, one in decisions)
    return tuple(one for one in made if one is not None)


def _sound(shop: Shop) -> Iterator[tuple[str, Decision]]:
    """Yield the decisions that nothing is wrong with; what is was told at their own records."""
    for ref, record in of_kind(shop.shelf, "decision", Decision):
        if not decision_faults(ref.id, record, shop):
            yield ref.id, record


def _act_today(name: str, catalogue: Catalogue) -> str:
    return catalogue.moved.get(Ref("act", name), Ref("act", name)).id


def _places_on(ref: Ref, catalogue: Catalogue, shop: Shop) -> Iterator[Placed]:
    summary = catalogue.summaries[ref]
    for at, facts in enumerate(summary.facts):
        name = _segment_name(facts["name"], at, len(summary.facts)) if ref.kind == "seam" else ""
        yield Placed(name, segment_facts(summary, at, catalogue, shop) if ref.kind == "seam" else facts)


def _places_at(step: Step, catalogue: Catalogue, shop: Shop) -> Iterator[Placed]:
    """Each segment of the step's seams; where there are several seams it is told of which."""
    refs = [ref for text in step.on if (ref := parse_reference(text)) is not None and ref.kind == "seam"]
    seams = [(ref, seam) for ref in refs if (seam := catalogue.find(ref)) is not None]
    for ref, seam in seams:
        title = f"{seam.title}, other side" if ref.side == "other" else seam.title
        for at, facts in enumerate(seam.facts):
            name = _segment_name(facts["name"], at, len(seam.facts))
            yield Placed(name, step_facts(step, seam, at, catalogue, shop), title if len(seams) > 1 else "")


def _segment_name(name: object, at: int, count: int) -> str:
    return str(name or f"segment {at + 1}") if count > 1 else ""


def decision_faults(id_: str, decision: Decision, shop: Shop) -> tuple[Fault, ...]:
    """Find what is wrong with a decision's record; a calculator that is missing or broken is told elsewhere."""
    return shop.decisions.get(id_, lambda: tuple(_faults(decision, shop)))


def _faults(decision: Decision, shop: Shop) -> Iterator[Fault]:
    when, works = decision.when, decision.works
    if bool(when.act) == bool(when.on):
        said = "both act and on" if when.act else "neither act nor on"
        yield Fault(codes.NOT_ONE_PLACE, f"this has {said}", "write one of them", path=("when",))
    program = shop.programs.get(works.calculator)
    if program is None or not (when.act or when.on):
        return  # without a place there are no facts to check by
    if program.points is not None:
        message = f"{program.id} works on a table of points, which no fact tells"
        yield Fault(codes.POINTS_NEEDED, message, "choose a calculator without", path=("works", "calculator"))
        return
    kinds = fact_kinds("step" if when.act else {"seam": "segment"}.get(when.on or "", when.on or ""), shop.scales_told)
    for fault in (*_given_faults(works, program, kinds), *_possible_faults(works, program, kinds),
                  *_shown_faults(works, program)):  # fmt: skip
        yield fault.under(("works",))


def _given_faults(works: Works, program: Program, kinds: Mapping[str, Kind]) -> Iterator[Fault]:
    for name, text in works.with_.items():
        question = program.questions.get(name)
        if question is None:
            yield _unknown_input(name, program, ("with", name, KEY))
        elif is_literal(text, question):
            taken = answer(question, text)
            if isinstance(taken, Fault):
                yield Fault(codes.BAD_GIVEN, taken.message, taken.do, path=("with", name))
        else:
            for fault in check_expression(text, kinds, question.kind).faults:
                yield fault.under(("with", name))


def _unknown_input(name: str, program: Program, path: tuple[str, ...]) -> Fault:
    do = offer(name, program.questions, f"use one of: {listed(program.questions)}")
    return Fault(codes.UNKNOWN_INPUT, f'{program.id} has no input "{name}"', do, path=path)


def _possible_faults(works: Works, program: Program, kinds: Mapping[str, Kind]) -> Iterator[Fault]:
    for name, ids in works.possible.items():
        question, path = program.questions.get(name), ("possible", name)
        if question is None:
            yield _unknown_input(name, program, (*path, KEY))
        elif name in works.with_ or not question.choices:
            said = "is given under with" if name in works.with_ else "is no choice"
            yield Fault(codes.NO_OPEN_CHOICE, f'"{name}" {said}', "take it out here", path=(*path, KEY))
        else:
            for id_, text in ids.items():
                if id_ not in question.choices:
                    do = offer(id_, question.choices, f"write one of: {listed(question.choices)}")
                    message = f'"{name}" has no choice "{id_}"'
                    yield Fault(codes.NO_OPEN_CHOICE, message, do, path=(*path, id_, KEY))
                for fault in check_expression(text, kinds, TRUTH).faults:
                    yield fault.under((*path, id_))


def _shown_faults(works: Works, program: Program) -> Iterator[Fault]:
    decisions = program.record.decide
    for at, name in enumerate(works.show):
        if name not in program.outputs:
            do = offer(name, decisions, f"show one of: {listed(decisions)}")
            yield Fault(codes.UNKNOWN_OUTPUT, f'{program.id} has no answer "{name}"', do, path=("show", at))
        elif name not in decisions:
            do = f"show one of: {listed(decisions)}" if decisions else "choose a calculator that decides"
            yield Fault(codes.SHOWN_NO_DECISION, f'"{name}" is no decision', do, path=("show", at))
    if not works.show:
        yield Fault(codes.SHOWN_NO_DECISION, "no decision is shown", f"show one of: {listed(decisions)}",
                    path=("show",))  # fmt: skip
