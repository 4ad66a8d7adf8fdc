"""Ram force against a portable ram kit's manual, a tractor manual and a table of ram gauges, all read.

Pressures are printed to the pound or rounded to ten and asked for to that. TRAPS: the rating is reached below
10,000 psi, and a ton is not a ton.
"""

import math

import pytest

from tests.outside.asking import Calc

FOUR_TON, TEN_TON = "0.998 inch**2", "2.411 inch**2"  # effective areas, manual page 10, read


def test_worked_forces(calc: Calc) -> None:
    four = calc("ram-force", area=FOUR_TON, pressure="5010 psi")
    assert four.number("force", "lbf") == pytest.approx(5000, abs=0.6)
    ten = calc("ram-force", area=TEN_TON, pressure="6000 psi")
    assert ten.number("force", "lbf") == pytest.approx(14466, abs=0.6)


@pytest.mark.parametrize(("area", "rated", "printed"), [(FOUR_TON, 8000, 8016), (TEN_TON, 20000, 8295)])
def test_trap_the_rating_is_reached_below_10_000_psi(calc: Calc, area: str, rated: int, printed: int) -> None:
    answer = calc("ram-force", area=area, pressure="1000 psi", rated_force=f"{rated} lbf")
    assert answer.number("highest_pressure", "psi") == pytest.approx(printed, abs=0.6)
    over = calc("ram-force", area=area, pressure=f"{printed + 5} psi", rated_force=f"{rated} lbf")
    assert any("Over the highest" in said for said in over.warned("stop"))


@pytest.mark.parametrize(("area", "rated", "tons"), [(FOUR_TON, 9980, 4.99), (TEN_TON, 24110, 12.06)])
def test_trap_area_is_not_rating_over_10_000_psi(calc: Calc, area: str, rated: int, tons: float) -> None:
    # at 10,000 psi these two give 4.99 and 12.06 short tons, more than their 4 and 10 (worked out apart)
    force = calc("ram-force", area=area, pressure="10000 psi").number("force", "lbf")
    assert force == pytest.approx(rated, abs=0.6)
    assert force / 2000 == pytest.approx(tons, abs=0.0051)


def test_two_rams_of_a_tractor(calc: Calc) -> None:
    # two rams of 1.5 in diameter, 3.534 in2: 17,000 lb at 4810 psi
    answer = calc("ram-force", area="3.534 inch**2", pressure="4810 psi")
    assert answer.number("force", "lbf") == pytest.approx(17000, abs=3.534 * 5)  # printed to ten psi
    assert 2 * math.pi / 4 * 1.5**2 == pytest.approx(3.534, abs=0.00051)


def test_trap_which_ton(calc: Calc) -> None:
    # itidirect.co.uk, ram gauges, read: 20 tons on 2.5 in diameter is 9126 psi, so its ton is 2240 lb
    force = calc("ram-force", area="4.909 inch**2", pressure="9126 psi").number("force", "lbf")
    assert force == pytest.approx(20 * 2240, abs=4.909)
    assert force != pytest.approx(20 * 2000, rel=0.05)
    assert force != pytest.approx(20 * 2204.62, rel=0.01)


def test_trap_a_rounded_table(calc: Calc) -> None:
    # The same table, read: 14 t on 0.809 in diameter is printed 60,059 psi, exactly 60,045. Here its ton is the metric
    # one, 2204.62 lb. A tenth of the pressure gives a tenth of the force; asked for to half a pound per square inch.
    area = math.pi / 4 * 0.809**2
    exact, printed = (
        10 * calc("ram-force", area=f"{area} inch**2", pressure=f"{pressure} psi").number("force", "lbf")
        for pressure in (6004.5, 6005.9)
    )
    assert exact == pytest.approx(14 * 2204.62, abs=area * 0.5)
    assert printed != pytest.approx(14 * 2204.62, abs=area * 10)
    assert exact != pytest.approx(14 * 2240, rel=0.01)


def test_an_extension_halves_the_pressure(calc: Calc) -> None:
    # worlifts.co.uk, safety quiz, read: to 5,000 psi, printed beside it 350 bar, which is 5,076 psi
    plain = calc("ram-force", area=FOUR_TON, pressure="5100 psi", extensions="0")
    longer = calc("ram-force", area=FOUR_TON, pressure="5100 psi", extensions="1")
    assert longer.number("highest_pressure", "psi") == pytest.approx(5000, abs=0.01)
    assert plain.number("highest_pressure", "psi") == pytest.approx(10000, abs=0.01)
    assert plain.warned("stop") == []
    assert any("Over the highest" in said for said in longer.warned("stop"))


def test_only_80_percent_is_used(calc: Calc) -> None:
    # the same quiz, read
    for pressure, cares in (("8000 psi", False), ("8010 psi", True)):
        answer = calc("ram-force", area=FOUR_TON, pressure=pressure)
        assert any("80 percent" in said for said in answer.warned("care")) is cares


def test_units_of_pressure_agree(calc: Calc) -> None:
    # 10,000 psi is 689.476 bar and 68.948 MPa; a US ton-force 8.8964 kN (worked out apart)
    for pressure in ("10000 psi", "689.4757 bar", "68.94757 MPa"):
        answer = calc("ram-force", area=FOUR_TON, pressure=pressure)
        assert answer.number("force", "kN") == pytest.approx(4.99 * 8.8964, abs=0.001)
