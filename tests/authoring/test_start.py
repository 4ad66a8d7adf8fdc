"""A shop's own book: it builds at once, is the shop's own, and is laid down where nothing lies."""

from __future__ import annotations

import os
import re
import stat
from pathlib import Path

import pytest
import yaml
from bs4 import BeautifulSoup

from builder.authoring.start import start
from builder.cli import commands
from builder.layers import choose
from builder.model.records import KIND_OF_FOLDER
from builder.model.reference import Ref
from builder.order import Order
from builder.supplied import templates
from tests.bench.views import drawing_of
from tests.site.building import CONTENT, files_of, seambook, seambook_here, write


def page(folder: Path, name: str) -> BeautifulSoup:
    return BeautifulSoup((folder / name).read_bytes(), "html.parser", from_encoding="utf-8")


@pytest.mark.slow
def test_it_builds_without_a_word_of_complaint(tmp_path: Path) -> None:
    said = seambook("start", "Tallow Lane", folder=tmp_path)
    assert said.code == 0, said.err
    assert "cd 'Tallow Lane'\n" in said.out
    shop = tmp_path / "Tallow Lane"
    checked = seambook_here("check", "--strict", folder=shop)
    assert (checked.code, checked.err.split(", ", 1)[1]) == (0, "0 errors, 0 warnings\n")
    drawn = own_pages(shop)
    assert set(drawn) > {"panels/our-spare-wheel-well.html"}
    panel = drawn["panels/our-spare-wheel-well.html"]
    require_of_the_shop(panel)
    assert "Spare-wheel well" in panel.get_text()


@pytest.mark.soak
def test_it_is_made_whole(tmp_path: Path) -> None:
    start(tmp_path / "Tallow Lane", None)
    made = seambook("make", "--strict", folder=tmp_path / "Tallow Lane")
    assert made.code == 0, made.err
    require_of_the_shop(page(tmp_path / "Tallow Lane/site", "index.html"))
    assert "Spare-wheel well" in page(tmp_path / "Tallow Lane/site", "panels/our-spare-wheel-well.html").get_text()


def require_of_the_shop(page: BeautifulSoup) -> None:
    assert page.select_one("a.shop").get_text(strip=True) == "Tallow Lane"  # type: ignore[union-attr]
    assert page.body["data-book"] == "tallow-lane"  # type: ignore[index]


def own_pages(shop: Path) -> dict[str, BeautifulSoup]:
    """The pages of the shop's own records, drawn as a build draws them, with no other drawn beside them."""
    chosen = choose((), shop)
    drawing = drawing_of(Order(chosen.layers, templates(), name=chosen.name, shop=chosen.shop, processes=1))
    own = [Ref(KIND_OF_FOLDER[path.parent.name].name, path.stem) for path in (shop / "content").glob("[a-z]*/*.*")]
    made = [drawing.record(ref)[0] for ref in own]
    return {path: BeautifulSoup(data, "html.parser") for files in made for path, data in files.items()
            if path.endswith(".html")}  # fmt: skip


def test_the_book_has_the_library_and_the_shops_own(tmp_path: Path) -> None:
    start(tmp_path / "shop", None)
    chosen = choose((), tmp_path / "shop")
    assert [layer.label for layer in chosen.layers] == ["supplied", "content"]
    assert chosen.shop is not None
    assert chosen.shop.units == "metric"
    assert chosen.shop.people
    assert set(chosen.shop.review) == {"draft", "checked", "proven", "issued"}


def test_what_it_lays_down(tmp_path: Path) -> None:
    start(tmp_path / "shop", None)
    files = files_of(tmp_path / "shop")
    assert {"shop.yaml", "README.md", ".gitignore", "schemas/panel.json", "schemas/shop.json"} <= set(files)
    assert b"site/" in files[".gitignore"]
    folders = {path.name for path in (tmp_path / "shop/content").iterdir()}
    assert folders <= {*KIND_OF_FOLDER, ".taken-from"}
    assert {"panels", "procedures", "sources"} <= folders
    for name in ("shop.yaml", "content/panels/our-spare-wheel-well.yaml"):
        first = files[name].decode().splitlines()[0]
        way = first.removeprefix("# yaml-language-server: $schema=")
        assert (tmp_path / "shop" / name).parent.joinpath(way).resolve().is_file(), first


