"""Figures on their way through a whole book: on their own pages, on the pages that show them, and in the folder."""

from __future__ import annotations

import hashlib
from pathlib import Path

import pytest
from bs4 import BeautifulSoup, Tag
from PIL import Image

from builder import pipeline
from builder.model.files import Layer
from builder.model.problem import Problem
from builder.pictures import raster
from builder.supplied import templates
from tests.books.laying import TINY, build, edit, lay, shown
from tests.pictures.making import PLACE, corners, encoded, with_notes
from tests.site.building import files_of, page, seambook_here, word, write

PHOTO = """\
title: The edge from below
was: [edge-below]
sort: photo
alt: The edge of the cover from below, "open" & <dry>.
caption: Look for the [drain](seam:cover-edge).
by: Ada Quill
sources: none
"""
SHOWING = {
    "panels/cover.yaml": ("sources:", "figures: [edge]\nsources:"),
    "openings/hatch.yaml": ("sources:", "figures: [edge, bead-end]\nsources:"),
    "tools/drill.yaml": ("checks:", "figures: [edge]\nchecks:"),
    "hazards/vapour.yaml": ("signs:", "figures: [edge-below]\nsigns:"),
    "procedures/weld-cover.yaml": ("        figure: bead-end\n", "        figure: [bead-end, edge]\n"),
}
SHOWN_ON = {
    "panels/cover.html": "#pictures", "openings/hatch.html": "#pictures", "tools/drill.html": "#pictures",
    "hazards/vapour.html": "#pictures", "procedures/weld-cover.html": "#seal-edge",
}  # fmt: skip


def with_photo(content: Path) -> Path:
    """The tiny book with a photo that every kind of page shows, once by its old name."""
    lay(content, TINY)
    write(content, {"figures/edge.yaml": PHOTO})
    (content / "figures" / "edge.jpg").write_bytes(with_notes(corners(2000, 1000), "JPEG", 6))
    for name, change in SHOWING.items():
        edit(content, name, change)
    return content


def made(content: Path, site: Path, processes: int = 1) -> Path:
    order = pipeline.Order((Layer(content, "content"),), templates(), site, processes=processes)
    outcome = pipeline.make(order)
    assert outcome.published is not None, outcome.problems
    return site


@pytest.fixture(scope="module")
def site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("figures")
    return made(with_photo(folder / "content"), folder / "site")


def mistake(content: Path, target: Path | None = None) -> Problem:
    """The one error of a book; that a hazard uses an old name is a warning beside it."""
    (found,) = (problem for problem in build(content, target).problems if problem.level == "error")
    return found


def one(soup: BeautifulSoup | Tag, selector: str) -> Tag:
    found = soup.select(selector)
    assert len(found) == 1, (selector, len(found))
    return found[0]


@pytest.mark.parametrize("path", SHOWN_ON)
def test_a_page_shows_its_figures(path: str, site: Path) -> None:
    part = one(page(site, path), SHOWN_ON[path])
    image = one(part, 'img[src*="edge"]')
    assert {name: word(image, name) for name in ("src", "width", "height", "loading", "alt", "srcset")} == {
        "src": "../assets/pictures/edge-640.jpg", "width": "800", "height": "1600", "loading": "lazy",
        "alt": 'The edge of the cover from below, "open" & <dry>.',
        "srcset": "../assets/pictures/edge-640.jpg 320w, ../assets/pictures/edge-1600.jpg 800w",
    }  # fmt: skip
    figure = image.find_parent("figure")
    assert isinstance(figure, Tag)
    assert word(one(figure, "a:has(img)"), "href") == "../figures/edge.html"
    caption = one(figure, "figcaption")
    assert caption.get_text(" ", strip=True).startswith("The edge from below Look for the drain")
    assert word(one(caption, "a"), "href") == "../seams/cover-edge.html"
    assert "Photo by Ada Quill" in caption.text
    assert (site / path).parent.joinpath(str(word(image, "src"))).is_file()


def test_a_drawing_keeps_its_place_too(site: Path) -> None:
    image = one(page(site, "openings/hatch.html"), 'img[src$="bead-end.svg"]')
    assert (word(image, "width"), word(image, "height"), word(image, "srcset")) == ("1600", "1067", None)
    assert (site / "assets/pictures/bead-end.svg").read_bytes().startswith(b"<svg ")


def test_a_figure_has_its_page(site: Path) -> None:
    soup = page(site, "figures/edge.html")
    assert one(soup, "h1").text == "The edge from below"
    image = one(soup, "main img")
    assert "loading" not in image.attrs
    assert word(one(soup, "a:has(img)"), "href") == "../assets/pictures/edge-1600.jpg"
    used = {a["href"] for a in soup.select("#used-by a")}
    assert used == {f"../{path}" for path in SHOWN_ON}
    assert page(site, "figures/edge-below.html").select_one('a[href="edge.html"]')
    assert "Figures and photos" in page(site, "lists.html").text
    uses = page(site, "procedures/weld-cover.html").select("#part_uses a")
    assert "../figures/edge.html" in {a["href"] for a in uses}


def test_a_picture_is_never_inlined_and_nothing_private_is_published(site: Path) -> None:
    files = files_of(site)
    pictures = sorted(path for path in files if path.startswith("assets/pictures/"))
    assert pictures == [f"assets/pictures/{name}" for name in ("bead-end.svg", "edge-1600.jpg", "edge-640.jpg")]
    for path, data in files.items():
        assert PLACE.encode() not in data, path
        assert b'd="M5 30H55M5 26H40' not in data or path == "assets/pictures/bead-end.svg", path


