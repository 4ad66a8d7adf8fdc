"""Pulls and stands against a chain maker's sling table, statics textbooks and a truck maker's manual.

The sling table (lacledechain.com, read; a rope dealer prints the same) is rounded to a hundred pounds and asked for to
that. Two legs of a sling are two pulls: at 60° from the level the chains stand 60° apart, at 45° they stand 90° apart.
"""

import math

import pytest

from tests.outside.asking import Calc

# working limit of one leg, then of two at 60, 45 and 30 degrees from the level; grade 80, in pounds, as printed
SLINGS = [
    (3500, 6100, 4900, 3500), (4500, 7800, 6400, 4500), (7100, 12300, 10000, 7100), (12000, 20800, 17000, 12000),
    (18100, 31300, 25600, 18100), (28300, 49000, 40000, 28300), (34200, 59200, 48400, 34200),
    (47700, 82600, 67400, 47700),
]  # fmt: skip
LEVELS = (60, 45, 30)
STANDS = {"stand_front": "0 mm", "stand_rear": "214 inch", "wheelbase": "214 inch"}


@pytest.mark.parametrize("row", SLINGS)
def test_two_legs_together(calc: Calc, row: tuple[int, ...]) -> None:
    for level, printed in zip(LEVELS, row[1:], strict=True):
        leg, apart = f"{row[0]} lbf", f"{180 - 2 * level} degree"
        answer = calc("pull-resultant", pull_1=leg, pull_2=leg, angle=apart)
        assert answer.number("resultant", "lbf") == pytest.approx(printed, abs=60)
        assert answer.number("direction", "degree") == pytest.approx(90 - level, abs=1e-6)


@pytest.mark.parametrize("row", SLINGS)
def test_one_leg_off_the_line(calc: Calc, row: tuple[int, ...]) -> None:
    for level, printed in zip(LEVELS, row[1:], strict=True):
        answer = calc("pull-limits", force=f"{printed / 2} lbf", chain=f"{row[0]} lbf", clamp="1000 kN",
                      anchor="1000 kN", angle=f"{90 - level} degree")  # fmt: skip
        assert answer.number("most_force", "lbf") == pytest.approx(printed / 2, abs=30)
        assert answer.number("use", "percent") == pytest.approx(100, rel=60 / printed)


def test_trap_a_misprinted_sling(calc: Calc) -> None:
    # docplayer.net, read: 8,100 lb for two legs of 9/32 in at 60 degrees; two other tables print 6,100
    answer = calc("pull-resultant", pull_1="3500 lbf", pull_2="3500 lbf", angle="60 degree")
    assert abs(answer.number("resultant", "lbf") - 8100) > 1500


@pytest.mark.parametrize(("level", "share"), [(75, 96.6), (60, 86.6), (45, 70.7), (30, 50.0), (15, 25.8)])
def test_efficiency_of_a_leg(calc: Calc, level: int, share: float) -> None:
    # usnetting.com, read, from the level; 25.8 is cut, not rounded
    answer = calc("pull-limits", force="1 kN", chain="100 kN", clamp="200 kN", anchor="200 kN",
                  angle=f"{90 - level} degree")  # fmt: skip
    assert answer.number("most_force", "kN") == pytest.approx(share, abs=0.1)


def test_hibbeler_2_1(calc: Calc) -> None:
    # answer read, 497 N at 155 degrees; first force 450 N at 60 degrees read, second 700 N at 195 from memory
    answer = calc("pull-resultant", pull_1="450 N", pull_2="700 N", angle="135 degree")
    assert answer.number("resultant", "N") == pytest.approx(497, abs=0.5)
    assert 60 + answer.number("direction", "degree") == pytest.approx(155, abs=0.5)


def test_components(calc: Calc) -> None:
    # a Swedish bridging course, 4.6b, read: 80.9 and 11.3 N square to each other are 81.7 N
    answer = calc("pull-resultant", pull_1="80.9 N", pull_2="11.3 N", angle="90 degree")
    assert answer.number("resultant", "N") == pytest.approx(81.7, abs=0.05)


