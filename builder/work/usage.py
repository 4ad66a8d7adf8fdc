"""What a supply says of its use, and a step that lists it -> how much that step takes, and how that came about."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Literal, NamedTuple

from builder.formula.facts import fact_values
from builder.formula.numbers import plain
from builder.formula.units import unit
from builder.model.links import Catalogue
from builder.model.records.supporting import Reckoned, Supply, Usage
from builder.model.records.working import Working
from builder.model.reference import Ref
from builder.model.summary import Facts
from builder.work.amounts import KEPT, NO_AMOUNT, Amount, amount_of, grouped, in_pack, shown
from builder.work.around import surroundings
from builder.work.naming import fixed_values
from builder.work.workings import Shop, work_out

METRE, LENGTH = "m", "length"


class Used(NamedTuple):
    """What a step takes of a supply."""

    amount: Amount
    subject: Ref | None = None
    """Whose it is, where the amount belongs to one subject."""
    counts: Literal["each", "subject", "job"] = "each"
    """Whether it counts with each step, or once for its subject, or once a job."""


def working_of(reckoned: Reckoned) -> Working:
    """Return the calculator put to work; nothing of it is shown but its amount."""
    return Working(calculator=reckoned.calculator, with_=reckoned.with_, show=())


def usage_for(supply: Supply, act: str, subjects: Sequence[Ref]) -> Usage | None:
    """Return the first row that speaks of such a step."""
    for usage in supply.used:
        if usage.acts and act not in usage.acts:
            continue
        if usage.on is None or any(ref.kind == usage.on for ref in subjects):
            return usage
    return None


def used(supply: Supply, usage: Usage, subjects: Sequence[Ref], catalogue: Catalogue, shop: Shop) -> Iterator[Used]:
    """Yield what a step takes by a row; of what it counts or works out for each subject one for each."""
    meant = [ref for ref in subjects if usage.on in (None, ref.kind)]
    if usage.told is not None:
        yield Used(Amount(None, f"{NO_AMOUNT}: {usage.told}"))
    elif usage.by is not None:
        for ref in meant:
            yield Used(_reckoned(supply, usage.by, ref, catalogue, shop), ref, "each" if usage.each_time else "subject")
    elif usage.each is not None and supply.pack is not None:
        each = in_pack(usage.each.value, usage.each.unit or "1", supply.pack)
        yield from _counted(supply, usage, each, meant, catalogue)


def _counted(
    supply: Supply, usage: Usage, each: float, subjects: Sequence[Ref], catalogue: Catalogue
) -> Iterator[Used]:
    said = f"{shown(each, supply) if each != 1 else plain(each)} a {usage.per}"
    if usage.per in ("step", "job"):
        yield Used(Amount(each, said), counts="job" if usage.per == "job" else "each")
        return
    for ref in subjects:
        title = catalogue.title(ref)
        if usage.per == "subject":
            yield Used(Amount(each, f"{title}: {shown(each, supply)}"), ref)
        elif ref.kind == "seam":
            metres = _metres(ref, catalogue)
            length = grouped(plain(metres, 4))
            number = round(each * metres, KEPT)
            yield Used(Amount(number, f"{title}: {length} m at {said} = {shown(number, supply)}"), ref)


def _metres(seam: Ref, catalogue: Catalogue) -> float:
    summary, metre = catalogue.find(seam), unit(METRE)
    lengths = (facts.get(LENGTH) for facts in summary.facts) if summary is not None else ()
    return sum(metre.from_base(length) for length in lengths if isinstance(length, float) and metre is not None)


def _reckoned(supply: Supply, reckoned: Reckoned, subject: Ref, catalogue: Catalogue, shop: Shop) -> Amount:
    program, summary = shop.programs.get(reckoned.calculator), catalogue.find(subject)
    title = catalogue.title(subject)
    if program is None or summary is None:
        return Amount(None, f"{title}: {NO_AMOUNT}")
    around = surroundings(summary, catalogue, shop) if subject.kind == "seam" else {}
    parts = []
    for facts in summary.facts:
        told: Facts = {**facts, **around}
        values = {**fact_values(told), **fixed_values(reckoned.fixed)}
        answer = work_out(working_of(reckoned), program, values, "", shop).answer
        assert answer is not None
        name = str(facts.get("name") or "") if len(summary.facts) > 1 else ""
        parts.append((name, amount_of(answer, reckoned.answer, reckoned.how, supply)))
    return together(title, parts, supply)


def together(title: str, parts: Sequence[tuple[str, Amount]], supply: Supply) -> Amount:
    """Put a subject's segments together: of one that has no amount nobody knows the whole."""
    how = "; ".join(f"{name}: {amount.how}" if name else amount.how for name, amount in parts)
    numbers = [amount.number for _, amount in parts]
    if any(number is None for number in numbers):
        return Amount(None, f"{title}: {how}")
    number = round(sum(number for number in numbers if number is not None), KEPT)
    whole = f"; together {shown(number, supply)}" if len(parts) > 1 else ""
    return Amount(number, f"{title}: {how}{whole}")
