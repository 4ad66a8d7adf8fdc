"""A step on a seam -> what the plan of the method that joins it takes of supplies, and how that came about."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from typing import NamedTuple

from builder.formula import Answer
from builder.model.links import Catalogue
from builder.model.records.law import Method
from builder.model.records.supporting import Supply
from builder.model.reference import Ref
from builder.model.shelf import of_kind
from builder.model.summary import Facts, StepSummary, Summary
from builder.work.amounts import Amount, amount_of
from builder.work.around import surroundings
from builder.work.methods import plan_method, sound_methods, work_plan
from builder.work.usage import together
from builder.work.workings import Shop

Joining = Mapping[Ref, tuple[str, ...]]
"""Of each seam, on its side, the methods by which a procedure's steps join it."""


class Planned(NamedTuple):
    """What a seam takes of a supply."""

    supply: str
    amount: Amount
    method: str
    """Empty where it is the same by whichever method."""


def joining(steps: Sequence[StepSummary]) -> Joining:
    """Return by which methods each seam is joined."""
    found: dict[Ref, dict[str, None]] = defaultdict(dict)
    for step in steps:
        for ref in step.subjects:
            if step.method and ref.kind == "seam":
                found[ref][step.method] = None
    return {ref: tuple(methods) for ref, methods in found.items()}


def planned_use(
    step: StepSummary, seam: Ref, joined: Joining, catalogue: Catalogue, shop: Shop
) -> tuple[Planned, ...]:
    """Return what this step takes for a seam.

    Where a procedure joins one seam by several methods, each segment counts with that whose plan admits it.
    """
    if step.act not in shop.taking.get("", lambda: _taking_acts(shop)):
        return ()
    key = (step.act, step.method, seam, joined.get(seam, ()))
    return shop.uses.get(key, lambda: tuple(_planned_use(step, seam, joined, catalogue, shop)))


def _taking_acts(shop: Shop) -> frozenset[str]:
    """Return the acts for which any method's plan takes anything: most steps are of none."""
    return frozenset(act for _, method in of_kind(shop.shelf, "method", Method) for working in method.plan
                     for one in working.takes for act in one.acts)  # fmt: skip


def _planned_use(step: StepSummary, seam: Ref, joined: Joining, catalogue: Catalogue, shop: Shop) -> Iterator[Planned]:
    summary = catalogue.find(seam)
    if summary is None:
        return
    allowed = [ref.id for ref in summary.relations.get("methods", ())]
    used = joined.get(seam, ())
    methods = dict(sound_methods(tuple(dict.fromkeys((*(id_ for id_ in allowed if id_ in used), *allowed))), shop))
    takers = [id_ for id_, method in methods.items() if _takes(method, step.act)]
    if not takers or (step.method and step.method not in takers):
        return
    own = step.method or takers[0]
    rivals = [id_ for id_ in takers if id_ in used] if step.method else [own]
    around = surroundings(summary, catalogue, shop)
    parts: dict[str, list[tuple[str, Amount]]] = defaultdict(list)
    for at, facts in enumerate(summary.facts):
        name = _name(summary, at)
        told = {**facts, **around}
        if _chosen(rivals, methods, told, name, shop) not in (own, None):
            continue
        for supply, amount in _amounts(methods[own], step.act, told, name, shop):
            parts[supply].append((name, amount))
    for id_, amounts in parts.items():
        record = shop.shelf[Ref("supply", id_)]
        assert isinstance(record, Supply)
        yield Planned(id_, together(summary.title, amounts, record), step.method)


def _takes(method: Method, act: str) -> bool:
    return any(act in one.acts for working in method.plan for one in working.takes)


def _name(summary: Summary, at: int) -> str:
    return str(summary.facts[at].get("name") or f"segment {at + 1}") if len(summary.facts) > 1 else ""


def _chosen(
    rivals: Sequence[str], methods: Mapping[str, Method], facts: Facts, segment: str, shop: Shop
) -> str | None:
    """Return the first method whose limits do not stop it here; None where that leaves it open."""
    if len(rivals) < 2:
        return rivals[0] if rivals else None
    for id_ in rivals:
        plan = plan_method(id_, methods[id_], facts, segment, shop)
        if not any(remark.level == "stop" and not remark.unjudged for remark in plan.remarks):
            return id_
    return None


def _amounts(
    method: Method, act: str, facts: Facts, segment: str, shop: Shop
) -> Iterator[tuple[str, Amount]]:
    _, results = work_plan(method, facts, segment, shop)
    for working, result in zip(method.plan, results, strict=True):
        for one in working.takes:
            supply = shop.shelf.get(Ref("supply", one.supply))
            if act in one.acts and isinstance(supply, Supply) and isinstance(result.answer, Answer):
                yield one.supply, amount_of(result.answer, one.answer, one.how, supply)
