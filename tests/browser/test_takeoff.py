"""What a job orders, summed by the page in Chromium: hand-worked sums, and rules that hold for any job."""

from __future__ import annotations

import csv
import io
import math
from collections.abc import Iterator
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from playwright.sync_api import Browser, Page

from tests.shape_of_code.modules import TEMPLATES

Data = dict[str, Any]
SEALER: Data = {
    "title": "Sealer", "path": "supplies/sealer.html", "always_whole": True, "waste": 0.1,
    "pack": {"size": 310, "unit": "mL", "say": "cartridge"},
}  # fmt: skip
WIRE: Data = {
    "title": "Wire", "path": "", "always_whole": False, "waste": 0, "pack": {"size": 5000, "unit": "g", "say": "reel"},
}  # fmt: skip
BOOK: Data = {
    "supplies": {"sealer": SEALER, "wire": WIRE, "bare": {"title": "Bare", "path": "", "pack": None, "waste": 0}},
    "tools": {"wrench": {"title": "Wrench", "path": "", "checks": [], "calibration": {"every": "12 months"}},
              "apron": {"title": "Apron", "path": "", "checks": []}},
}  # fmt: skip


@pytest.fixture(scope="module")
def page(chromium: Browser) -> Iterator[Page]:
    context = chromium.new_context(offline=True)
    page = context.new_page()
    troubles: list[str] = []
    page.on("pageerror", lambda error: troubles.append(str(error)))
    for name in ("job_kept", "takeoff"):
        page.add_script_tag(path=TEMPLATES / "assets" / "js" / f"{name}.js")
    yield page
    context.close()
    assert troubles == []


def procedure(name: str, takes: list[Data], **more: Any) -> Data:
    return {"id": name, "title": name.title(), "takes": takes, "steps": [], **more}


def row(supply: str, amount: float | None, **more: Any) -> Data:
    plain = {"supply": supply, "step": "lay", "unit": "mL", "how": f"{amount} by hand"}
    return {**plain, **({} if amount is None else {"amount": amount}), **more}


def on_seam(supply: str, amount: float | None, side: str = "this", sided: bool = True) -> Data:
    return row(supply, amount, once=f"seam:edge|{side}", sided=sided)


def summed(page: Page, runs: list[str], procedures: list[Data], planned: Data | None = None, **job: Any) -> Data:
    """Runs are `procedure@side`, or `procedure@side@finding`."""
    named = [dict(zip(("procedure", "side", "finding"), run.split("@"), strict=False)) for run in runs]
    whole = {"runs": named, "done": {}, **job}
    library = {"book": BOOK, "procedures": {one["id"]: one for one in procedures}}
    found: Data = page.evaluate("([job, library, planned]) => seambook.takeoff.sum(job, library, planned)",
                                [whole, library, planned])  # fmt: skip
    return found


def supply(found: Data, name: str) -> Data:
    one: Data = next(one for one in found["supplies"] if one["id"] == name)
    return one


def test_waste_comes_on_top_and_packs_are_rounded_up(page: Page) -> None:
    """200 and 90 mL are 290; a tenth on top is 319, more than the 310 of one cartridge."""
    found = supply(summed(page, ["a@left"], [procedure("a", [row("sealer", 200), row("sealer", 90)])]), "sealer")
    assert (found["amount"], found["packs"]) == (290, 2)
    assert found["withWaste"] == pytest.approx(319)
    assert found["how"] == "290 mL and 10 % waste = 319 mL; 2 × cartridge of 310 mL"


def test_three_thirds_of_a_pack_are_one_pack(page: Page) -> None:
    rows = [row("wire", 5000 / 3) for _ in range(3)]
    assert supply(summed(page, ["a@left"], [procedure("a", rows)]), "wire")["packs"] == 1


def test_the_same_seam_counts_once_a_side_by_the_larger_figure(page: Page) -> None:
    both = [procedure("a", [on_seam("sealer", 20)]), procedure("b", [on_seam("sealer", 30)])]
    one_side = supply(summed(page, ["a@left", "b@left"], both), "sealer")
    assert one_side["amount"] == 30
    assert [line["steps"] for line in one_side["lines"]] == [["a@left#lay", "b@left#lay"]]
    assert supply(summed(page, ["a@left", "b@right"], both), "sealer")["amount"] == 50


def test_the_other_side_of_one_run_is_this_side_of_the_next(page: Page) -> None:
    both = [procedure("a", [on_seam("sealer", 20, "other")]), procedure("b", [on_seam("sealer", 20)])]
    assert supply(summed(page, ["a@left", "b@right"], both), "sealer")["amount"] == 20
    assert supply(summed(page, ["a@left", "b@left"], both), "sealer")["amount"] == 40


def test_what_a_car_has_once_counts_once(page: Page) -> None:
    both = [procedure("a", [on_seam("sealer", 20, sided=False)])]
    assert supply(summed(page, ["a@left", "a@right"], both), "sealer")["amount"] == 20