def test_the_same_bytes_from_one_process_and_from_several(site: Path, tmp_path: Path) -> None:
    again = made(with_photo(tmp_path / "content"), tmp_path / "site", processes=2)
    pages = {path: data for path, data in files_of(site).items() if not path.startswith(".")}
    assert {path: data for path, data in files_of(again).items() if not path.startswith(".")} == pages


def test_a_changed_picture_is_another_book(site: Path, tmp_path: Path) -> None:
    content = with_photo(tmp_path / "content")
    (content / "figures" / "edge.jpg").write_bytes(encoded(corners(1000, 2000), "JPEG"))
    again = made(content, tmp_path / "site")
    assert one(page(site, "about.html"), "#this_book").text != one(page(again, "about.html"), "#this_book").text


def test_unchanged_pictures_are_not_written_again(tmp_path: Path) -> None:
    content = with_photo(tmp_path / "content")
    first = (made(content, tmp_path / "site") / "assets/pictures/edge-640.jpg").stat()
    again = (made(content, tmp_path / "site") / "assets/pictures/edge-640.jpg").stat()
    assert (first.st_ino, first.st_mtime_ns) == (again.st_ino, again.st_mtime_ns)


def test_the_named_picture_is_taken_and_no_other(tmp_path: Path) -> None:
    content = with_photo(tmp_path / "content")
    edit(content, "figures/edge.yaml", ("by:", "file: below.png\nby:"))
    (content / "figures" / "below.png").write_bytes(encoded(corners(30, 20), "PNG"))
    stray = "content/figures/edge.jpg:1:1: error: no record shows \"edge.jpg\" (R114)\n"
    assert shown(build(content)).startswith(stray)
    (content / "figures" / "edge.jpg").unlink()
    assert "assets/pictures/edge-1600.jpg" in files_of(made(content, tmp_path / "site"))


def test_pictures_lie_among_figures_only(tmp_path: Path) -> None:
    content = lay(tmp_path / "content", TINY)
    (content / "panels" / "cover.jpg").write_bytes(encoded(corners(30, 20), "JPEG"))
    problem = mistake(content)
    assert (problem.code.id, problem.span.file) == ("R109", "content/panels/cover.jpg")


def test_a_folder_named_as_a_picture_is_no_picture(tmp_path: Path) -> None:
    content = with_photo(tmp_path / "content")
    (content / "figures" / "edge.jpg").unlink()
    (content / "figures" / "edge.jpg").mkdir()
    problem = mistake(content)
    assert (problem.code.id, problem.message) == ("P601", "edge.jpg is no ordinary file")


def test_a_broken_record_makes_one_message(tmp_path: Path) -> None:
    content = with_photo(tmp_path / "content")
    edit(content, "figures/edge.yaml", ("sort: photo", "sort: phoot"))
    edit(content, "hazards/vapour.yaml", ("[edge-below]", "[edge]"))
    problem = mistake(content)
    assert (problem.code.id, problem.span.file) == ("S204", "content/figures/edge.yaml")


def test_checking_finds_what_only_decoding_can(tmp_path: Path) -> None:
    content = with_photo(tmp_path / "content")
    whole = (content / "figures" / "edge.jpg").read_bytes()
    (content / "figures" / "edge.jpg").write_bytes(whole[: len(whole) * 3 // 4])
    for target in (None, tmp_path / "site"):
        problem = mistake(content, target)
        assert problem.code.id == "P605"
    assert not (tmp_path / "site").exists()


def test_a_picture_that_changes_meanwhile_is_told(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    content = with_photo(tmp_path / "content")
    real = raster.size_of

    def changed(data: bytes, name: str) -> object:
        size = real(data, name)
        (content / "figures" / name).write_bytes(encoded(corners(9, 9), "JPEG"))
        return size

    monkeypatch.setattr(raster, "size_of", changed)
    problem = mistake(content, tmp_path / "site")
    assert (problem.code.id, problem.message) == ("P605", "edge.jpg changed while the book was made")


def test_a_shop_s_figure_takes_the_place_of_a_supplied_one(tmp_path: Path) -> None:
    """With its own picture beside it, of another form; the supplied one lies beside its own record: no stray."""
    below, shop = with_photo(tmp_path / "below"), tmp_path / "shop"
    write(shop, {"figures/edge.yaml": PHOTO.replace("Ada Quill", "Cy Reed")})
    (shop / "figures" / "edge.png").write_bytes(encoded(Image.new("RGB", (64, 32)), "PNG"))
    order = pipeline.Order((Layer(below, "below", True), Layer(shop, "shop")), templates(), tmp_path / "site")
    outcome = pipeline.make(order)
    assert outcome.published is not None, outcome.problems
    image = one(page(tmp_path / "site", "panels/cover.html"), "#pictures img")
    assert (word(image, "width"), word(image, "height")) == ("64", "32")
    assert "Cy Reed" in page(tmp_path / "site", "panels/cover.html").text


def test_the_command_shows_no_line_of_a_picture(tmp_path: Path) -> None:
    content = with_photo(tmp_path / "content")
    (content / "figures" / "stray.jpg").write_bytes(b"\xff\xd8\xffgarbage on the screen")
    said = seambook_here("check", "--content", "content", folder=tmp_path)
    assert "no record shows" in said.out + said.err
    assert "garbage" not in said.out + said.err


def test_the_digest_of_the_file_is_what_is_kept(tmp_path: Path) -> None:
    from builder.pictures import look
    from tests.pictures.making import put

    data = encoded(corners(30, 20), "JPEG")
    picture, _ = look(*put(tmp_path, "a.jpg", data))
    assert picture is not None
    assert picture.digest == hashlib.sha256(data).digest()
