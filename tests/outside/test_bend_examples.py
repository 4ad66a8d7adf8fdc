"""Bends against worked examples: the aviation handbook, a sheet-metal workbook, a calculator page, DIN 6935.

Each is asked for to the figures it prints. TRAPS: three books, three meanings of the letter K.
"""

import math

import pytest

from tests.outside.asking import Calc, Refused

EMPIRICAL_K = 0.0078 * 180 / math.pi
"""The aircraft trade's (0.01743 R + 0.0078 T) N as a neutral-axis factor, 0.4469."""


def test_calculator_page(calc: Calc) -> None:
    # calcady.com, bend allowance, read: 0.2827 in; setback and deduction worked out apart from this project
    answer = calc("bend", angle="90 degree", radius="0.125 inch", thickness="0.125 inch", k="0.44")
    assert answer.number("allowance", "inch") == pytest.approx(0.2827, abs=0.000051)
    assert answer.number("setback", "inch") == pytest.approx(0.25, abs=1e-9)
    assert answer.number("deduction", "inch") == pytest.approx(0.217257, abs=1e-6)


def test_workbook_flat_pattern_of_three_bends(calc: Calc) -> None:
    # sheetmetalworkbook.com, 90 degree bends, read: allowance 0.085, deduction 0.079, flat 2.973 in
    answer = calc("bend", angle="90 degree", radius="0.032 inch", thickness="0.050 inch", k=f"{EMPIRICAL_K:.9f}")
    deduction = answer.number("deduction", "inch")
    assert answer.number("allowance", "inch") == pytest.approx(0.085, abs=0.00051)
    assert deduction == pytest.approx(0.079, abs=0.00051)
    assert 0.740 + 0.420 + 1.050 + 1.000 - 3 * deduction == pytest.approx(2.973, abs=0.0015)


def test_aviation_handbook_channel(calc: Calc) -> None:
    # FAA-H-8083-31 chapter 4, read: T 0.040, R 0.16, mold lines 1, 2, 1: setback 0.2, flats 0.8, 1.6, 0.8
    answer = calc("bend", angle="90 degree", radius="0.16 inch", thickness="0.040 inch", k=f"{EMPIRICAL_K:.9f}")
    setback = answer.number("setback", "inch")
    assert [1 - setback, 2 - 2 * setback, 1 - setback] == pytest.approx([0.8, 1.6, 0.8], abs=1e-9)
    # the empirical rule gives 0.27907 with its 0.01743, which is pi / 180 less 0.13 percent
    assert answer.number("allowance", "inch") == pytest.approx(0.27907, rel=0.0014)


@pytest.mark.parametrize(
    ("angle", "factor"),
    # setback is (R + T) tan(angle / 2) on three pages read; the tangents are any mathematical table's
    [(30, 0.26795), (45, 0.41421), (60, 0.57735), (120, 1.73205), (135, 2.41421), (150, 3.73205)],
)
def test_setback_away_from_90_degrees(calc: Calc, angle: int, factor: float) -> None:
    answer = calc("bend", angle=f"{angle} degree", radius="3 mm", thickness="2 mm", k="0.4")
    assert answer.number("setback", "mm") == pytest.approx(5 * factor, abs=5 * 0.000006)
    allowance = math.radians(angle) * 3.8
    assert answer.number("deduction", "mm") == pytest.approx(10 * factor - allowance, abs=10 * 0.000006)


def test_trap_the_aviation_handbooks_setback_factor_is_refused_as_k(calc: Calc) -> None:
    # there K is tan(angle / 2), 1 at 90 degrees; taken for the neutral axis it would stretch the blank
    with pytest.raises(Refused):
        calc("bend", angle="90 degree", radius="0.16 inch", thickness="0.040 inch", k="1")


DIN = [  # radius, thickness, DIN's own factor, correction v in mm at 90 degrees: worked out from the formula as read
    (1, 1, 0.65, -1.9187), (2, 1, 0.8005, -2.2297), (3, 2, 0.7380, -4.1283), (5, 1, 1.0, -3.3606),
    (2.56, 2, 0.7036, -3.9935),
]  # fmt: skip


@pytest.mark.parametrize(("radius", "thickness", "factor", "correction"), DIN)
def test_din_6935_correction_is_the_deduction(
    calc: Calc, radius: float, thickness: float, factor: float, correction: float
) -> None:
    answer = calc("bend", angle="90 degree", radius=f"{radius} mm", thickness=f"{thickness} mm", k=f"{factor / 2}")
    assert answer.number("deduction", "mm") == pytest.approx(-correction, abs=0.0002)


@pytest.mark.parametrize(("radius", "thickness", "factor", "correction"), DIN)
def test_trap_din_s_factor_is_twice_ours(
    calc: Calc, radius: float, thickness: float, factor: float, correction: float
) -> None:
    with pytest.raises(Refused):
        calc("bend", angle="90 degree", radius=f"{radius} mm", thickness=f"{thickness} mm", k=f"{factor}")


def test_trap_a_web_page_takes_the_radius_alone_off(calc: Calc) -> None:
    # r 3, s 3, outside legs 50 and 50: 94.244 mm by the standard's formula; the page deducts only r and gets 100.41
    answer = calc("bend", angle="90 degree", radius="3 mm", thickness="3 mm", k="0.325")
    assert 100 - answer.number("deduction", "mm") == pytest.approx(94.244, abs=0.001)


def test_hat_section_comes_out_alike_from_outside_lengths_and_from_flats(calc: Calc) -> None:
    # T 1, R 1.5, k 0.42, outside 20-30-40-30-20: 132.0637 mm, worked out apart from this project
    answer = calc("bend", angle="90 degree", radius="1.5 mm", thickness="1 mm", k="0.42")
    lengths, corners = (20, 30, 40, 30, 20), (1, 2, 2, 2, 1)
    by_deduction = sum(lengths) - 4 * answer.number("deduction", "mm")
    flats = [length - n * answer.number("setback", "mm") for length, n in zip(lengths, corners, strict=True)]
    assert by_deduction == pytest.approx(132.0637, abs=0.0001)
    assert sum(flats) + 4 * answer.number("allowance", "mm") == pytest.approx(by_deduction, abs=1e-9)
