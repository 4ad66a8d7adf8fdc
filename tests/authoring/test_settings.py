"""What a shop says of itself: how it reaches the book, and what is refused."""

from __future__ import annotations

from pathlib import Path

import pytest

from builder import pipeline
from builder.layers import choose
from builder.model.records.settings import BookSettings, ShopSettings
from builder.passes import Way
from tests.site.building import build, seambook, write

WHOLE = """\
format: 1
name: Cinder Lane Bodies
id: cinder-lane
title: Our seam book
layers: [mine]
base_address: https://book.example.org/shop
units: us
cautions: [Ask the foreman before the first cut.]
people:
  - {name: A. Tarrow, does: [writes, approves]}
review: {draft: 3, issued: 24}
"""
BOOK = "name: Lower\nid: lower\ntitle: Lower book\ncaution: [Look twice.]\nauthority: none\n"


def settings(folder: Path) -> BookSettings:
    chosen = choose((), folder)
    assert chosen.problems == ()
    return Way(pipeline.Order(chosen.layers, shop=chosen.shop)).settings()


def test_the_shop_outranks_the_layers(tmp_path: Path) -> None:
    write(tmp_path, {"shop.yaml": WHOLE, "mine/book.yaml": BOOK})
    found = settings(tmp_path)
    assert (found.name, found.id) == ("Cinder Lane Bodies", "cinder-lane")
    assert (found.title, found.units) == ("Our seam book", "us")
    assert found.caution == ("Look twice.", "Ask the foreman before the first cut.")


def test_what_the_shop_leaves_out_the_book_says(tmp_path: Path) -> None:
    write(tmp_path, {"shop.yaml": "format: 1\nlayers: [mine]\n", "mine/book.yaml": BOOK + "units: us\n"})
    found = settings(tmp_path)
    assert (found.name, found.id, found.title, found.units) == ("Lower", "lower", "Lower book", "us")
    assert found.caution == ("Look twice.",)


def test_a_book_is_metric_unless_told() -> None:
    assert BookSettings(name="x", id="x", title="x", caution=(), authority=()).units == "metric"
    assert ShopSettings(format="1", layers=("supplied",)).units is None


def test_the_units_reach_the_pages(tmp_path: Path) -> None:
    write(tmp_path, {"shop.yaml": WHOLE, "mine/book.yaml": BOOK})
    chosen = choose((), tmp_path)
    way = Way(pipeline.Order(chosen.layers, shop=chosen.shop))
    gathered = way.gather(way.discover())
    assert way._book(gathered, way.connect(gathered)).site.units == "us"


def test_cautions_of_the_shop_stand_on_its_pages(tmp_path: Path) -> None:
    write(tmp_path, {"shop.yaml": WHOLE, "mine/book.yaml": BOOK})
    write(tmp_path / "mine", {"terms/lap.yaml": "title: Lap\nmeans: One on the next.\nsynonyms: none\n"})
    assert seambook("make", folder=tmp_path).code == 0
    page = (tmp_path / "site/index.html").read_text("utf-8")
    assert "Ask the foreman before the first cut." in page
    assert 'data-book="cinder-lane"' in page
    build(tmp_path / "other", str(tmp_path / "mine"))
    assert "foreman" not in (tmp_path / "other/index.html").read_text("utf-8")


@pytest.mark.parametrize(
    ("line", "told"),
    [
        ("unit: us", "write units, the nearest name"),
        ("peple: []", "write people, the nearest name"),
        ("base_adress: https://x", "write base_address, the nearest name"),
        ("units: imperial", "write one of: metric, us"),
        ("base_address: book.example.org", "write it in the form"),
        ("base_address: https://a b", "write it in the form"),
        ("base_address: javascript:alert(1)", "write it in the form"),
        ("review: {drafft: 3}", "write one of: draft, checked, proven, issued"),
        ("review: {draft: 0}", "not below 1"),
        ("people: [{name: A}]", "add does: to it"),
        ("format: 2", "write one of: 1"),
        ("id: Our Shop", "write it in the form"),
    ],
)
def test_what_is_refused_has_its_place_and_what_to_do(tmp_path: Path, line: str, told: str) -> None:
    head = "layers: [mine]\n" if line.startswith("format") else 'format: "1"\nlayers: [mine]\n'
    write(tmp_path, {"shop.yaml": f"{head}{line}\n", "mine/book.yaml": BOOK})
    said = seambook("check", folder=tmp_path)
    assert said.code == 1
    assert said.err.startswith(f"shop.yaml:{len(head.splitlines()) + 1}:")
    assert told in said.err, said.err
