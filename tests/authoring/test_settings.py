"""What a shop says of itself: how it reaches the book, and what is refused."""

from __future__ import annotations

from pathlib import Path

import pytest

from builder import pipeline
from builder.layers import choose
from builder.model.records.settings import BookSettings, ShopSettings
from builder.passes import Way
from builder.view.review import months_after
from tests.books.laying import TINY, lay
from tests.site.building import build, page, seambook_here, write

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
    assert seambook_here("make", folder=tmp_path).code == 0
    assert 'data-units="us"' in (tmp_path / "site/index.html").read_text("utf-8")


def test_cautions_of_the_shop_stand_on_its_pages(tmp_path: Path) -> None:
    write(tmp_path, {"shop.yaml": WHOLE, "mine/book.yaml": BOOK})
    write(tmp_path / "mine", {"terms/lap.yaml": "title: Lap\nmeans: One on the next.\nsynonyms: none\n"})
    assert seambook_here("make", folder=tmp_path).code == 0
    page = (tmp_path / "site/index.html").read_text("utf-8")
    assert "Ask the foreman before the first cut." in page
    assert 'data-book="cinder-lane"' in page
    build(tmp_path / "other", str(tmp_path / "mine"))
    assert "foreman" not in (tmp_path / "other/index.html").read_text("utf-8")


def test_each_layer_adds_its_cautions_and_terms_and_takes_none_away(tmp_path: Path) -> None:
    upper = BOOK.replace("Lower", "Upper").replace("[Look twice.]", "[Mind the pit., Look twice.]")
    write(tmp_path, {
        "shop.yaml": WHOLE.replace("[mine]", "[mine, ours]"), "mine/book.yaml": BOOK + "licence: [Free to all.]\n",
        "ours/book.yaml": upper + "licence: [Ours alone.]\n",
    })  # fmt: skip
    found = settings(tmp_path)
    assert found.caution == ("Look twice.", "Mind the pit.", "Ask the foreman before the first cut.")
    assert found.licence == ("Free to all.", "Ours alone.")
    write(tmp_path, {"ours/book.yaml": upper.replace("[Mind the pit., Look twice.]", "none"), "shop.yaml":
                     "format: 1\nlayers: [mine, ours]\n"})  # fmt: skip
    assert (settings(tmp_path).name, settings(tmp_path).caution) == ("Upper", ("Look twice.",))


def test_the_page_about_the_book_tells_people_reviews_and_terms(tmp_path: Path) -> None:
    write(tmp_path, {"shop.yaml": WHOLE, "mine/book.yaml": BOOK + "licence: [Free to all.]\n"})
    write(tmp_path / "mine", {"terms/lap.yaml": "title: Lap\nmeans: One on the next.\nsynonyms: none\n"})
    assert seambook_here("make", folder=tmp_path).code == 0
    about = page(tmp_path / "site", "about.html")
    assert {dt.text: str(dt.find_next("dd").text) for dt in about.select("#people dt, #reviews dt")} == {  # type: ignore[union-attr]
        "A. Tarrow": "writes, approves", "Draft": "3 months after its revision",
        "Issued": "24 months after its revision",
    }  # fmt: skip
    assert [li.text for li in about.select("#licence li")] == ["Free to all."]


def test_a_procedure_says_when_its_review_is_due_and_where_it_is_to_be_had(tmp_path: Path) -> None:
    write(tmp_path, {"shop.yaml": WHOLE.replace("[mine]", "[tiny]")})
    lay(tmp_path / "tiny", TINY)
    assert seambook_here("make", folder=tmp_path).code == 0
    path = "procedures/weld-cover.html"
    soup = page(tmp_path / "site", path)
    due = soup.select_one("#part_revision time")
    assert due is not None
    assert (due.text, due["datetime"]) == ("2028-02-03", "2028-02-03")
    assert soup.html is not None
    assert soup.html["data-check"] == f"Check the current revision: https://book.example.org/shop/{path}"
    assert soup.select_one(".paper-address svg") is not None
    assert page(tmp_path / "site", "terms/lap.html").select(".paper-address, time") == []


@pytest.mark.parametrize(
    ("day", "months", "due"),
    [
        ("2026-03-14", 12, "2027-03-14"), ("2026-12-31", 2, "2027-02-28"), ("2027-11-30", 3, "2028-02-29"),
        ("2026-01-31", 120, "2036-01-31"), ("2026-12-01", 1, "2027-01-01"),
    ],
)  # fmt: skip
def test_a_period_ends_on_the_same_day_of_a_later_month(day: str, months: int, due: str) -> None:
    assert months_after(day, months) == due


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
    said = seambook_here("check", folder=tmp_path)
    assert said.code == 1
    assert said.err.startswith(f"shop.yaml:{len(head.splitlines()) + 1}:")
    assert told in said.err, said.err
