"""A supply -> how it is bought, and how much a step takes of it: what a job's order is summed from."""

from __future__ import annotations

from collections.abc import Iterator

from builder.model.quantity import Quantity
from builder.model.records.supporting import Pack, Supply, Usage
from builder.model.reference import Ref
from builder.model.said import Said, said
from builder.model.views import Facts, Html, Row
from builder.view.here import Here

PER = {
    "step": "a step", "subject": "for each seam, panel or cavity", "metre": "for each metre of seam",
    "job": "a job",
}  # fmt: skip


def bought_blocks(here: Here, supply: Supply) -> Iterator[Facts]:
    """Show how it is ordered; nothing where nobody has said it."""
    if supply.pack is None:
        return
    rows = [_row(here, supply.pack.say.capitalize(), _size(here, supply.pack), supply.pack.source)]
    if supply.waste is not None:
        part = here.shown(Quantity(f"{supply.waste.part:g}", "percent"))
        rows.append(_row(here, "Waste on top", part, supply.waste.source))
    if supply.always_whole:
        rows.append(here.row("An opened pack", "counts whole; what is left is lost"))
    rows += (row for usage in supply.used for row in _used(here, usage, supply.pack))
    yield Facts("As it is ordered for a job", tuple(rows), "bought")


def _used(here: Here, usage: Usage, pack: Pack) -> Iterator[Row]:
    label = ", ".join(here.book.catalogue.title(Ref("act", act)) for act in usage.acts) or "Any other step"
    if usage.on is not None:
        label = f"{label}, on a {usage.on}"
    told = usage.told or usage.counted
    if told is not None:
        yield Row(label, here.line(told))
    elif usage.each is not None and usage.source is not None:
        yield _row(here, label, said(_counted(here, usage.each, pack), f" {PER[usage.per]}"), usage.source)
    elif usage.by is not None:
        yield Row(label, Html(f"by {here.anchor(here.link('calculator', usage.by.calculator))}"))
        for name, one in usage.by.fixed.items():
            value = here.shown(Quantity(one.value, one.unit or ""))
            yield _row(here, f"{label}: {name.replace('_', ' ')}", value, one.source)


def _size(here: Here, pack: Pack) -> Said:
    return _counted(here, pack.size, pack)


def _counted(here: Here, amount: Quantity, pack: Pack) -> Said:
    return here.shown(amount) if amount.unit else Said(f"{amount.number} {pack.of or ''}".strip())


def _row(here: Here, label: str, value: Said, source: str) -> Row:
    return here.row(label, value, here.book.catalogue.title(Ref("source", source)))
