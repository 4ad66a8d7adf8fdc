"""Labels printed by Chromium and measured as pictures: where they stand, what their codes say, that no name is cut."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest
from playwright.sync_api import Page, expect

from tests.browser.conftest import BASE
from tests.browser.on_paper import SIZES, Grey, codes, pictures, printed
from tests.browser.test_axe import AXE, violations
from tests.browser.watched import DESK, PHONE, PHONE_FIRST, SCHEMES, Watched

pytestmark = pytest.mark.slow
DPI = 300
DOT = 25.4 / DPI
OFF = 0.5
"""How far an edge may be off, in mm."""
NOTE = "26-041, dark green two-door"
LONG = "Reinforcement behind the hinge pillar, bought second hand, that waits for its owner to decide"
WORD = "Donaudampfschifffahrtsgesellschaftskapitaenspatent"
SHEETS: dict[str, dict[str, float]] = {
    "A4": {"columns": 3, "rows": 7, "left": 8, "right": 8, "top": 12, "bottom": 12, "across": 2, "down": 0},
    "Letter": {"columns": 2, "rows": 5, "left": 4.5, "right": 6, "top": 12.7, "bottom": 20, "across": 5, "down": 2.5},
}


def chosen(page: Page, counts: dict[str, int], own: tuple[str, ...] = (), note: str = "") -> None:
    """Choose by typing, as a reader does: the name of each thing and how many."""
    for name, count in counts.items():
        page.locator("#label_find").fill(name)
        field = page.locator(".label-row input").first
        field.fill(str(count))
        field.dispatch_event("change")
    page.locator("#label_own").fill("\n".join(own))
    page.locator("#label_note").fill(note)


def set_out(page: Page, settings: dict[str, float]) -> None:
    for key, value in settings.items():
        page.locator(f"#label_{key}").fill(str(value).removesuffix(".0"))


def on(page: Page, paper: str) -> None:
    button = page.locator("#page_paper")
    if (button.get_attribute("aria-pressed") == "true") != (paper == "Letter"):
        button.click()


def edges(picture: Grey, *, upright: bool) -> list[float]:
    """Where straight lines run through the sheet, in mm; what a code has of dark is shorter."""
    share = (picture < 200).mean(axis=0 if upright else 1)
    dark = np.concatenate(([False], share > 0.75, [False]))
    turns = np.flatnonzero(dark[1:] != dark[:-1])
    return [float((a + b) / 2 * DOT) for a, b in zip(turns[::2], turns[1::2], strict=True) if (b - a) * DOT < 1]


def wanted(size: float, count: float, first: float, last: float, gap: float) -> list[float]:
    """Both edges of each label along a side; where labels touch, their edges are one line."""
    length = (size - first - last - gap * (count - 1)) / count
    starts = [first + at * (length + gap) for at in range(round(count))]
    return sorted({round(edge, 3) for start in starts for edge in (start, start + length)})


@pytest.mark.sweep(2)
@pytest.mark.parametrize("paper", SIZES)
def test_labels_stand_where_the_sheet_has_them(served: Watched, tmp_path: Path, paper: str) -> None:
    page = served.open("labels.html", DESK)
    on(page, paper)
    settings = SHEETS[paper]
    set_out(page, settings)
    page.locator("label[for=label_outline]").click()
    count = round(settings["columns"] * settings["rows"])
    chosen(page, {"Cover": count - 1}, ("Shelf 3", "Shelf 4"), NOTE)
    pdf = tmp_path / "labels.pdf"
    sheets = printed(page, pdf)
    assert len(sheets) == 2, "one label more than a sheet has"
    wide, high = SIZES[paper]
    assert (sheets[0].width, sheets[0].height) == pytest.approx((wide, high), abs=OFF)
    first, second = pictures(pdf, DPI)
    across = wanted(wide, settings["columns"], settings["left"], settings["right"], settings["across"])
    down = wanted(high, settings["rows"], settings["top"], settings["bottom"], settings["down"])
    assert edges(first, upright=True) == pytest.approx(across, abs=OFF)
    assert edges(first, upright=False) == pytest.approx(down, abs=OFF)
    assert codes(first) == [f"{BASE}/panels/cover.html"] * (count - 1)
    assert codes(second) == [], "a text of one's own leads nowhere"
    assert "Shelf 4" in sheets[1].text
    said = f"Each label {across[1] - across[0]:.1f} mm wide and {down[1] - down[0]:.1f} mm high"
    assert said in page.locator(".label-told").inner_text(), "what is said is what is printed"


def test_each_label_says_its_name_its_id_its_side_and_the_job(served: Watched, tmp_path: Path) -> None:
    page = served.open("labels.html", DESK)
    chosen(page, {"Cover": 1, "drill": 2, "film": 1, "box": 1}, (LONG, WORD), NOTE)
    sheets = printed(page, tmp_path / "labels.pdf")
    text = sheets[0].text
    titles = page.evaluate("() => window.seambook.labels.kinds.flatMap(({ items }) => items)")
    by_id = {one["id"]: one for one in titles}
    for id_, count in (("cover", 1), ("drill", 2), ("film-primer", 1), ("box", 1)):
        assert text.count(by_id[id_]["title"]) >= count
        assert sum(word.text == id_ for word in sheets[0].words) == count, id_
    assert text.count("26-041,") == 7
    assert LONG in text, "a long name goes over several lines"
    assert WORD in text.replace(" ", ""), "a long word is broken, not cut"
    assert "\u2026" not in text
    assert sorted(codes(pictures(tmp_path / "labels.pdf", DPI)[0])) == sorted(
        f"{BASE}/{by_id[id_]['path']}" for id_ in ("cover", "drill", "drill", "film-primer", "box")
    )
    # Words stay within their label and clear of its code.
    set_wide = (SIZES["Letter"][0] - 16 - 4) / 3
    for word in sheets[0].words:
        column = int((word.left - 8) // (set_wide + 2))
        assert word.right <= 8 + column * (set_wide + 2) + set_wide + 0.1, word


def test_a_handed_panel_has_a_label_for_each_side(book: Watched) -> None:
    page = book.open("labels.html", DESK)
    page.locator("#label_find").fill("rocker, outer")
    sides = [f"Rocker, outer, {side} rocker-outer" for side in ("left", "right")]
    expect(page.locator(".label-row label")).to_have_text(sides)


def test_what_has_no_room_is_told(served: Watched) -> None:
    page = served.open("labels.html", DESK)
    chosen(page, {"Cover": 1}, (LONG * 4,))
    set_out(page, {"columns": 6, "rows": 20, "left": 5, "right": 5})
    told = page.locator(".label-told .fault")
    expect(told).to_have_count(2)
    expect(told.nth(0)).to_contain_text("These have more words than the label has room for")
    expect(told.nth(0)).to_contain_text(LONG)
    expect(told.nth(1)).to_contain_text("too fine for a phone")
    page.locator("#label_columns").fill("9")
    expect(page.locator("#label_columns_fault")).to_contain_text("Each label would be")
    expect(page.locator("#label_print")).to_be_disabled()
    page.locator("#label_columns").fill("two")
    expect(page.locator("#label_columns_fault")).to_have_text("Write a whole number from 1 to 10.")
    assert page.locator("#label_columns").get_attribute("aria-invalid") == "true"
    page.locator("#label_columns").fill("2")
    expect(page.locator("#label_columns_fault")).to_be_hidden()
    page.locator("#label_start").fill("41")
    expect(page.locator("#label_start_fault")).to_have_text("The sheet has 40 labels.")


def test_a_sheet_that_was_begun_goes_on_and_its_settings_are_kept(served: Watched, tmp_path: Path) -> None:
    page = served.open("labels.html", DESK)
    on(page, "A4")
    set_out(page, SHEETS["A4"] | {"left": 10.5, "start": 5})
    chosen(page, {"Cover": 1})
    sheets = printed(page, tmp_path / "begun.pdf")
    name = next(word for word in sheets[0].words if word.text == "cover")
    wide, high = (210 - 10.5 - 8 - 4) / 3, (297 - 24) / 7
    assert 10.5 + wide + 2 < name.left < 10.5 + 2 * wide + 2, "the second in its row"
    assert 12 + high < name.top < 12 + 2 * high, "the second row"
    page.reload()
    assert page.locator("#label_left").input_value() == "10.5"
    assert page.locator("#label_start").input_value() == "1", "another sheet begins at its first label"
    key = "`seambook:${document.body.dataset.book}:labels`"
    page.evaluate(f"() => localStorage.setItem({key}, '{{\"columns\": \"<b>\", \"rows\": null}}')")
    page.reload()
    assert page.locator("#label_columns").input_value() == "3", "what is no setting is not taken"


def test_a_book_without_an_address_says_where_it_is_set(book: Watched, tmp_path: Path) -> None:
    page = book.open("labels.html", DESK)
    expect(page.locator(".labels .notice")).to_contain_text("base_address")
    chosen(page, {"rocker, outer": 2})
    sheets = printed(page, tmp_path / "plain.pdf")
    assert len(sheets) == 1
    assert sheets[0].text.count("rocker-outer") == 2
    assert codes(pictures(tmp_path / "plain.pdf", 150)[0]) == []


@pytest.mark.parametrize("width", PHONE_FIRST)
def test_it_is_used_by_keys_and_with_a_glove(served: Watched, width: int) -> None:
    page = served.open("labels.html", width)
    page.locator("#label_find").focus()
    page.keyboard.type("drill")
    page.keyboard.press("Tab")
    for _ in range(3):  # past what scrolls, to the button behind the number
        if page.evaluate("() => document.activeElement.textContent") == "+":
            break
        page.keyboard.press("Tab")
    more = page.locator(".label-row button").nth(1)
    more.focus()
    page.keyboard.press("Enter")
    page.keyboard.press("Space")
    assert page.locator(".label-row input").input_value() == "2"
    expect(page.locator(".label-told")).to_contain_text("2 labels on 1 sheet")
    pressed = page.locator("#label_desk :is(button, input:not([type=checkbox]), textarea), label[for=label_outline]")
    boxes = [one.bounding_box() for one in pressed.all()]
    assert len(boxes) > 15
    assert all(box is not None and min(box["width"], box["height"]) >= 59.9 for box in boxes), boxes
    assert page.evaluate("() => document.documentElement.scrollWidth <= window.innerWidth")


@pytest.mark.sweep(2)
@pytest.mark.parametrize("scheme", SCHEMES)
def test_axe_finds_nothing(served: Watched, scheme: str) -> None:
    page = served.open("labels.html", PHONE, dark=scheme == "dark")
    chosen(page, {"Cover": 2}, (LONG,), NOTE)
    for media in ("screen", "print"):
        page.emulate_media(media=media)
        assert violations(page, AXE.read_text("utf-8")) == []
