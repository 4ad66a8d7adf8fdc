"""No quantity of the supplied book is left out of the switch, and each unit it uses has been decided on."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path

import yaml
from bs4 import BeautifulSoup

from builder import layers, settings
from builder.formula import unit
from builder.model.signs import sign
from tests.site.building import CONTENT, ROOT

PAIRS, _ = settings.unit_pairs(layers.choose(("supplied",), ROOT).layers)
SIGNS = sorted({sign(name) for name in PAIRS}, key=len, reverse=True)
QUANTITY = re.compile(rf"[0-9]\u00a0(?:{'|'.join(map(re.escape, SIGNS))})(?![\w/·²³])")
"""A number and a unit as a page joins them; an author's prose joins them with a common blank."""


def lone_quantities(page: BeautifulSoup) -> Iterator[str]:
    """Quantities in the page's text that no switch would reach.

    A chart or a sketch is drawn anew by its script in the units that are shown; tests/browser/test_plots.py sees to it.
    """
    for text in page.find_all(string=QUANTITY):
        holder = text.parent
        if holder is not None and not holder.has_attr("data-q") and holder.find_parent(class_="plotted") is None:
            yield str(text)


def test_every_quantity_can_be_switched(pages: dict[str, BeautifulSoup]) -> None:
    assert [(path, text) for path, page in pages.items() for text in lone_quantities(page)] == []
    reached = sum(len(page.select("[data-q]")) for page in pages.values())
    assert reached > 1000


def test_a_quantity_left_out_would_be_found() -> None:
    page = BeautifulSoup("<p>8\u00a0mm</p><p data-q='0.31\u00a0in'>8\u00a0mm</p><p>8\u00a0min</p>", "html.parser")
    assert list(lone_quantities(page)) == ["8\u00a0mm"]


def test_what_is_shown_in_its_place_is_in_another_unit(pages: dict[str, BeautifulSoup]) -> None:
    same = [
        (path, tag.get_text()) for path, page in pages.items() for tag in page.select("[data-q]")
        if tag["data-q"] == tag.get_text() or tag.find(True) is not None
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
    said = yaml.safe_load((CONTENT / "units.yaml").read_text("utf-8"))
    decided = {*PAIRS, *said["same"]}
    used: dict[str, Path] = {}
    for path in sorted(CONTENT.glob("*/*.yaml")):
        used.update(dict.fromkeys(units_in(yaml.safe_load(path.read_text("utf-8"))), path))
    assert len(used) > 20
    assert {name: path.name for name, path in used.items() if name not in decided} == {}
