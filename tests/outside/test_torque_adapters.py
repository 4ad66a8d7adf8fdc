"""Torque wrenches with adapters against two worked sheets and a page on angles, all read.

Settings are printed to a tenth or to a whole number and asked for to a twentieth. TRAP: a page with the angles
reversed.
"""

import pytest

from tests.outside.asking import Answer, Calc


def wrench(calc: Calc, torque: str, length: str, adapter: str, angle: float) -> Answer:
    return calc("torque-adapter", torque=torque, wrench=length, adapter=adapter, angle=f"{angle} degree")


@pytest.mark.parametrize(
    ("torque", "length", "adapter", "setting"),
    [
        ("30 lbf*ft", "12 inch", "6 inch", 20),  # torqwrench.com/Info/extens.php, read
        ("20 lbf*ft", "12 inch", "3 inch", 16),  # adapter sheet I08-0134, read
    ],
)
def test_straight_ahead(calc: Calc, torque: str, length: str, adapter: str, setting: float) -> None:
    answer = wrench(calc, torque, length, adapter, 0)
    assert answer.number("setting", "lbf*ft") == pytest.approx(setting, abs=0.051)


@pytest.mark.parametrize(
    ("angle", "setting", "within"),
    [
        (0, 71.1, 0.051),  # agentcalc.com, read
        (90, 80, 1e-9),  # agentcalc.com, read
        (45, 73.503, 0.00051),  # worked out apart
        (180, 91.429, 0.00051),  # T L / (L - E): engineersedge.com, read; worked out apart
    ],
)
def test_at_an_angle(calc: Calc, angle: float, setting: float, within: float) -> None:
    answer = wrench(calc, "80 N*m", "40 cm", "5 cm", angle)
    assert answer.number("setting", "N*m") == pytest.approx(setting, abs=within)


def test_trap_the_angles_reversed(calc: Calc) -> None:
    # torque-calculator.com, read, says that 90 degrees has the most effect and 0 the least
    straight, square = (wrench(calc, "80 N*m", "40 cm", "5 cm", angle).number("setting", "N*m") for angle in (0, 90))
    assert abs(square - 80) < 1e-9
    assert 80 - straight > 8


def test_without_an_adapter_nothing_changes(calc: Calc) -> None:
    assert wrench(calc, "80 N*m", "40 cm", "0 cm", 0).number("setting", "N*m") == pytest.approx(80, rel=1e-12)


@pytest.mark.parametrize("adapter", ["400 mm", "500 mm"])
def test_no_lever_no_answer(calc: Calc, adapter: str) -> None:
    answer = wrench(calc, "80 N*m", "400 mm", adapter, 180)
    assert answer.why_not("setting") is not None
    assert any("no lever" in said for said in answer.warned("stop"))
