"""Facts about a seam's segment, a panel or a cavity -> their kinds, for checking formulas over them."""

from __future__ import annotations

from collections.abc import Mapping

from builder.formula.expressions import number
from builder.formula.kinds import Kind, choice
from builder.formula.no_answer import NoAnswer, Value
from builder.model.summary import Facts

YES_NO = ("yes", "no")
NOT_KNOWN = NoAnswer("it is unknown")
_LENGTHS = ("length", "flange", "depth", "governing", "thinnest", "thickest", "outer", "inner", "outside", "total",
            "sheet_1", "sheet_2", "sheet_3", "sheet_4", "interface_1", "interface_2", "interface_3",
            "factory_pitch", "seal_size")  # fmt: skip
_NUMBERS = ("layers", "layers_most", "ratio", "factory_count")
UNKNOWN_FACT = "unknown"
FACTORY = ("spot", "plug", "seam", "bond", "none")
"""How a method is drawn tells what sort of joint the factory made; none where there was no joint."""
KEPT = ("back", "front", "middle", "both")
"""Which sheets stay, seen from the face the tool comes from."""
METHOD = "method"
"""Stands among the scales for the ids of the methods there are."""

Scales = Mapping[str, tuple[str, ...]]


def fact_kinds(subject: str, scales: Scales) -> dict[str, Kind]:
    """Return the facts that formulas may use about a kind of subject; none about the body or the welder.

    `scales` holds the words of each scale by its id. A `segment` tells what its seam's record does and what its panels
    and the factory's method do; a `step` tells that and what it says itself.
    """
    if subject in ("segment", "step"):
        return {**fact_kinds("seam", scales), **_told_kinds(), **(_step_kinds(scales) if subject == "step" else {})}
    if subject == "seam":
        return {
            **{name: number("mm") for name in _LENGTHS}, **{name: number() for name in _NUMBERS},
            "joint": choice(scales.get("joint", ())), "coating": choice(scales.get("coating", ())),
            "strongest": choice(scales.get("strength", ())), "sides": choice(("both", "one", UNKNOWN_FACT)),
            "sealed": choice(YES_NO), "factory_joined": choice(YES_NO),
            "seal_profile": choice(scales.get("bead-profile", ())), "filmed": choice(YES_NO), "closes": choice(YES_NO),
        }  # fmt: skip
    if subject == "panel":
        return {
            "strength": choice(scales.get("strength", ())), "load_bearing": choice(YES_NO),
            "handed": choice(YES_NO), "bounds": choice(YES_NO), "drains": choice(YES_NO),
            "carries": choice((*YES_NO, UNKNOWN_FACT)), "may_section": choice(YES_NO),
            "skin": choice(YES_NO), "part": choice(("made", "donor", "none")), "face": number("m**2"),
        }  # fmt: skip
    if subject == "cavity":
        return {
            "reachable": choice((*YES_NO, UNKNOWN_FACT)), "wax_entries": number(), "drains": number(),
            "lives_inside": choice(YES_NO), "inside_area": number("m**2"),
        }  # fmt: skip
    return {}


def plan_kinds(scales: Scales, subject: str = "seam") -> dict[str, Kind]:
    """Return what formulas of a plan may use beside a segment's facts: what other records say of its surroundings."""
    return {**fact_kinds(subject, scales), "inside_area": number("m**2"), "film_thickness": number("mm")}


def _told_kinds() -> dict[str, Kind]:
    return {"factory": choice(FACTORY), "load_bearing": choice(YES_NO), "skin": choice(YES_NO)}


def _step_kinds(scales: Scales) -> dict[str, Kind]:
    strengths = choice(scales.get("strength", ()))
    return {
        "kept_place": choice(KEPT), "outer_stays": choice(YES_NO), "scrap_face": choice(YES_NO),
        "kept_thickness": number("mm"), "scrap_thickness": number("mm"),
        "kept_strength": strengths, "scrap_strength": strengths, "kept_skin": choice(YES_NO),
        METHOD: choice(scales.get(METHOD, ())), "makes_holes": choice(YES_NO),
    }  # fmt: skip


def fact_values(facts: Facts) -> dict[str, Value]:
    """Return facts as values of formulas: what is unknown has no answer."""
    return {name: NOT_KNOWN if value is None else value for name, value in facts.items()}
