"""Layers: a later one wins by id and whole, the book says what was overridden, and shop.yaml names them."""

from __future__ import annotations

from pathlib import Path

import pytest
from bs4 import BeautifulSoup, Tag

from tests.books.laying import TINY, lay
from tests.site.building import page, seambook, seambook_here, write
from tests.site.records import BROKEN, LAP, OUR_LAP

SHOP = 'format: "1"\nname: Tallow Lane Bodies\nlayers: [supplied, mine]\n'


def shop_of(soup: BeautifulSoup) -> str:
    name = soup.select_one("a.shop")
    assert isinstance(name, Tag)
    return name.get_text(strip=True)


def test_a_later_layer_wins_and_what_it_hides_is_listed(tmp_path: Path) -> None:
    write(tmp_path / "mine", OUR_LAP)
    hidden = "joined through their faces"
    assert hidden in (lay(tmp_path / "below", TINY) / LAP).read_text("utf-8")
    said = seambook_here("make", "--content", "below", "--content", "mine", folder=tmp_path)
    assert said.code == 0, said.err
    assert f"term:lap: mine/{LAP} takes the place of below/{LAP}" in said.err.splitlines()
    text = page(tmp_path / "site", "terms/lap.html").get_text()
    assert "zanzibarite" in text
    # Whole records win: what the hidden one says besides does not shine through.
    assert hidden not in text


@pytest.mark.soak
def test_the_order_of_layers_is_the_order_on_the_line(tmp_path: Path) -> None:
    write(tmp_path / "mine", OUR_LAP)
    said = seambook("make", "--content", "mine", "--content", "supplied", folder=tmp_path)
    assert said.code == 0, said.err
    assert f"term:lap: content/{LAP} takes the place of mine/{LAP}" in said.err.splitlines()
    text = page(tmp_path / "site", "terms/lap.html").get_text()
    assert "zanzibarite" not in text
    assert "overlap joint" in text


def test_a_layer_stands_alone(tmp_path: Path) -> None:
    write(tmp_path / "mine", OUR_LAP)
    said = seambook_here("make", "--content", "mine", folder=tmp_path)
    assert said.code == 0, said.err
    assert said.err.startswith("1 records, ") or said.err.startswith("1 record, ")
    assert not (tmp_path / "site/procedures").exists()


@pytest.mark.soak
def test_shop_yaml_of_the_folder_names_layers_and_shop(tmp_path: Path) -> None:
    write(tmp_path, {"shop.yaml": SHOP})
    write(tmp_path / "mine", OUR_LAP)
    said = seambook("make", folder=tmp_path)
    assert said.code == 0, said.err
    first = page(tmp_path / "site", "index.html")
    assert shop_of(first) == "Tallow Lane Bodies"
    assert "zanzibarite" in page(tmp_path / "site", "terms/lap.html").get_text()


@pytest.mark.soak
def test_a_shops_own_folder_of_that_name_is_told_from_the_supplied_one(tmp_path: Path) -> None:
    write(tmp_path, {"shop.yaml": SHOP.replace("mine", "content")})
    write(tmp_path / "content", OUR_LAP)
    said = seambook("make", folder=tmp_path)
    assert said.code == 0, said.err
    assert f"term:lap: content/{LAP} takes the place of supplied/{LAP}" in said.err.splitlines()


@pytest.mark.soak
def test_content_on_the_line_is_taken_literally(tmp_path: Path) -> None:
    write(tmp_path, {"shop.yaml": SHOP})
    write(tmp_path / "mine", OUR_LAP)
    said = seambook("make", "--content", "supplied", folder=tmp_path)
    assert said.code == 0, said.err
    assert shop_of(page(tmp_path / "site", "index.html")) == "Wexmarrow Body Works"
    assert "zanzibarite" not in page(tmp_path / "site", "terms/lap.html").get_text()


def test_a_folder_of_that_name_can_still_be_meant(tmp_path: Path) -> None:
    write(tmp_path / "supplied", OUR_LAP)
    said = seambook_here("make", "--content", "./supplied", folder=tmp_path)
    assert said.code == 0, said.err
    assert "zanzibarite" in page(tmp_path / "site", "terms/lap.html").get_text()


def test_a_mistake_in_shop_yaml_has_its_place(tmp_path: Path) -> None:
    write(tmp_path, {"shop.yaml": 'format: "1"\nlayer: [supplied]\n'})
    said = seambook_here("make", folder=tmp_path)
    assert said.code == 1
    assert "shop.yaml:2:1: error: " in said.err
    assert not (tmp_path / "site").exists()


def test_problems_name_the_file_of_their_layer(tmp_path: Path) -> None:
    write(tmp_path / "our/own", BROKEN)
    said = seambook_here("check", "--content", "supplied", "--content", "our/own", folder=tmp_path)
    assert said.code == 1
    assert said.err.startswith(f"our/own/{LAP}:4:7: error: ")