def test_what_nobody_can_say_is_told_and_not_guessed(page: Page) -> None:
    found = summed(page, ["a@left"], [procedure("a", [row("sealer", None), row("wire", 10), row("wire", None)])])
    sealer, wire = supply(found, "sealer"), supply(found, "wire")
    assert (sealer["amount"], sealer["packs"], sealer["open"]) == (None, None, 1)
    assert (wire["amount"], wire["packs"], wire["open"]) == (10, 1, 1)
    assert "no amount given" in wire["how"]


def test_a_step_done_with_another_takes_nothing_again(page: Page) -> None:
    both = [procedure("a", [row("wire", 10)]), procedure("b", [row("wire", 10)])]
    planned: Data = {"merged": {"nodes": [{"id": "a@left#lay", "also": ["b@left#lay"]}]}}
    assert supply(summed(page, ["a@left", "b@left"], both, planned), "wire")["amount"] == 10
    assert supply(summed(page, ["a@left", "b@left"], both), "wire")["amount"] == 20
    # Where the first of them is not ordered, the second takes it.
    assert supply(summed(page, ["b@left"], both, planned), "wire")["amount"] == 10


def test_what_only_the_second_of_two_lists_is_taken_all_the_same(page: Page) -> None:
    """Belts off, once for two procedures: the first lists wire, the second wire and sealer on two seams."""
    both = [procedure("a", [row("wire", 10)]), procedure("b", [row("wire", 10), row("sealer", 5), row("sealer", 6)])]
    planned: Data = {"merged": {"nodes": [{"id": "a@left#lay", "also": ["b@left#lay"]}]}}
    found = summed(page, ["a@left", "b@left"], both, planned)
    assert (supply(found, "wire")["amount"], supply(found, "sealer")["amount"]) == (10, 11)


def test_what_is_on_the_other_side_alone_is_not_ordered(page: Page) -> None:
    part = {"name": "Filler boot", "comes_from": "maker", "only": "right"}
    one = procedure("a", [row("sealer", 20, only="right"), row("sealer", 3)], parts=[part])
    left, right = summed(page, ["a@left"], [one]), summed(page, ["a@right"], [one])
    assert (supply(left, "sealer")["amount"], left["parts"]) == (3, [])
    assert (supply(right, "sealer")["amount"], len(right["parts"])) == (23, 1)


def test_whole_packs_are_paid_whole_and_others_by_their_share(page: Page) -> None:
    """One cartridge at 9.80; a fiftieth of a reel at 30 is 0.60; two hours and a half at 60 are 150."""
    steps = [
        {"key": "lay", "minutes": 60, "hands": 2},
        {"key": "watch", "minutes": 0, "wait": {"least": 30, "attended": True}},
    ]  # fmt: skip
    prices = {"currency": "EUR", "labour": 60, "supplies": {"sealer": 9.8, "wire": 30}}
    one = procedure("a", [row("sealer", 20), row("wire", 100, unit="g")], steps=steps)
    found = summed(page, ["a@left"], [one], prices=prices)
    assert (supply(found, "sealer")["cost"], supply(found, "wire")["cost"]) == (9.8, 0.6)
    assert (found["labour"]["minutes"], found["labour"]["cost"], found["total"]) == (150, 150, 160.4)
    counted = "150 minutes of hands (a step for two counts twice) in 2 steps"
    assert found["labour"]["how"] == f"{counted} = 2.50 h at 60.00 = 150.00 EUR"
    assert supply(found, "sealer")["how"].endswith("1 × 9.80 = 9.80 EUR")
    assert supply(found, "wire")["how"].endswith("0.020 of a reel at 30.00 = 0.60 EUR")


def test_without_prices_there_are_no_sums(page: Page) -> None:
    found = summed(page, ["a@left"], [procedure("a", [row("sealer", 20)])])
    assert (found["total"], found["labour"]["cost"], supply(found, "sealer")["cost"]) == (None, None, None)


def test_labour_is_as_planned_and_as_it_was(page: Page) -> None:
    tasks = [{"id": "a@left#lay", "minutes": 72, "hands": 1}, {"id": "a@left#look", "minutes": 10, "hands": 2}]
    done = {"a@left#lay": {"minutes": 90}}
    planned: Data = {"problem": {"tasks": tasks}, "merged": {"nodes": []}}
    found = summed(page, ["a@left"], [procedure("a", [])], planned, done=done)
    assert found["labour"]["minutes"] == 90 + 2 * 10


def test_part_of_a_pack_that_a_finding_asks_for_is_a_pack(page: Page) -> None:
    finding = {"id": "f1", "where": "Foot", "answer": "yes", "minutes": 0,
               "supplies": [{"supply": "sealer", "packs": 0.3}, {"supply": "wire", "packs": 1.5}]}  # fmt: skip
    found = summed(page, ["a@left"], [procedure("a", [row("sealer", 20)])], findings=[finding])
    assert (supply(found, "sealer")["packs"], supply(found, "wire")["packs"]) == (2, 2)


