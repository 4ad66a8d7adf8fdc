"""Solvent vapour in a box against a course, a tank sheet and a page (read), and the ideal gas law.

No published example has a box of a car's size. Solvent figures (density, molar mass) stand beside each case and are
from memory; the explosive limits are as the pages print them.
"""

import pytest

from tests.outside.asking import Answer, Calc

GAS_CONSTANT = 8.314462618
"""J/(mol K), exact since the SI of 2019."""
ATMOSPHERE = 101325
"""Pa, exact."""
SEVENTY_FAHRENHEIT = (70 + 459.67) * 5 / 9
"""In kelvin."""


def box(calc: Calc, cavity: str, solvent: str, density: float, molar_mass: float, limit: float) -> Answer:
    return calc("vapour-limit", cavity=cavity, solvent=solvent, density=f"{density} g/ml", molar_mass=str(molar_mass),
                lower_limit=f"{limit} percent")  # fmt: skip


def test_a_pound_mole(calc: Calc) -> None:
    # nrctraining.com, read: 387 cubic feet to the pound mole at 70 degF
    answer = box(calc, "387 ft**3", f"{453.59237 * 0.92} ml", 1, 92, 1)  # a hundredth of a pound mole
    assert answer.number("vapour", "ft**3") == pytest.approx(3.87, rel=1e-9)
    assert answer.number("concentration", "percent") == pytest.approx(1, rel=1e-9)
    assert answer.number("share", "percent") == pytest.approx(100, rel=1e-9)


@pytest.mark.parametrize(("mass", "molar_mass"), [(10, 58.08), (10, 92.14), (10, 106.17), (10, 116.16)])
def test_the_ideal_gas_agrees(calc: Calc, mass: float, molar_mass: float) -> None:
    # worked out apart at 70 degF and one atmosphere; 387 is rounded, so within 0.2 percent
    litres = mass / molar_mass * GAS_CONSTANT * SEVENTY_FAHRENHEIT / ATMOSPHERE * 1000
    answer = box(calc, "100 liter", f"{mass} ml", 1, molar_mass, 1)
    assert answer.number("vapour", "liter") == pytest.approx(litres, rel=0.002)


@pytest.mark.parametrize(
    ("gallons", "tank", "one_percent"), [(5000, 668, 6.7), (10000, 1336, 13.4), (25000, 3342, 33.4)]
)
def test_one_percent_of_a_tank(calc: Calc, gallons: float, tank: float, one_percent: float) -> None:
    # scribd 136701635, a coating maker's sheet, read: cubic feet of the tank (cut, not rounded), and of vapour in it
    answer = box(calc, f"{gallons} gallon", "1 liter", 0.87, 106, 1)
    made = answer.number("vapour", "ft**3") * answer.number("enough", "liter")  # vapour of what is enough
    assert made == pytest.approx(one_percent, abs=0.06)
    assert tank <= made * 100 < tank + 1


def test_a_quarter_of_the_limit(calc: Calc) -> None:
    # epm.uk.com, read: ethanol 3.3 percent, a quarter of it 0.8 percent
    answer = box(calc, "100 liter", "2 ml", 0.789, 46.07, 3.3)
    quarter = answer.number("concentration", "percent") / answer.number("share", "") / 4
    assert quarter == pytest.approx(0.8, abs=0.05)


def test_not_a_teaspoon(calc: Calc) -> None:
    # worked out apart: 0.605 ml of a xylene-like solvent bring 12 litres to 1 percent
    answer = box(calc, "12 liter", "1 ml", 0.87, 106, 1)
    assert answer.number("enough", "ml") == pytest.approx(0.605, abs=0.0006)
    assert answer.number("enough_for_tenth", "ml") == pytest.approx(0.0605, abs=0.00006)
    assert answer.word("advice") == "explosive"


@pytest.mark.parametrize("solvent", ["0 ml", "0.01 ml", "0.3 ml", "20 ml", "100 liter"])
def test_it_never_permits(calc: Calc, solvent: str) -> None:
    # WAC 296-304-03009, read: no arc where vapour can be, and under a tenth of the limit, tested
    answer = box(calc, "12 liter", solvent, 0.87, 106, 1)
    assert answer.word("advice") in {"explosive", "over-a-tenth", "not-shown-safe"}
    said = answer.warned("stop") + answer.warned("care")
    assert said != []
    if solvent != "0 ml":
        assert any("Do not weld" in line for line in answer.warned("stop"))


@pytest.mark.parametrize(
    ("percent_of_limit", "advice"),
    [(99, "over-a-tenth"), (100.01, "explosive"), (10.01, "over-a-tenth"), (9.9, "not-shown-safe")],
)
def test_where_the_advice_turns(calc: Calc, percent_of_limit: float, advice: str) -> None:
    full = box(calc, "12 liter", "1 ml", 0.87, 106, 1).number("enough", "ml")
    answer = box(calc, "12 liter", f"{full * percent_of_limit / 100:.9f} ml", 0.87, 106, 1)
    assert answer.word("advice") == advice
