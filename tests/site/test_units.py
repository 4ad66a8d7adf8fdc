"""No quantity of the supplied book is left out of the switch, and each unit it uses has been decided on."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path

import yaml

from builder import layers, settings
from builder.formula import unit
from builder.model.signs import sign
from tests.site.building import CONTENT, ROOT
from tests.site.flat import Element, elements

PAIRS, _ = settings.unit_pairs(layers.choose(("supplied",), ROOT).layers)
SIGNS = sorted({sign(name) for name in PAIRS}, key=len, reverse=True)
QUANTITY = re.compile(rf"[0-9]\u00a0(?:{'|'.join(map(re.escape, SIGNS))})(?![\w/·²³])")
"""A number and a unit as a page joins them; an author's prose joins them with a common blank."""


def lone_quantities(page: list[Element]) -> Iterator[str]:
    """Quantities in the page's text that no switch would reach.

    A chart or a sketch is drawn anew by its script in the units that are shown; tests/browser/test_plots.py sees to it.
    """
    for one in page:
        found = [text for text in one.texts if "\u00a0" in text and QUANTITY.search(text)]
        if found and "data-q" not in one.attrs and not _is_plotted(one):
            yield from found


def _is_plotted(one: Element) -> bool:
    return any("plotted" in each.attrs.get("class", "").split() for each in (one, *one.holders()))


def test_every_quantity_can_be_switched(pages: dict[str, list[Element]]) -> None:
    assert [(path, text) for path, page in pages.items() for text in lone_quantities(page)] == []
    reached = sum("data-q" in one.attrs for page in pages.values() for one in page)
    assert reached > 1000


def test_a_quantity_left_out_would_be_found() -> None:
    page = elements(
        "<p>8\u00a0mm</p><p data-q='0.31\u00a0in'>8\u00a0mm</p><p>8\u00a0min</p>"
        "<p class='x plotted'><b>7\u00a0mm</b></p><p>no more than <b>than</b> 9\u00a0mm</p>"
    )
    assert list(lone_quantities(page)) == ["8\u00a0mm", " 9\u00a0mm"]


def test_what_is_shown_in_its_place_is_in_another_unit(pages: dict[str, list[Element]]) -> None:
    same = [
        (path, one.texts) for path, page in pages.items() for one in page if "data-q" in one.attrs
        and (one.attrs["data-q"] == "".join(one.texts) or one.is_parent)
    ]  # fmt: skip
    assert same == []


def units_in(value: object) -> Iterator[str]:
    """Every unit a record names: in a `unit:` of its own, or behind a number."""
    if isinstance(value, dict):
        for key, each in value.items():
            yield from (each,) if key == "unit" and isinstance(each, str) else units_in(each)
    elif isinstance(value, list):
        for each in value:
            yield from units_in(each)
    elif isinstance(value, str):
        found = re.fullmatch(r"[+-]?[0-9.]+ ([A-Za-z][A-Za-z_*/0-9]*)", value)
        if found is not None and unit(found[1]) is not None:
            yield found[1]


def test_each_unit_of_the_library_has_been_decided_on() -> None:
    said = yaml.load((CONTENT / "units.yaml").read_text("utf-8"), yaml.CSafeLoader)
    decided = {*PAIRS, *said["same"]}
    used: dict[str, Path] = {}
    for path in sorted(CONTENT.glob("*/*.yaml")):
        used.update(dict.fromkeys(units_in(yaml.load(path.read_text("utf-8"), yaml.CSafeLoader)), path))
    assert len(used) > 20
    assert {name: path.name for name, path in used.items() if name not in decided} == {}