def test_only_what_is_agreed_is_ordered(page: Page) -> None:
    both = [procedure("a", [row("wire", 10)]), procedure("b", [row("wire", 10)])]
    for answer, amount, packs, minutes in (("waiting", 10, None, 0), ("no", 10, None, 0), ("yes", 20, 2, 45)):
        added = [{"supply": "sealer", "packs": 2}]
        finding = {"id": "f1", "where": "Foot", "answer": answer, "minutes": 45, "supplies": added}
        found = summed(page, ["a@left", "b@left@f1"], both, findings=[finding])
        assert supply(found, "wire")["amount"] == amount
        assert [one["packs"] for one in found["supplies"] if one["id"] == "sealer"] == ([packs] if packs else [])
        assert found["labour"]["minutes"] == minutes


def test_tools_people_and_parts_stand_once(page: Page) -> None:
    part = {"name": "Rocker", "comes_from": "maker"}
    one = procedure("a", [], tools=["apron"], people=[{"who": "Welder", "count": 1}], parts=[part],
                    steps=[{"key": "x", "tools": ["wrench", "apron"]}])  # fmt: skip
    other = procedure("b", [], people=[{"who": "Welder", "count": 2}], parts=[part])
    found = summed(page, ["a@left", "b@left", "a@right"], [one, other])
    assert [tool["id"] for tool in found["tools"]] == ["wrench", "apron"]  # what is calibrated comes first
    assert found["people"] == [{"who": "Welder", "count": 2}]
    assert [(part["name"], part["side"]) for part in found["parts"]] == [("Rocker", "left"), ("Rocker", "right")]


def test_what_the_book_no_longer_has_is_passed_over(page: Page) -> None:
    found = summed(page, ["gone@left", "a@left"], [procedure("a", [row("unheard-of", 3), row("bare", 2)])])
    assert [(one["id"], one["packs"]) for one in found["supplies"]] == [("bare", None), ("unheard-of", None)]


def test_the_values_are_read_back_as_they_were(page: Page) -> None:
    one = procedure("a", [row("sealer", 20.5, how='Edge, "upper"\nflange = 20.5 mL')],
                    parts=[{"name": "=cmd|' /C calc'!A0", "comes_from": "maker", "note": "+1"}])  # fmt: skip
    text = page.evaluate("(sum) => seambook.takeoff.csv(sum)", summed(page, ["a@left"], [one]))
    assert text.endswith("\r\n")
    rows = list(csv.reader(io.StringIO(text, newline=""), strict=True))
    assert len({len(line) for line in rows}) == 1
    sealer, part = (next(line for line in rows if line[0] == sort) for sort in ("supply", "part"))
    assert (sealer[1], float(sealer[2]), float(sealer[3]), sealer[4], sealer[5]) == ("Sealer", 20.5, 22.55, "mL", "1")
    assert 'Edge, "upper"\nflange' in sealer[9]
    assert part[1] == "'=cmd|' /C calc'!A0, left"
    assert part[9] == "'+1"


@given(st.text(max_size=40))
def test_no_cell_is_a_formula_and_each_is_read_back(page: Page, text: str) -> None:
    cell = page.evaluate("(text) => seambook.takeoff.cell(text)", text)
    read = next(csv.reader(io.StringIO(f"{cell},end\r\n", newline=""), strict=True))
    assert read in ([text, "end"], [f"'{text}", "end"])
    assert not read[0].lstrip().startswith(("=", "+", "-", "@"))


@given(st.lists(st.tuples(st.sampled_from(["a", "b", "c"]), st.sampled_from(["this", "other", ""]),
                          st.none() | st.integers(1, 900)), max_size=12),
       st.lists(st.sampled_from(["a@left", "b@left", "a@right", "c@right", "c@"]), unique=True))  # fmt: skip
def test_whatever_the_job_packs_hold_what_is_needed_and_no_pack_is_too_many(
    page: Page, takes: list[tuple[str, str, int | None]], runs: list[str]
) -> None:
    made = [procedure(name, [on_seam("sealer", amount, side) if side else row("sealer", amount)
                             for owner, side, amount in takes if owner == name]) for name in "abc"]  # fmt: skip
    found = summed(page, runs, made)
    again = summed(page, list(reversed(runs)), made)
    for one in found["supplies"]:
        assert one["amount"] == supply(again, one["id"])["amount"]  # the order of procedures changes nothing
        if one["amount"] is not None:
            assert one["packs"] == math.ceil(one["withWaste"] / 310 - 1e-9)
            assert one["amount"] == sum(line["amount"] or 0 for line in one["lines"])
