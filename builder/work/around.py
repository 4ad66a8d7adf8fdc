"""A seam -> what other records say of its surroundings: the cavities it closes and the film between its sheets."""

from __future__ import annotations

from fractions import Fraction

from builder.formula.units import unit
from builder.model.links import Catalogue
from builder.model.records.supporting import Supply
from builder.model.summary import Facts, Summary
from builder.work.workings import Shop

FILM = "film"
"""The field of a seam that names what protects its mating faces."""


def surroundings(seam: Summary, catalogue: Catalogue, shop: Shop) -> Facts:
    """Return the facts; what nobody measured is unknown."""
    return {"inside_area": _inside_area(seam, catalogue), "film_thickness": _film_thickness(seam, shop)}


def _inside_area(seam: Summary, catalogue: Catalogue) -> float | None:
    """The inside of all cavities that the seam closes, together."""
    total = 0.0
    for ref in seam.relations["closes"]:
        summary = catalogue.find(ref)
        area = summary.facts[0].get("inside_area") if summary is not None and summary.facts else None
        if not isinstance(area, float):
            return None
        total += area
    return total


def _film_thickness(seam: Summary, shop: Shop) -> float | None:
    for mention in seam.mentions:
        supply = shop.shelf.get(mention.ref) if mention.field == FILM else None
        found = unit(supply.film.unit) if isinstance(supply, Supply) and supply.film is not None else None
        if isinstance(supply, Supply) and supply.film is not None and found is not None:
            return found.to_base(Fraction(supply.film.number))
    return None
