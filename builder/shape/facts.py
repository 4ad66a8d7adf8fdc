"""A record -> the facts that formulas may use about it, in base units; what is unknown has no value."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from fractions import Fraction
from functools import lru_cache

from builder.formula.units import unit
from builder.model.quantity import Quantity
from builder.model.records.body import Cavity, Panel, Seam, Segment
from builder.model.summary import Facts, FactValue

UNKNOWN = "unknown"
LARGEST_STACK = 4
"""sheet_1 to sheet_4 are named; a fifth sheet counts in the others."""


Scales = Mapping[str, tuple[str, ...]]
"""The words of each scale by its id, mildest first."""


def facts_of(record: object, scales: Scales) -> tuple[Facts, ...]:
    """Return the facts of a subject: of a seam one set for each segment, of a panel or cavity one."""
    if isinstance(record, Seam):
        shared = _seam_facts(record)
        return tuple({**shared, **_segment_facts(segment, scales)} for segment in record.segments)
    if isinstance(record, Panel):
        return ({
            "strength": record.strength, "load_bearing": _yes(record.load_bearing), "handed": _yes(record.handed),
            "bounds": _yes(bool(record.bounds)), "drains": _yes(bool(record.drains)),
            "may_section": _yes(bool(record.may_section)),
            "carries": UNKNOWN if record.carries is None else _yes(bool(record.carries)),
            "skin": None if record.skin is None else _yes(record.skin),
            "part": None if record.part == UNKNOWN else record.part,
            "face": base(record.face.area) if record.face else None,
        },)  # fmt: skip
    if isinstance(record, Cavity):
        return ({
            "reachable": record.reachable_after_closing, "wax_entries": float(len(record.wax_entries)),
            "drains": float(len(record.drains)), "lives_inside": _yes(bool(record.lives_inside)),
            "inside_area": _inside(record),
        },)  # fmt: skip
    return ({},)


def _inside(cavity: Cavity) -> float | None:
    """The area that is coated inside, taken as a tube; None where nobody measured it."""
    if cavity.inside is None:
        return None
    length, girth = base(cavity.inside.length), base(cavity.inside.girth)
    return length * girth if length is not None and girth is not None else None


def _seam_facts(seam: Seam) -> dict[str, FactValue]:
    seal = None if isinstance(seam.seal, str) else seam.seal
    return {
        "seal_profile": seal.profile if seal else None, "seal_size": base(seal.size) if seal else None,
        "joint": seam.joint, "sealed": _yes(not isinstance(seam.seal, str)), "filmed": _yes(seam.film != "none"),
        "closes": _yes(bool(seam.closes)), "layers_most": float(max(len(part.sheets) for part in seam.segments)),
    }  # fmt: skip


def _segment_facts(segment: Segment, scales: Scales) -> dict[str, FactValue]:
    thicknesses = [base(sheet.thickness) for sheet in segment.sheets]
    count = segment.factory_count
    length = base(segment.length)
    pitch = length / count if length is not None and count else None
    return {
        "name": segment.name or "",
        "length": length, "factory_pitch": pitch, "factory_joined": _yes(segment.factory != "none"),
        "flange": base(segment.flange), "depth": base(segment.reach.depth),
        "sides": segment.reach.sides, "layers": float(len(segment.sheets)),
        "outer": thicknesses[0], "inner": thicknesses[-1], "outside": _thinner(thicknesses[0], thicknesses[-1]),
        "factory_count": None if count is None else float(count),
        "coating": _strictest([sheet.coating for sheet in segment.sheets], scales.get("coating", ())),
        "strongest": _strictest([sheet.strength for sheet in segment.sheets], scales.get("strength", ())),
        **_stack_facts(thicknesses),
        **{f"sheet_{at}": thicknesses[at - 1] if at <= len(thicknesses) else 0.0
           for at in range(1, LARGEST_STACK + 1)},
        **{f"interface_{at}": _thinner(*thicknesses[at - 1 : at + 1]) if at < len(thicknesses) else 0.0
           for at in range(1, LARGEST_STACK)},
    }  # fmt: skip


def _thinner(*thicknesses: float | None) -> float | None:
    known = [thickness for thickness in thicknesses if thickness is not None]
    return min(known) if len(known) == len(thicknesses) else None


def _stack_facts(thicknesses: list[float | None]) -> dict[str, FactValue]:
    """Work out what a whole stack tells; one unknown sheet leaves all of it unknown.

    The governing sheet is the second thickest: of two the thinner, of three the middle one (AWS D8.1M:2013, clause 3).
    """
    known = sorted(thickness for thickness in thicknesses if thickness is not None)
    if len(known) < len(thicknesses) or not known:
        return dict.fromkeys(("governing", "thinnest", "thickest", "total", "ratio"))
    return {
        "governing": known[-2] if len(known) > 1 else known[0], "thinnest": known[0], "thickest": known[-1],
        "total": sum(known), "ratio": known[-1] / known[0],
    }  # fmt: skip


def _strictest(words: Sequence[str], order: tuple[str, ...]) -> str:
    """Of words of a scale return the strictest, which stands last in the scale; unknown outranks all."""
    if UNKNOWN in words:
        return UNKNOWN
    ranks = {word: rank for rank, word in enumerate(order)}
    return max(words, key=lambda word: ranks.get(word, len(order)))


@lru_cache(maxsize=8192)
def base(quantity: Quantity | None) -> float | None:
    """Return a quantity in base units; None where it is unknown."""
    known = unit(quantity.unit) if quantity is not None else None
    return None if quantity is None or known is None else known.to_base(Fraction(quantity.number))


def _yes(claim: bool) -> str:
    return "yes" if claim else "no"
