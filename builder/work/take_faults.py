"""What a working takes of supplies, and what a supply says of its use -> what is wrong with either."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from builder.formula import Fault, NumberKind, Program
from builder.formula.facts import fact_kinds
from builder.formula.kinds import describe, kind_of_unit
from builder.formula.units import unit
from builder.model.near import listed, offer
from builder.model.records import Record
from builder.model.records.supporting import Supply, Usage
from builder.model.records.working import Takes, Working
from builder.model.reference import Ref
from builder.work import codes
from builder.work.amounts import inputs_named
from builder.work.naming import Naming
from builder.work.usage import working_of
from builder.work.workings import Shop, faults_of


def takes_faults(working: Working, program: Program, shelf: Mapping[Ref, Record]) -> Iterator[Fault]:
    """Check which answers are amounts of which supplies."""
    for at, one in enumerate(working.takes):
        supply = shelf.get(Ref("supply", one.supply))
        found = _answer_faults(one, working, program, supply if isinstance(supply, Supply) else None)
        yield from (fault.under(("takes", at)) for fault in found)


def _answer_faults(one: Takes, working: Working, program: Program, supply: Supply | None) -> Iterator[Fault]:
    output = program.outputs.get(one.answer)
    if output is None:
        do = offer(one.answer, program.outputs, f"take one of: {listed(program.outputs)}")
        yield Fault(codes.TAKES_NOTHING, f'{program.id} has no answer "{one.answer}"', do, path=("answer",))
    elif not isinstance(output.kind, NumberKind):
        yield Fault(codes.TAKES_NOTHING, f'"{one.answer}" is no amount', "take an answer that is a number",
                    path=("answer",))  # fmt: skip
    elif supply is not None and (fault := _bought_otherwise(output.kind, supply)) is not None:
        yield fault.under(("answer",))
    for name in inputs_named(one.how):
        if name not in working.with_:
            do = offer(name, working.with_, f"name one of: {listed(working.with_)}")
            yield Fault(codes.TAKES_NOTHING, f'{program.id} is not given "{name}"', do, path=("how",))


def _bought_otherwise(kind: NumberKind, supply: Supply) -> Fault | None:
    if supply.pack is None:
        return Fault(codes.NOT_AS_BOUGHT, f"{supply.title}: nothing says how it is bought", "give the supply a pack")
    bought = kind_of_unit(unit(supply.pack.size.unit) if supply.pack.size.unit else None)
    if kind == bought:
        return None
    message = f"{supply.title} is bought as {describe(bought)}, and this is {describe(kind)}"
    return Fault(codes.NOT_AS_BOUGHT, message, "take another answer, or give the pack in such a unit")


def supply_faults(supply: Supply, shop: Shop) -> Iterator[Fault]:
    """Check how a supply is bought and what it says of its use."""
    if supply.pack is not None and not supply.pack.size.value:
        yield Fault(codes.NOT_AS_BOUGHT, "a pack of nothing", "say what one holds", path=("pack", "size"))
    for at, usage in enumerate(supply.used):
        yield from (fault.under(("used", at)) for fault in _usage_faults(usage, supply, shop))


def _usage_faults(usage: Usage, supply: Supply, shop: Shop) -> Iterator[Fault]:
    said = [name for name in ("each", "by", "told", "counted") if getattr(usage, name) is not None]
    if len(said) != 1:
        message = f"this row says {' and '.join(said)}" if said else "this row says no amount"
        yield Fault(codes.USAGE_UNCLEAR, message, "write one of each, by, told and counted")
        return
    if usage.each is not None:
        if usage.source is None:
            yield Fault(codes.USAGE_UNCLEAR, "this amount names no source", "add source:", path=("each",))
        kind = kind_of_unit(unit(usage.each.unit) if usage.each.unit else None)
        if (fault := _bought_otherwise(kind, supply)) is not None:
            yield fault.under(("each",))
    if usage.by is not None:
        yield from (fault.under(("by",)) for fault in _reckoned_faults(usage, supply, shop))


def _reckoned_faults(usage: Usage, supply: Supply, shop: Shop) -> Iterator[Fault]:
    reckoned = usage.by
    assert reckoned is not None
    if usage.on is None:
        yield Fault(codes.USAGE_UNCLEAR, "nobody says whose facts this calculator is given", "add on: beside it",
                    path=("calculator",))  # fmt: skip
        return
    program = shop.programs.get(reckoned.calculator)
    if program is None:
        return
    naming = shop.naming() if usage.on == "seam" else Naming(fact_kinds(usage.on, shop.scales_told))
    yield from naming.add_fixed(reckoned.fixed)
    working = working_of(reckoned)
    yield from faults_of(working, program, shop, naming)
    takes = Takes(supply="", answer=reckoned.answer, acts=(), how=reckoned.how)
    yield from _answer_faults(takes, working, program, supply)
