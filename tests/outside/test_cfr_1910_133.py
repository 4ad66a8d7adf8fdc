"""Least shades against 29 CFR 1910.133(a)(5), read as of 2024-11-30: every row, at both of its ends.

Shades are whole numbers and must be equal. TRAPS: the saying that MAG below 60 A has no minimum; a copy of a sister
regulation (laws9.com, 1915.153, read) with shifted cells, which is not used.
"""

import pytest

from tests.outside.asking import Calc

ROWS = [
    ("manual-metal-arc", 1, 59.9, 7), ("manual-metal-arc", 60, 159.9, 8), ("manual-metal-arc", 160, 249.9, 10),
    ("manual-metal-arc", 250, 550, 11),
    ("mag", 1, 59.9, 7), ("mag", 60, 159.9, 10), ("mag", 160, 249.9, 10), ("mag", 250, 500, 10),
    ("tig", 1, 49.9, 8), ("tig", 50, 149.9, 8), ("tig", 150, 500, 10),
    ("plasma-cut", 1, 299.9, 8), ("plasma-cut", 300, 399.9, 9), ("plasma-cut", 400, 800, 10),
]  # fmt: skip


@pytest.mark.parametrize(("process", "low", "high", "shade"), ROWS)
def test_every_row(calc: Calc, process: str, low: float, high: float, shade: int) -> None:
    for current in (low, high):
        answer = calc("eye-shade", process=process, current=f"{current} A")
        assert answer.number("shade") == shade, current
        assert answer.word("wear") == "helmet"


@pytest.mark.parametrize(("inches", "shade"), [(0.03, 4), (0.12, 4), (0.125, 5), (0.3, 5), (0.5, 5), (0.51, 6), (2, 6)])
def test_gas_welding_goes_by_thickness(calc: Calc, inches: float, shade: int) -> None:
    # under 1/8 in: 4; 1/8 to 1/2 in: 5; over 1/2 in: 6
    answer = calc("eye-shade", process="gas-weld", current="0 A", thickness=f"{inches} inch")
    assert answer.number("shade") == shade
    assert answer.word("wear") == "gas-goggles"


@pytest.mark.parametrize(
    ("process", "current", "end"),
    [("mag", 501, 500), ("tig", 501, 500), ("manual-metal-arc", 551, 550), ("plasma-cut", 801, 800)],
)
def test_beyond_the_rows_there_is_no_answer(calc: Calc, process: str, current: float, end: float) -> None:
    why = calc("eye-shade", process=process, current=f"{current} A").why_not("shade")
    assert why is not None
    assert why.startswith("outside the table")
    assert f"ends at {end} A" in why


@pytest.mark.parametrize(("process", "wear"), [("spot", "clear-goggles-and-shield"), ("grind", "goggles-under-shield")])
def test_no_shade_is_published_for_these(calc: Calc, process: str, wear: str) -> None:
    answer = calc("eye-shade", process=process, current="9000 A")
    why = answer.why_not("shade")
    assert why is not None
    assert why.startswith("outside the table")
    assert answer.word("wear") == wear
    assert any("No shade is published" in said for said in answer.warned("care"))


def test_trap_a_minimum_below_60_amperes(calc: Calc) -> None:
    answer = calc("eye-shade", process="mag", current="40 A")
    assert answer.number("shade") == 7
    assert any("Below 60 A" in said for said in answer.warned("care"))
