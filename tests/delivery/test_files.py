"""What phones keep a book by: the list holds every file, and what is promised for a procedure is all that it shows."""

from __future__ import annotations

import hashlib
import json
import random
import re
from html import unescape
from io import BytesIO
from pathlib import Path
from typing import Any
from urllib.parse import urljoin

import pytest
from PIL import Image

from builder.delivery.contents import ranges
from builder.delivery.icons import SIZES, icons
from builder.delivery.manifest import manifest_of
from builder.delivery.stretches import Ranked, Telling
from builder.model.records.settings import BookSettings, ShopSettings
from builder.model.views import Site
from builder.supplied import templates

APART = {"files.sha256", "worker.js", ".seambook"}
"""The list cannot hold itself, nor the worker that carries the list's hash; the mark is for the builder."""
LED_TO = ("seams", "panels", "hazards", "tools", "supplies", "calculators", "terms", "acts", "methods", "figures")


@pytest.fixture(scope="module")
def listing(site: Path) -> dict[str, str]:
    lines = (site / "files.sha256").read_text("utf-8").splitlines()
    return {line[66:]: line[:64] for line in lines}


@pytest.fixture(scope="module")
def contents(site: Path) -> dict[str, Any]:
    found: dict[str, Any] = json.loads((site / "delivery.json").read_bytes())
    return found


def unfolded(text: str, paths: list[str]) -> set[str]:
    """The other way round, written anew: `0-4,9` to paths."""
    found = set()
    for run in filter(None, text.split(",")):
        first, _, last = run.partition("-")
        found |= {paths[at] for at in range(int(first), int(last or first) + 1)}
    return found


def test_every_published_file_is_listed_with_its_hash_sorted(site: Path, listing: dict[str, str]) -> None:
    files = {path.relative_to(site).as_posix(): path for path in site.rglob("*") if path.is_file()}
    published = {name: path for name, path in files.items() if not name.startswith(".")}
    assert set(listing) == set(published) - APART
    assert len(listing) > 1000
    assert [*listing] == sorted(listing)
    wrong = [name for name, digest in listing.items()
             if hashlib.sha256(published[name].read_bytes()).hexdigest() != digest]  # fmt: skip
    assert wrong == []


def test_the_worker_carries_the_hash_of_the_list(site: Path) -> None:
    edition = hashlib.sha256((site / "files.sha256").read_bytes()).hexdigest()
    head = (site / "worker.js").read_text("utf-8").splitlines()[0]
    said = re.fullmatch(r"self\.seambookEdition = (\{.*\});", head)
    assert said is not None
    assert json.loads(said[1]) == {"book": "wexmarrow", "edition": edition}


def test_sizes_are_those_of_the_files(site: Path, listing: dict[str, str], contents: dict[str, Any]) -> None:
    sizes = dict(zip(listing, contents["sizes"], strict=True))
    assert sizes.pop("delivery.json") == 0  # it cannot hold its own
    assert sizes == {path: (site / path).stat().st_size for path in sizes}
    assert contents["bytes"] == sum(sizes.values())
    paths = [*listing]
    for group in (contents["core"], *contents["procedures"]):
        assert group["bytes"] == sum(sizes.get(path, 0) for path in unfolded(group["files"], paths))


def test_the_limit_is_the_books(contents: dict[str, Any]) -> None:
    assert contents["most"] == 200_000_000


def test_every_phone_keeps_the_books_own_pages_and_no_single_records(
    listing: dict[str, str], contents: dict[str, Any]
) -> None:
    core = unfolded(contents["core"]["files"], [*listing])
    own = {"index.html", "jobs.html", "bay.html", "device.html", "a-z.html"}
    assert {*own, "assets/css/book.css", "assets/job/book.js"} <= core
    assert {path for path in listing if path.startswith(("assets/search/", "assets/js/", "pages/"))} <= core
    by_choice = ("procedures/", "seams/", "assets/job/procedure/", "print")
    assert {path for path in core if path.startswith(by_choice)} == set()


def test_a_procedure_comes_with_all_that_its_page_loads_and_leads_to(
    site: Path, listing: dict[str, str], contents: dict[str, Any]
) -> None:
    paths = [*listing]
    core = unfolded(contents["core"]["files"], paths)
    assert len(contents["procedures"]) == len([*site.glob("procedures/*.html")]) > 50
    missing = {}
    for group in contents["procedures"]:
        page = f"procedures/{group['id']}.html"
        held = core | unfolded(group["files"], paths)
        assert {page, f"assets/job/procedure/{group['id']}.js", f"assets/bay/{group['id']}.js"} <= held
        assert group["title"] == title_of(site / page)
        wanted = {path for path in ways_of(site, page) if path.partition("/")[0] in (*LED_TO, "assets")}
        assert len(wanted) > 12
        if lost := wanted - held:
            missing[page] = sorted(lost)
    assert missing == {}


def test_a_procedure_comes_with_those_that_it_relies_on(
    site: Path, listing: dict[str, str], contents: dict[str, Any]
) -> None:
    relying = 0
    for group in contents["procedures"]:
        data = (site / f"assets/job/procedure/{group['id']}.js").read_text("utf-8")
        relied = re.search(r'"relies_on":\[([^\]]*)\]', data)
        assert relied is not None
        for other in re.findall(r'"([a-z0-9-]+)"', relied[1]):
            relying += 1
            assert f"procedures/{other}.html" in unfolded(group["files"], [*listing]), (group["id"], other)
    assert relying > 20


