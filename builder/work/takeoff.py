"""A procedure -> what each of its steps takes of supplies: by the plans of its seams, else by the supplies' records."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from builder.model.jobs import Taken
from builder.model.links import Catalogue
from builder.model.records.procedure import Procedure
from builder.model.records.supporting import Supply
from builder.model.reference import Ref
from builder.model.summary import StepSummary
from builder.work.amounts import NO_AMOUNT, Amount, unit_of
from builder.work.seam_use import Joining, joining, planned_use
from builder.work.usage import usage_for, used
from builder.work.workings import Shop

ONCE_A_JOB = "job"
OTHER = {"left": "right", "right": "left"}


def take_off(record: Procedure, ref: Ref, catalogue: Catalogue, shop: Shop) -> tuple[Taken, ...]:
    """Return what a procedure takes, in the order of its steps; what is counted once stands where it comes first."""
    told = catalogue.summaries[ref].steps
    listed = [step.supplies for phase in record.phases for step in phase.steps]
    joined = joining(told)
    found: list[Taken] = []
    seen: set[tuple[str, str]] = set()
    for step, supplies in zip(told, listed, strict=True):
        for taken in _of_step(step, supplies, joined, catalogue, shop):
            if not taken.once or (taken.supply, taken.once) not in seen:
                seen.add((taken.supply, taken.once))
                found.append(taken)
    return tuple(found)


def _of_step(
    step: StepSummary, supplies: Sequence[str], joined: Joining, catalogue: Catalogue, shop: Shop
) -> Iterator[Taken]:
    told = step._replace(act=_today("act", step.act, catalogue))
    planned: set[str] = set()
    for seam in (subject for subject in step.subjects if subject.kind == "seam"):
        for one in planned_use(told, seam, joined, catalogue, shop):
            planned.add(one.supply)
            yield _taken(one.supply, step.key, one.amount, shop, seam, catalogue, one.method)
    for id_ in (_today("supply", name, catalogue) for name in supplies):
        if id_ not in planned:
            yield from _listed(told, id_, catalogue, shop)


def _listed(step: StepSummary, id_: str, catalogue: Catalogue, shop: Shop) -> Iterator[Taken]:
    supply = shop.shelf.get(Ref("supply", id_))
    if not isinstance(supply, Supply):
        return
    usage = usage_for(supply, step.act, step.subjects)
    if usage is None:
        act = catalogue.title(Ref("act", step.act))
        how = f"{NO_AMOUNT}: nothing says how much the act “{act}” takes of it"
        yield _taken(id_, step.key, Amount(None, how), shop)
        return
    for one in used(supply, usage, step.subjects, catalogue, shop):
        row = _taken(id_, step.key, one.amount, shop, one.subject, catalogue, step.act)
        if one.counts == "job":
            yield row._replace(once=ONCE_A_JOB, sided=False)
        else:
            yield row if one.counts == "subject" else row._replace(once="")


def _taken(
    id_: str, key: str, amount: Amount, shop: Shop, subject: Ref | None = None, catalogue: Catalogue | None = None,
    way: str = "",
) -> Taken:  # fmt: skip
    supply = shop.shelf[Ref("supply", id_)]
    assert isinstance(supply, Supply)
    unit = unit_of(supply)
    if subject is None or catalogue is None:
        return Taken(id_, key, amount.number, unit, amount.how)
    name = f"{subject.kind}:{subject.id}|{subject.side}" + (f"|{way}" if way else "")
    is_sided = subject.record in catalogue.handed
    return Taken(id_, key, amount.number, unit, amount.how, name, is_sided, _only(subject, catalogue))


def _only(subject: Ref, catalogue: Catalogue) -> str:
    """Return the side of the work that alone meets this subject; one across the car is met from the other side."""
    summary = catalogue.find(subject)
    refs = (subject, *summary.relations.get("panels", ())) if summary is not None else ()
    sides = (found.only for found in map(catalogue.find, refs) if found is not None and found.only)
    side = next(sides, "")
    return OTHER.get(side, side) if subject.side == "other" else side


def _today(kind: str, name: str, catalogue: Catalogue) -> str:
    return catalogue.moved.get(Ref(kind, name), Ref(kind, name)).id
