"""Plug welds: the hole rule of AWS D1.1 as quoted, the one-for-one rule, and wire by two worked examples.

No published count of plugs against spots was found; what is asked is that neither area nor rim talks the count down.
"""

import math

import pytest

from tests.outside.asking import Calc

HOLES = [  # sheet mm, thickness and 5/16 in, worked out apart to two places
    (0.7, 8.64), (0.8, 8.74), (1.0, 8.94), (1.2, 9.14), (1.5, 9.44), (2.0, 9.94),
]  # fmt: skip


def plugs(calc: Calc, hole: str, spots: int, nugget: str) -> float:
    return calc("plug-weld", hole=hole, sheet="1 mm", spots_replaced=str(spots), nugget=nugget).number("plugs")


@pytest.mark.parametrize(("sheet", "least"), HOLES)
def test_least_hole_of_the_code(calc: Calc, sheet: float, least: float) -> None:
    answer = calc("plug-weld", hole="8 mm", sheet=f"{sheet} mm", spots_replaced="10", nugget="5 mm")
    assert answer.number("code_least", "mm") == pytest.approx(least, abs=0.0051)
    assert answer.number("code_largest", "mm") == pytest.approx(least + 3.175, abs=0.0051)


def test_worked_hole_of_the_code(calc: Calc) -> None:
    # wpswelding.com, read: 1/2 in plate, 13/16 in, printed beside it 21 mm
    answer = calc("plug-weld", hole="20 mm", sheet="0.5 inch", spots_replaced="1", nugget="5 mm")
    assert answer.number("code_least", "inch") == pytest.approx(13 / 16, rel=1e-9)
    assert answer.number("code_least", "mm") == pytest.approx(21, abs=0.51)
    # the greater of the two, 2 1/4 times the plate: 1.125 in against 0.9375 in
    assert answer.number("code_largest", "inch") == pytest.approx(1.125, rel=1e-9)


def test_trap_area_and_rim_invite_fewer_plugs(calc: Calc) -> None:
    # 8 mm against a 5 mm nugget: area 2.56, rim 1.60 (worked out apart). Twenty spots stay twenty plugs.
    answer = calc("plug-weld", hole="8 mm", sheet="1 mm", spots_replaced="20", nugget="5 mm")
    assert answer.number("rim_ratio") == pytest.approx(1.60, rel=1e-9)
    assert answer.number("plugs") == 20
    assert answer.number("plugs") > math.ceil(20 / 1.60) > math.ceil(20 / 2.56)


@pytest.mark.parametrize(
    ("hole", "nugget", "count"),
    [("5 mm", "5 mm", 10), ("5 mm", "6 mm", 12), ("4 mm", "5 mm", 13), ("30 mm", "5 mm", 10)],
)
def test_a_small_hole_takes_more(calc: Calc, hole: str, nugget: str, count: int) -> None:
    # worked out apart: ten spots times nugget by hole, rounded up
    assert plugs(calc, hole, 10, nugget) == count


@pytest.mark.parametrize(
    ("volume", "steel", "wire", "efficiency", "half"),
    [
        # tools.gera.services, read: 35.2 mm2 by 1 m is 0.276 kg, 0.307 kg of wire at 90 percent; printed to the gram
        (35200, 0.276, 0.307, 90, 0.00051),
        # a filler maker's handbook, read: 0.5 x 0.5 x 0.5 x 12 in3 is 0.424 lb at its 0.283 lb/in3, a quarter of a
        # percent (0.5 g) lighter than 7.85 g/cm3; printed to 0.2 g
        (1.5 * 25.4**3, 0.424 * 0.45359237, 0.424 * 0.45359237, 100, 0.00075),
    ],
)
def test_weld_metal_of_two_worked_examples(
    calc: Calc, volume: float, steel: float, wire: float, efficiency: int, half: float
) -> None:
    # their fillets in holes of the same volume: a hundred of 10 mm
    sheet = volume / 100 / (math.pi / 4 * 100)
    inputs = {"hole": "10 mm", "sheet": f"{sheet} mm", "plugs": "100", "wire": "0.8 mm"}
    answer = calc("plug-wire", **inputs, efficiency=f"{efficiency} percent")
    assert answer.number("volume", "mm**3") == pytest.approx(volume, rel=1e-9)
    assert answer.number("wire_mass", "kg") == pytest.approx(wire, abs=half)
    whole = calc("plug-wire", **inputs, efficiency="100 percent")
    assert whole.number("wire_mass", "kg") == pytest.approx(steel, abs=half)


def test_one_plug(calc: Calc) -> None:
    # 8 mm in 1.0 mm sheet: 50.3 mm3 and 0.395 g, worked out apart
    answer = calc("plug-wire", hole="8 mm", sheet="1 mm", plugs="1", wire="0.8 mm", efficiency="100 percent")
    assert answer.number("volume", "mm**3") == pytest.approx(50.3, abs=0.051)
    assert answer.number("wire_mass", "g") == pytest.approx(0.395, abs=0.00051)
    assert answer.number("wire_length", "mm") == pytest.approx(100, rel=1e-9)


def test_density_is_that_of_both_sources(calc: Calc) -> None:
    # 0.283 lb/in3 is 7.833 g/cm3 (worked out apart), beside 7.85: within a quarter of a percent
    answer = calc("plug-wire", hole="10 mm", sheet="1 mm", plugs="100", wire="1 mm", efficiency="100 percent")
    density = answer.number("wire_mass", "lb") / answer.number("volume", "inch**3")
    assert density == pytest.approx(0.283, rel=0.0025)