def test_the_readme_names_commands_that_are_there() -> None:
    text = (CONTENT / ".start/README.md").read_text("utf-8")
    named = set(re.findall(r"`seambook (\w+)", text))
    assert {"make", "show", "check", "write", "schema", "explain"} <= named <= set(commands.commands)


def test_dot_files_may_lie_there(tmp_path: Path) -> None:
    write(tmp_path / "shop", {".git/config": "kept"})
    start(tmp_path / "shop", None)
    assert files_of(tmp_path / "shop")[".git/config"] == b"kept"


def test_a_dot_file_of_its_own_is_not_overwritten(tmp_path: Path) -> None:
    write(tmp_path / "shop", {".gitignore": "mine\n"})
    made = start(tmp_path / "shop", None)
    assert ".gitignore" not in {path.name for path in made}
    assert files_of(tmp_path / "shop")[".gitignore"] == b"mine\n"


@pytest.mark.parametrize("name", ["thesis.txt", "shop.yaml", "content/x.yaml"])
def test_a_folder_that_holds_something_is_refused(tmp_path: Path, name: str) -> None:
    write(tmp_path / "shop", {name: "ten years of work"})
    said = seambook_here("start", "shop", folder=tmp_path)
    assert said.code == 3
    assert f"shop holds something already: {name.split('/')[0]}" in said.err
    assert "    do    name a new or an empty folder" in said.err
    assert files_of(tmp_path) == {f"shop/{name}": b"ten years of work"}


def test_a_file_and_a_link_are_refused(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("x")
    (tmp_path / "elsewhere").mkdir()
    (tmp_path / "link").symlink_to(tmp_path / "elsewhere")
    for name in ("file", "link"):
        assert seambook_here("start", name, folder=tmp_path).code == 3
    assert list((tmp_path / "elsewhere").iterdir()) == []


def test_a_folder_that_may_not_be_written_to_is_told(tmp_path: Path) -> None:
    if os.geteuid() == 0:
        target = Path("/proc/seambook-shop")  # nothing can be made there, whoever asks
    else:
        (tmp_path / "locked").mkdir(mode=stat.S_IRUSR | stat.S_IXUSR)
        target = tmp_path / "locked/shop"
    said = seambook_here("start", str(target), folder=tmp_path)
    assert said.code == 3
    assert "cannot write" in said.err


@pytest.mark.parametrize(
    "name", ['Ann "Sill" & Sons', "Größe: Blech #1", "'; rm -rf /", "- a list", "{x}", "no", "1", r"a\1b\n", "車体"]
)
def test_a_shop_may_be_called_anything_on_one_line(tmp_path: Path, name: str) -> None:
    start(tmp_path / "shop", name)
    chosen = choose((), tmp_path / "shop")
    assert chosen.problems == ()
    assert chosen.name == name
    text = (tmp_path / "shop/shop.yaml").read_text("utf-8")
    assert str(yaml.load(text, yaml.CSafeLoader)["name"]) == name


@pytest.mark.parametrize("folder", ["Tallow_lane-2", "  ", "größe", "a\nb", "...x" * 40])
def test_a_folder_may_be_called_anything(tmp_path: Path, folder: str) -> None:
    target = tmp_path / folder
    start(target, None)
    chosen = choose((), target)
    assert chosen.problems == ()
    assert chosen.name


@pytest.mark.parametrize("name", ["", "   ", "a\nb", "x" * 121])
def test_a_name_that_is_none_is_refused(tmp_path: Path, name: str) -> None:
    said = seambook_here("start", "shop", "--name", name, folder=tmp_path)
    assert said.code == 2
    assert list(tmp_path.iterdir()) == []