def test_trap_a_slip_in_a_square(calc: Calc) -> None:
    # astarmathsandphysics.com, read: 77.87 N from 6063; its terms 1225 + 2025 + 2413 make 5663 (worked out apart)
    found = calc("pull-resultant", pull_1="35 N", pull_2="45 N", angle="40 degree").number("resultant", "N")
    assert found == pytest.approx(math.sqrt(1225 + 2025 + 2413), abs=0.01)
    assert abs(found - 77.87) > 2


@pytest.mark.parametrize(("angle", "leg"), [(30, 10.353), (60, 11.547), (90, 14.142), (120, 20.000)])
def test_bridle(calc: Calc, angle: int, leg: float) -> None:
    # worked out apart: each leg of a bridle for 20 kN
    answer = calc("pull-resultant", pull_1=f"{leg} kN", pull_2=f"{leg} kN", angle=f"{angle} degree")
    assert answer.number("resultant", "kN") == pytest.approx(20, abs=0.001)


def test_unequal_pulls(calc: Calc) -> None:
    # worked out apart
    answer = calc("pull-resultant", pull_1="20 kN", pull_2="15 kN", angle="60 degree")
    assert answer.number("resultant", "kN") == pytest.approx(30.4138, abs=0.0001)
    assert answer.number("direction", "degree") == pytest.approx(25.285, abs=0.001)


def test_load_between_two_axles(calc: Calc) -> None:
    # a truck maker's manual, read: 100 lb 133 in behind the front of 214 in puts 62.14 lb on the rear.
    # Here that load is taken off: 100 lb less on the car, 62.14 of it at the rear. TRAP: the 38.86 lb printed in front.
    car = STANDS | {"mass_front": "1000 lb", "mass_rear": "1000 lb"}
    full, less = (calc("stand-load", **car, removed_mass=f"{mass} lb", removed_at="133 inch") for mass in (0, 100))
    rear = full.number("load_rear", "lb") - less.number("load_rear", "lb")
    front = full.number("load_front", "lb") - less.number("load_front", "lb")
    assert rear == pytest.approx(62.14, abs=0.011)
    assert front == pytest.approx(100 - 62.14, abs=0.011)
    assert abs(front - 38.86) > 0.5


def test_balance_point(calc: Calc) -> None:
    # formuladen.com, read: 130 kg, 210 kg, 1955 mm. TRAP: over 115 kg it prints 3570 mm, behind the car
    answer = calc("stand-load", mass_front="130 kg", mass_rear="210 kg", wheelbase="1955 mm", stand_front="0 mm",
                  stand_rear="1955 mm")  # fmt: skip
    assert answer.number("balance", "mm") * 340 / 115 == pytest.approx(3570, abs=1)
    assert answer.number("balance", "mm") == pytest.approx(1207.5, abs=0.05)
    assert answer.number("load_front", "kg") == pytest.approx(130, abs=1e-9)
    assert answer.number("load_rear", "kg") == pytest.approx(210, abs=1e-9)


def test_rear_axle_off(calc: Calc) -> None:
    # worked out apart: 34 percent on the rear stands with the axle, 16 without it
    car = {"mass_front": "600 kg", "mass_rear": "350 kg", "wheelbase": "2500 mm", "stand_front": "450 mm",
           "stand_rear": "1950 mm"}  # fmt: skip
    on = calc("stand-load", **car)
    off = calc("stand-load", **car, removed_mass="120 kg", removed_at="2500 mm")
    gone = calc("stand-load", **car, removed_mass="240 kg", removed_at="2500 mm")
    assert on.number("lighter", "percent") == pytest.approx(31.40, abs=0.01)
    assert (on.number("safe"), off.number("safe"), gone.number("safe")) == (1, 0, 0)
    assert off.number("load_rear", "kg") == pytest.approx(134.33, abs=0.01)
    assert off.number("margin", "mm") == pytest.approx(242.77, abs=0.01)
    assert any("lifts at a touch" in said for said in off.warned("stop"))
    assert any("The car tips" in said for said in gone.warned("stop"))
    assert gone.number("load_rear", "kg") < 0
