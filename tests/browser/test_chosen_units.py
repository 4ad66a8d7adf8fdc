"""A unit chosen for one field or one answer: what was given stays, the answer stays, and the address carries both."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import pytest
from playwright.sync_api import Page, expect

from tests.browser.test_plots import FRAME
from tests.browser.watched import NARROW, PHONE, Watched

SPOTS = "calculators/spot-layout.html"
NO_BREAK = "\u00a0"


@pytest.fixture
def page(kept: Watched) -> Iterator[Page]:
    yield kept.again(SPOTS)
    assert kept.troubles == []


def choose(page: Page, name: str, unit: str) -> None:
    page.locator(f"#{name}-unit").select_option(unit)


def field(page: Page, name: str) -> tuple[str, str]:
    """What stands in a field, and the unit beside it."""
    return page.locator(f"#ask_{name}").input_value(), page.locator(f"#ask_{name}-unit").input_value()


def answers(page: Page) -> list[str]:
    return page.locator(".answers dd:not(.answer-unit)").all_text_contents()


def address_of(page: Page) -> str:
    """The address as the page has it now; what the driver knows of it comes a little later."""
    found: str = page.evaluate("window.location.href")
    return found


def again(page: Page, address: str) -> None:
    page.goto("about:blank")
    page.goto(address)
    page.evaluate(FRAME)


TYPED = ["1060", "1060.5", "3/16", "10 1/2", "7,25", "41.7322834645669"]
"""Lengths as they are typed."""


def test_choosing_another_unit_and_back_loses_nothing(page: Page) -> None:
    for typed in TYPED:
        page.locator("#ask_length").fill(typed)
        before = answers(page)
        for unit in ("inch", "ft", "cm", "m", "inch", "mm"):
            choose(page, "ask_length", unit)
            assert answers(page) == before, unit
        assert field(page, "length") == (typed, "mm")


def test_the_number_is_converted_and_a_new_one_stands_in_the_unit_chosen(page: Page) -> None:
    page.locator("#ask_length").fill("1016")
    choose(page, "ask_length", "inch")
    assert field(page, "length") == ("40", "inch")  # 1016 / 25.4
    assert page.locator("#ask_length-help .limits").inner_text() == f"0.03938 to 787.4{NO_BREAK}in"
    before = answers(page)
    page.locator("#ask_length").fill("20")
    assert answers(page) != before
    choose(page, "ask_length", "mm")
    assert field(page, "length")[0] == "508"  # 20 * 25.4


def test_the_book_s_units_turn_every_field_but_the_one_that_was_set(page: Page) -> None:
    choose(page, "ask_length", "cm")
    before = field(page, "length"), answers(page)
    page.locator("#page_units").click()
    assert field(page, "length") == ("96", "cm")
    assert field(page, "pitch") == ("1.575", "inch")  # 40 / 25.4 = 1.5748
    assert page.locator("#answer_spacing").inner_text() == f"1.465{NO_BREAK}in"  # 37.2 / 25.4
    page.locator("#page_units").click()
    assert (field(page, "length"), answers(page)) == before


def test_an_answer_s_unit(page: Page) -> None:
    choose(page, "answer_spacing", "cm")
    assert page.locator("#answer_spacing").inner_text() == f"3.72{NO_BREAK}cm"  # 930 mm in 25 spaces
    assert page.locator("#answer_first_mark").inner_text() == f"15.0{NO_BREAK}mm"
    again(page, address_of(page))
    assert page.locator("#answer_spacing").inner_text() == f"3.72{NO_BREAK}cm"
    page.locator("#page_units").click()
    assert page.locator("#answer_spacing").inner_text() == f"3.72{NO_BREAK}cm"
    assert page.locator("#answer_first_mark").inner_text() == f"0.591{NO_BREAK}in"  # 15 / 25.4 = 0.5906
    page.locator("#page_units").click()
    choose(page, "answer_spacing", "mm")
    assert page.locator("#answer_spacing").inner_text() == f"37.2{NO_BREAK}mm"


def test_the_choice_is_kept_in_the_address_and_nowhere_else(page: Page) -> None:
    page.locator("#ask_length").fill("1060")
    choose(page, "ask_length", "inch")
    choose(page, "ask_pitch", "cm")
    shown, said = [field(page, name) for name in ("length", "pitch", "end_distance")], answers(page)
    assert shown == [("41.73", "inch"), ("4", "cm"), ("15", "mm")]
    address = address_of(page)
    assert "length:1060~mm~inch,pitch:4~cm,end_distance:15," in address
    assert page.evaluate("JSON.stringify(localStorage)").find("inch") < 0
    again(page, address)
    assert [field(page, name) for name in ("length", "pitch", "end_distance")] == shown
    assert answers(page) == said
    choose(page, "ask_length", "mm")
    assert field(page, "length") == ("1060", "mm")
    page.goto("about:blank")
    page.goto(address.partition("#")[0])
    assert field(page, "length") == ("960", "mm")


def test_a_record_s_own_unit_may_be_chosen_where_the_other_is_shown(page: Page) -> None:
    page.locator("#page_units").click()
    choose(page, "ask_length", "mm")
    page.locator("#ask_length").fill("700")
    again(page, address_of(page))
    assert field(page, "length") == ("700", "mm")
    page.locator("#page_units").click()
    assert field(page, "length") == ("700", "mm")


@pytest.mark.sweep(2)
@pytest.mark.parametrize("given", [
    {"length": "13,25"}, {"length": "3/16 in"}, {"length": "5 3/16 in"}, {"factory_count": "0"}, {"uplift": ""},
    {"least_pitch": "", "uplift": "2"}, {"length": ""}, {"length": "a, b:c~d%"}, {"length": "68 degF"},
    {"length": "1,250"}, {"length": "12 mm 5"}, {"length": "5 bananas"},
])  # fmt: skip
def test_whatever_is_typed_comes_back_by_its_address(page: Page, given: dict[str, str]) -> None:
    for name, text in given.items():
        page.locator(f"#ask_{name}").fill(text)
    # A unit that was typed behind its number stands beside it when the page is opened again.
    read: Any = """() => [[...document.querySelectorAll('.ask input')].map((one) => one.value.replace(/ ?in$/, '')),
        [...document.querySelectorAll('.ask .unit-choice')].map((one) => one.value),
        [...document.querySelectorAll('.answers dd:not(.answer-unit), .ask .fault')].map((one) => one.textContent)]"""
    before = page.evaluate(read)
    again(page, address_of(page))
    assert page.evaluate(read) == before
    assert page.locator("#link_fault").is_hidden()


IN_PART = [
    ("in=nothing:5,length:800", "there is no input “nothing”"), ("in=length:800,pitch:%E0%A4%A", "“pitch:%E0%A4%A”"),
    ("in=length:800,rubbish", "“rubbish”"), ("in=length:800,spacing:~kg", "“kg” is no unit of spacing"),
    ("in=length:800,__proto__:5", "there is no input “__proto__”"),
]
"""Links of which a part cannot be used, and what is said of it."""


def test_a_part_of_a_link_that_cannot_be_used_is_told_and_the_rest_taken(page: Page) -> None:
    for fragment, said in IN_PART:
        again(page, address_of(page).partition("#")[0] + f"#{fragment}")
        place = page.locator("#link_fault")
        assert place.is_visible()
        assert said in place.inner_text()
        assert field(page, "length") == ("800", "mm")
        box, form = place.bounding_box(), page.locator("#ask_form").bounding_box()
        assert box is not None
        assert form is not None
        assert box["y"] + box["height"] <= form["y"], "above the form"


def test_a_comma_that_a_program_spelled_out(page: Page) -> None:
    address = address_of(page).partition("#")[0]
    again(page, f"{address}#in=length:812,5~mm,pitch:40")
    assert field(page, "length") == ("812,5", "mm")
    assert page.locator("#link_fault").is_hidden()


@pytest.mark.parametrize("width", [NARROW, PHONE])
def test_units_are_large_enough_for_a_glove_and_stand_beside_their_numbers(book: Watched, width: int) -> None:
    page = book.open(SPOTS, width)
    for name in ("ask_length", "answer_spacing"):
        unit, number = page.locator(f"#{name}-unit").bounding_box(), page.locator(f"#{name}").bounding_box()
        assert unit is not None
        assert number is not None
        assert unit["height"] >= 60
        assert unit["width"] >= 48
        assert unit["x"] >= number["x"] + number["width"] - 1
        assert unit["x"] + unit["width"] <= width
        middles = [box["y"] + box["height"] / 2 for box in (unit, number)]
        assert abs(middles[0] - middles[1]) < 12, name


BAD = [
    ("long", "cannot be used"), ("0", "is too small"), ("30000", "is too large"), ("5 kg", "is not offered here"),
    ("", "Nothing is written here"), ("1,250", "the comma could part thousands"), ("12 mm 5", "cannot be used"),
]
"""What cannot be used, and what is said of it."""


def test_a_bad_entry_on_a_phone(page: Page) -> None:
    entry, fault = page.locator("#ask_length"), page.locator("#ask_length-fault")
    for text, said in BAD:
        entry.focus()
        choose(page, "ask_length", "inch")
        entry.focus()
        entry.fill(text)
        page.evaluate(FRAME)
        assert said in fault.inner_text()
        assert " " in text or "from 0.03938 to 787.4 inch" in fault.inner_text()
        assert entry.input_value() == text, "what was typed stays"
        assert not text or f'"{text}"' in fault.inner_text()
        assert "ask_length-fault" in (entry.get_attribute("aria-describedby") or "").split()
        assert page.evaluate("document.activeElement.id") == "ask_length"
        assert page.evaluate("document.documentElement.scrollWidth") <= PHONE
        choose(page, "ask_length", "mm")
        # A number is converted though it is not admitted; what is none stays when the unit is chosen anew.
        assert entry.input_value() == {"30000": "762000"}.get(text, text)


def test_a_link_to_these_values_is_copied(book: Watched) -> None:
    page = book.open(SPOTS, PHONE)
    page.context.grant_permissions(["clipboard-read", "clipboard-write"])
    page.locator("#ask_length").fill("1060")
    choose(page, "ask_length", "inch")
    page.get_by_role("button", name="Copy link to these values").click()
    expect(page.locator("#copy_link span")).to_have_text("Copied.")
    assert page.evaluate("navigator.clipboard.readText()") == address_of(page)
    assert "length:1060~mm~inch" in address_of(page)
    page.locator("#ask_length").fill("900")
    expect(page.locator("#copy_link span")).to_have_text("")


def test_where_nothing_can_be_copied_nothing_offers_to(book: Watched) -> None:
    page = book.blank(PHONE)
    page.add_init_script("Object.defineProperty(navigator, 'clipboard', {value: undefined})")
    page.goto(book.url(SPOTS))
    assert page.locator("#copy_link").is_hidden()
