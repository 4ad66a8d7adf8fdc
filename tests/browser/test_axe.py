"""axe-core finds nothing on one page of each kind, nor in the states that a page comes into by being used.

On top of axe's own choice: targets large enough to hit, and contrast of 7 to 1 (WCAG 2.2: 2.5.8 and 1.4.6). On paper
nothing is hit: the criterion of size is one of pointers, so it is left out where a page is laid out for print.
"""

from __future__ import annotations

from pathlib import Path
from typing import Any, Literal

import pytest
from playwright.sync_api import Page, expect

from tests.browser.watched import HEIGHT, NARROW, PHONE, SCHEMES, WIDTHS, Watched, kinds_of
from tests.sweeps import share

pytestmark = pytest.mark.slow
AXE = Path(__file__).parents[1] / "tools/node_modules/axe-core/axe.min.js"
LOOKS: list[dict[str, Any]] = [
    *({"media": "screen", "color_scheme": scheme} for scheme in SCHEMES), {"media": "print", "color_scheme": "light"},
]
COLOURS = ("color-contrast-enhanced", "link-in-text-block")
"""The rules whose verdict hangs on colours, which are all that a dark look changes."""
RUN = """async (only) => {
  const pressed = !matchMedia("print").matches;
  // Whatever has less contrast than the rule of 4.5 to 1 asks for has less than 7 to 1.
  const rules = {
    "target-size": {enabled: pressed}, "color-contrast-enhanced": {enabled: true}, "color-contrast": {enabled: false},
  };
  const asked = only ? {runOnly: only} : {rules};
  const found = await axe.run(document, {...asked, resultTypes: ["violations"], preload: false});
  const why = (node) => [...node.any, ...node.all, ...node.none].map((one) => one.message).join("; ");
  return found.violations.flatMap(({id, nodes}) =>
    nodes.map((node) => `${id}: ${node.html.slice(0, 120)}: ${why(node)}`));
}"""


@pytest.fixture(scope="module")
def axe() -> str:
    assert AXE.is_file(), "make test brings axe"
    return AXE.read_text("utf-8")


def violations(page: Page, axe: str, only: tuple[str, ...] = ()) -> list[str]:
    """What axe finds. It may not fetch the style sheets again (preload), which the policy of the pages forbids."""
    if not page.evaluate("Boolean(window.axe)"):
        page.evaluate(axe)
    found: list[str] = page.evaluate(RUN, list(only) or None)
    return found


def looks_clean(page: Page, where: str) -> None:
    """Axe finds nothing in a page as it stands: in each look and on paper, on a phone; in a soak at a desk, too."""
    axe, size = AXE.read_text("utf-8"), page.viewport_size
    assert size is not None
    found = []
    for width in share(WIDTHS, len(WIDTHS)):
        page.set_viewport_size({"width": width, "height": HEIGHT[width]})
        for scheme in SCHEMES:
            page.emulate_media(color_scheme=scheme)
            only = COLOURS if scheme == "dark" else ()
            found += [f"{width} {scheme}: {one}" for one in violations(page, axe, only)]
        page.emulate_media(media="print")
        found += [f"{width} print: {one}" for one in violations(page, axe)]
        page.emulate_media(media="screen", color_scheme="light")
    page.set_viewport_size(size)
    assert found == [], where


@pytest.mark.timeout(400)  # the whole book to print is one page of them, and takes axe half a minute each time
@pytest.mark.parametrize("width", [NARROW, *WIDTHS])
def test_one_page_of_each_kind(book: Watched, site: Path, tiny_site: Path, axe: str, width: int) -> None:
    """In make test every fifth page is looked at once, in one width and one look; in a soak all in all of them."""
    page = book.blank(width)
    found = []
    widths = [NARROW, *WIDTHS]
    kinds = share(list(kinds_of(site, tiny_site)), 5 * len(widths), 5 * widths.index(width) + 1)
    for at, (path, address) in enumerate(kinds):
        page.goto(address)
        page.evaluate(axe)
        for look in share(LOOKS, len(LOOKS), at):
            page.emulate_media(**look)
            found += [f"{path} {look}: {one}" for one in page.evaluate(RUN)]
    assert found == []


@pytest.mark.sweep(2)
@pytest.mark.parametrize("dark", [False, True], ids=["light", "dark"])
def test_pages_in_use(book: Watched, axe: str, dark: bool) -> None:
    page = book.open("index.html", PHONE, dark=dark)
    page.locator("#page_search-words").fill("rocker")
    expect(page.locator("#page_search-found ol")).to_be_visible()
    found = [f"search: {one}" for one in violations(page, axe)]
    page.locator("#page_search-words").fill("zzyzx")
    expect(page.locator("#page_search-found .none")).to_be_visible()
    found += [f"nothing found: {one}" for one in violations(page, axe)]
    page.goto(book.url("calculators/dew-point.html#in=air:30,humidity:95,surface:20"))
    assert page.locator("#answer_cautions li").count() > 0
    found += [f"warned: {one}" for one in violations(page, axe)]
    page.locator("#ask_air").fill("warm")
    assert page.locator("#ask_air-fault").is_visible()
    found += [f"at fault: {one}" for one in violations(page, axe)]
    page.goto(book.url("calculators/datum-fit.html"))
    page.locator("#points_list [data-cell=stated]").first.fill("12o")
    page.locator("#points_details summary").click()
    page.locator("#points_text").fill("name\nA")
    assert page.locator("#points_text-fault li").count() > 0
    found += [f"points: {one}" for one in violations(page, axe)]
    page.goto(book.url("procedures/first-look.html"))
    page.locator("button[data-tick]").first.click()
    found += [f"ticked: {one}" for one in violations(page, axe)]
    assert found == []


@pytest.mark.sweep(4)
@pytest.mark.parametrize("media", ["screen", "print"])
@pytest.mark.parametrize("width", WIDTHS)
def test_the_whole_book_to_print(
    watched_tiny: Watched, axe: str, width: int, media: Literal["screen", "print"]
) -> None:
    page = watched_tiny.open("print.html", width)
    page.emulate_media(media=media)
    assert violations(page, axe) == []


def test_axe_does_find_mistakes(book: Watched, axe: str, tmp_path: Path) -> None:
    bad = tmp_path / "bad.html"
    bad.write_text(
        "<!DOCTYPE html><html lang=en><title>x</title><main><h1>x</h1><p style='color:#666'>grey</p><input>"
        "<a href=a style='font-size:6px'>a</a><a href=b style='font-size:6px'>b</a></main>", "utf-8"
    )  # fmt: skip
    page = book.blank()
    page.goto(bad.as_uri())
    rules = {one.partition(":")[0] for one in violations(page, axe)}
    assert {"color-contrast-enhanced", "label", "target-size"} <= rules
