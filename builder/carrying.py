"""Who names what, and the files of records -> what a procedure takes along on a phone; found anew where it changed."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from typing import Any

from builder import delivery
from builder.keeper import Made
from builder.model.ledger import mark_of
from builder.model.links import Catalogue
from builder.model.reference import Ref
from builder.putting import Fresh, Putting, Unit

STRETCHES = "stretches of procedures"
Led = tuple[tuple[str, str], ...]
"""Records by kind and id."""


class Carrying:
    """Finds what procedures lead to, and where that lies among the files of records."""

    def __init__(
        self, putting: Putting, catalogue: Catalogue, groups: delivery.Groups, ways_of: Mapping[Ref, frozenset[str]],
        files_of: Mapping[Ref, tuple[str, ...]],
    ) -> None:  # fmt: skip
        self.putting, self.catalogue, self.groups = putting, catalogue, groups
        self.ways_of = ways_of
        self.by_page = {files[0]: ref for ref, files in files_of.items()}
        self.ranked = delivery.Ranked({path for files in groups.own.values() for path in files})
        self.ranks = {ref[:2]: self.ranked.ranks(files) for ref, files in groups.own.items()}

    def taken(self) -> list[delivery.Taken]:
        """Return of each procedure what it takes."""
        keeper = self.putting.keeper
        mark = mark_of(repr([(*ref[:2], files) for ref, files in self.groups.own.items()]).encode())
        kept = keeper.result_before(STRETCHES) if keeper.own_before(STRETCHES) == mark else None
        known: Mapping[str, bytes] = kept or {}
        found: dict[str, bytes] = {}
        for ref, is_fresh, led in self._led():
            old = None if is_fresh else known.get(ref.id)
            found[ref.id] = self._stretches(led()) if old is None else old
        if found == kept:
            keeper.keep_again(STRETCHES)
        else:
            keeper.keep_unit(STRETCHES, mark, Made(found, {}, b""))
        titles = self._titles()
        return [delivery.Taken(id_, titles[id_], stretches) for id_, stretches in found.items()]

    def _titles(self) -> dict[str, str]:
        return {ref.id: summary.title for ref, summary in self.catalogue.summaries.items() if ref.kind == "procedure"}

    def _stretches(self, led: Led) -> bytes:
        return self.ranked.stretches(self.ranks.get(one, ()) for one in led)

    def _led(self) -> Iterator[tuple[Ref, bool, Callable[[], Any]]]:
        """Yield each procedure, whether what it leads to was found anew, and what that is."""
        refs = sorted(ref for ref in self.catalogue.summaries if ref.kind == "procedure")
        ref_of = {f"led to by {ref.id}": ref for ref in refs}
        units = [Unit(name, self._mark(ref)) for name, ref in ref_of.items()]
        fresh: set[Ref] = set()

        def made(unit: Unit) -> Fresh[None]:
            ref = ref_of[unit.name]
            fresh.add(ref)
            led: Led = tuple(sorted(one[:2] for one in delivery.led_to(self.catalogue, self._ways, ref)))
            return Fresh({}, None, led)

        for ref, one in zip(refs, self.putting.every(units, made, 1), strict=True):
            yield ref, ref in fresh, one.apart

    def _ways(self, ref: Ref) -> set[Ref]:
        """Return the records that a procedure's own page leads to."""
        return {self.by_page[way] for way in self.ways_of.get(ref, ()) if way in self.by_page}

    def _mark(self, ref: Ref) -> bytes:
        """Mark what of other pages is asked for by name: where those of it and of what it relies on lead."""
        ways = set().union(*(self.ways_of.get(other, ()) for other in delivery.relied_on(self.catalogue, ref)))
        return mark_of("\n".join(sorted(ways & self.by_page.keys())).encode())
