"""Cure time and recoat window against the ten-degree rule as adhesive makers' notes and a page print it (secondary).

The notes' worked example: gel 10 and cure 60 minutes at 25 degC are 5 and 30 at 35 degC. TRAP: below the product's
least temperature the rule is right on paper and false in the bay, so there is no answer.
"""

import pytest

from tests.outside.asking import Answer, Calc


def cure(calc: Calc, time: str, sheet: str, shop: str, least: str = "5 degC", factor: str = "2", **more: str) -> Answer:
    return calc("cure-time", sheet_time=time, sheet_temperature=sheet, shop_temperature=shop, factor=factor,
                least_temperature=least, **more)  # fmt: skip


PRINTED = [  # time and temperature on the sheet, temperature here, minutes, within
    ("10 min", "25 degC", "35 degC", 5, 1e-9),  # makers' notes, read on secondary pages
    ("60 min", "25 degC", "35 degC", 30, 1e-9),  # the same
    ("10 min", "25 degC", "45 degC", 2.5, 1e-9),  # worked out apart
    ("60 min", "25 degC", "45 degC", 15, 1e-9),  # worked out apart
    ("30 min", "23 degC", "33 degC", 15.0, 0.05),  # worked out apart
    ("30 min", "23 degC", "15 degC", 52.2, 0.05),  # worked out apart
    ("30 min", "77 degF", "59 degF", 60, 1e-9),  # experts123.com, secondary: doubled for each 18 degF below 77
    ("30 min", "77 degF", "41 degF", 120, 1e-9),  # the same, twice
]


@pytest.mark.parametrize(("time", "sheet", "shop", "minutes", "within"), PRINTED)
def test_the_rule(calc: Calc, time: str, sheet: str, shop: str, minutes: float, within: float) -> None:
    assert cure(calc, time, sheet, shop).number("time", "min") == pytest.approx(minutes, abs=within)


def test_real_products_lie_to_both_sides(calc: Calc) -> None:
    # makers' notes, secondary: 1.5 to 2.5 for ten degrees, so 60 minutes are 24 to 40 when it is ten degrees warmer
    answer = cure(calc, "60 min", "25 degC", "35 degC")
    assert answer.number("shortest", "min") == pytest.approx(24, rel=1e-9)
    assert answer.number("longest", "min") == pytest.approx(40, rel=1e-9)
    cold = cure(calc, "60 min", "25 degC", "15 degC")
    assert [cold.number("shortest", "min"), cold.number("longest", "min")] == pytest.approx([90, 150], rel=1e-9)


@pytest.mark.parametrize("shop", ["9.9 degC", "5 degC", "-10 degC"])
def test_trap_a_figure_where_it_stops_curing(calc: Calc, shop: str) -> None:
    answer = cure(calc, "12 h", "20 degC", shop, least="10 degC")
    for output in ("time", "shortest", "longest"):
        assert answer.why_not(output) is not None
    assert answer.word("advice") == "stops-curing"
    assert any("stops curing" in said for said in answer.warned("stop"))


def test_at_the_least_temperature_it_still_cures(calc: Calc) -> None:
    answer = cure(calc, "12 h", "20 degC", "10 degC", least="10 degC")
    assert answer.number("time", "h") == pytest.approx(24, rel=1e-9)
    assert answer.warned("stop") == []


@pytest.mark.parametrize("shop", ["50.1 degC", "-0.1 degC"])
def test_outside_what_the_rule_is_quoted_for(calc: Calc, shop: str) -> None:
    # quoted for about 0 to 50 degC
    answer = cure(calc, "12 h", "20 degC", shop, least="-20 degC")
    assert answer.why_not("time") is not None
    assert answer.word("advice") == "outside-the-rule"


@pytest.mark.parametrize("product", ["moisture-cure", "waterborne", "structural"])
def test_products_that_do_not_follow_it(calc: Calc, product: str) -> None:
    answer = cure(calc, "12 h", "20 degC", "15 degC", product=product)
    assert answer.why_not("time") is not None
    assert answer.word("advice") == "not-by-this-rule"
    assert any("Not by this rule" in said for said in answer.warned("stop"))


def window(calc: Calc, ago: str, **more: str) -> Answer:
    return calc("recoat-window", applied_ago=ago, least="2 h", most="24 h", **more)


@pytest.mark.parametrize(
    ("ago", "advice"),
    [("1.9 h", "wait"), ("2 h", "coat-now"), ("24 h", "coat-now"), ("24.1 h", "scuff-first"), ("0 h", "wait")],
)
def test_both_ends_of_the_window_are_inside(calc: Calc, ago: str, advice: str) -> None:
    assert window(calc, ago).word("advice") == advice


def test_each_end_goes_to_the_careful_side(calc: Calc) -> None:
    # by the rule as read: ten degrees colder doubles, ten warmer halves
    cold = window(calc, "3 h", shop_temperature="10 degC", sheet_temperature="20 degC")
    assert [cold.number("earliest", "h"), cold.number("latest", "h")] == pytest.approx([4, 24], rel=1e-9)
    warm = window(calc, "3 h", shop_temperature="30 degC", sheet_temperature="20 degC")
    assert [warm.number("earliest", "h"), warm.number("latest", "h")] == pytest.approx([2, 12], rel=1e-9)


def test_what_is_left(calc: Calc) -> None:
    early, late = window(calc, "0.5 h"), window(calc, "30 h")
    assert early.number("still_to_wait", "h") == pytest.approx(1.5, rel=1e-9)
    assert early.number("time_left", "h") == pytest.approx(23.5, rel=1e-9)
    assert (late.number("still_to_wait", "h"), late.number("time_left", "h")) == (0, 0)


def test_a_window_that_the_cold_closes(calc: Calc) -> None:
    answer = calc("recoat-window", applied_ago="10 h", least="8 h", most="12 h", shop_temperature="10 degC",
                  sheet_temperature="20 degC")  # fmt: skip
    assert answer.word("advice") == "no-sure-window"
    assert any("No sure window" in said for said in answer.warned("stop"))


@pytest.mark.parametrize(
    ("inputs", "advice"),
    [
        ({"shop_temperature": "9.9 degC"}, "too-cold"),
        ({"shop_temperature": "51 degC"}, "ask-the-sheet"),
        ({"most": "1 h"}, "read-the-sheet-again"),
    ],
)
def test_no_figure_where_it_would_mislead(calc: Calc, inputs: dict[str, str], advice: str) -> None:
    answer = calc("recoat-window", **({"applied_ago": "3 h", "least": "2 h", "most": "24 h"} | inputs))
    assert answer.word("advice") == advice
    assert answer.why_not("earliest") is not None
    assert answer.warned("stop") != []
