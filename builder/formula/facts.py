"""Facts about a seam's segment, a panel or a cavity -> their kinds, for checking formulas over them."""

from __future__ import annotations

from collections.abc import Mapping

from builder.formula.expressions import number
from builder.formula.kinds import Kind, choice
from builder.formula.no_answer import NoAnswer, Value
from builder.model.summary import Facts

YES_NO = ("yes", "no")
_LENGTHS = ("length", "flange", "depth", "governing", "thinnest", "thickest", "outer", "total",
            "sheet_1", "sheet_2", "sheet_3", "sheet_4")  # fmt: skip
_NUMBERS = ("layers", "layers_most", "ratio", "factory_count")
UNKNOWN_FACT = "unknown"

Scales = Mapping[str, tuple[str, ...]]


def fact_kinds(subject: str, scales: Scales) -> dict[str, Kind]:
    """Return the facts that formulas may use about a kind of subject; none about the body or the welder.

    `scales` holds the words of each scale by its id.
    """
    if subject == "seam":
        return {
            **{name: number("mm") for name in _LENGTHS}, **{name: number() for name in _NUMBERS},
            "joint": choice(scales.get("joint", ())), "coating": choice(scales.get("coating", ())),
            "strongest": choice(scales.get("strength", ())), "sides": choice(("both", "one")),
            "sealed": choice(YES_NO), "filmed": choice(YES_NO), "closes": choice(YES_NO),
        }  # fmt: skip
    if subject == "panel":
        return {
            "strength": choice(scales.get("strength", ())), "load_bearing": choice(YES_NO),
            "handed": choice(YES_NO), "bounds": choice(YES_NO), "drains": choice(YES_NO),
            "carries": choice((*YES_NO, UNKNOWN_FACT)), "may_section": choice(YES_NO),
        }  # fmt: skip
    if subject == "cavity":
        return {
            "reachable": choice((*YES_NO, UNKNOWN_FACT)), "wax_entries": number(), "drains": number(),
            "lives_inside": choice(YES_NO),
        }  # fmt: skip
    return {}


def fact_values(facts: Facts) -> dict[str, Value]:
    """Return facts as values of formulas: what is unknown has no answer."""
    return {name: NoAnswer("it is unknown") if value is None else value for name, value in facts.items()}