def test_a_procedure_is_far_smaller_than_the_book(contents: dict[str, Any]) -> None:
    sizes = sorted(group["bytes"] for group in contents["procedures"])
    assert sizes[-1] < contents["bytes"] / 2
    assert sizes[len(sizes) // 2] < contents["bytes"] / 4


def ways_of(site: Path, page: str) -> set[str]:
    """Every file of the book that a page's head and main part name."""
    text = (site / page).read_text("utf-8")
    head, main = text[: text.index("</head>")], text[text.index("<main") : text.index("</main>")]
    named = re.findall(r'(?:href|src)="([^"#]+)', head + main)
    found = {urljoin(page, unescape(one)) for one in named if "://" not in one}
    return {one for one in found if (site / one).is_file()}


def title_of(page: Path) -> str:
    heading = re.search(r"<h1>(.*?)</h1>", page.read_text("utf-8"), re.DOTALL)
    assert heading is not None
    return unescape(heading[1])


@pytest.mark.parametrize(("numbers", "text"), [
    ([], ""), ([3], "3"), ([0, 1], "0-1"), ([5, 4, 2, 9, 3], "2-5,9"), ([0, 2, 4], "0,2,4"),
])  # fmt: skip
def test_ranges(numbers: list[int], text: str) -> None:
    assert ranges(numbers) == text


def test_the_manifest_names_icons_that_are_there(site: Path) -> None:
    manifest = json.loads((site / "seambook.webmanifest").read_bytes())
    assert manifest["name"] == "The Wexmarrow seam book"
    assert manifest["short_name"] == "Wexmarrow"
    assert manifest["scope"] == "./"
    assert (site / manifest["start_url"]).is_file()
    assert {icon["purpose"] for icon in manifest["icons"]} == {"any", "maskable"}
    for icon in manifest["icons"]:
        with Image.open(site / icon["src"]) as image:
            assert (f"{image.width}x{image.height}", image.format) == (icon["sizes"], "PNG")


@pytest.mark.parametrize(("name", "short"), [
    ("Rill", "Rill"), ("Rill and Daughters Body Works", "Rill and"), ("Unshortenably named", "Unshortenably"),
])  # fmt: skip
def test_a_short_name_is_of_whole_words(name: str, short: str) -> None:
    site = Site(name, "A book", "a-book", (), ())
    assert json.loads(manifest_of(site))["short_name"] == short


def test_icons_show_the_mark_in_its_colours() -> None:
    made = icons((templates() / "assets" / "icon.svg").read_text("utf-8"))
    assert [*made] == [icon.path for icon in SIZES]
    for icon in SIZES:
        with Image.open(BytesIO(made[icon.path])) as image:
            middle, seam = icon.size // 2, round(icon.size * (0.5 - 12 / 32 * (0.7 if icon.is_masked else 1)))
            level = round(icon.size * (0.5 - 1 / 32 * (0.7 if icon.is_masked else 1)))
            assert image.getpixel((middle, level)) == (0x16, 0x17, 0x1B)
            assert image.getpixel((seam, level)) == (0x5A, 0x2A, 0x86)
            assert image.getpixel((2, 2)) == (255, 255, 255)
            if icon.is_masked:
                assert is_within_its_circle(image)


def is_within_its_circle(image: Image.Image) -> bool:
    """Whether all ink lies in the circle of four fifths that no phone cuts."""
    ink = image.convert("L").point(lambda value: 255 if value < 250 else 0)
    box = ink.getbbox()
    assert box is not None
    half, reach = image.width / 2, 0.4 * image.width
    corners = [(x, y) for x in (box[0], box[2]) for y in (box[1], box[3])]
    return all((x - half) ** 2 + (y - half) ** 2 <= reach**2 for x, y in corners)


@pytest.mark.parametrize("drawn", ['<circle r="3"/>', '<path d="M1 1l3 3" stroke="#000000"/>'])
def test_a_mark_that_cannot_be_drawn_is_refused(drawn: str) -> None:
    with pytest.raises(ValueError, match="the mark"):
        icons(f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 32 32">{drawn}</svg>')


def test_the_last_layer_that_sets_a_limit_has_it() -> None:
    lower = BookSettings(name="A", id="a", title="A", caution=(), authority=(), kept_whole=200)
    upper = BookSettings(name="B", id="b", title="B", caution=(), authority=())
    assert upper.over(lower).kept_whole == 200
    shop = ShopSettings(format="1", layers=("supplied",), kept_whole=50)
    assert shop.over(upper.over(lower)).kept_whole == 50


def test_stretches_are_told_as_ranges_of_the_whole_list() -> None:
    chance = random.Random(1)
    for _ in range(300):
        named = sorted({f"{chance.randrange(40):02d}" for _ in range(30)})
        own = chance.sample(named, chance.randint(1, len(named)))
        some = chance.choices(own, k=chance.randint(0, 12))
        sizes = {path: chance.randrange(1000) for path in named}
        ranked = Ranked(own)
        told = Telling(ranked, named, sizes).told(ranked.stretches([ranked.ranks(some)]))
        assert unfolded(told["files"], named) == set(some)
        assert told["files"] == ranges([named.index(path) for path in set(some)])
        assert told["bytes"] == sum(sizes[path] for path in set(some))


