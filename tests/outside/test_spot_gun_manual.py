"""The spot schedule's third opinion against the table of a portable gun's manual, page 27, class A, read.

The schedule itself is another table; how far the two lie apart is stated beside each check.
"""

import pytest

from tests.outside.asking import Calc

ROWS = [  # mm, pitch, overlap, face, force daN, kA, nugget
    (0.25, 6, 9.5, 3, 90, 4, 3), (0.5, 9.5, 11, 4.5, 136, 7, 4), (0.75, 12.5, 11, 4.5, 181, 8, 5),
    (1.0, 19.5, 12.5, 6.5, 225, 9.5, 5.5), (1.25, 22.5, 15, 6.5, 294, 10.5, 6), (1.5, 27, 16, 6.5, 362, 12, 6.5),
    (2.0, 35, 18, 8, 498, 14, 7.3), (2.5, 42, 19, 8, 590, 15.5, 8.3), (2.8, 48, 21, 9, 725, 17.5, 9),
    (3.2, 50, 23, 9, 820, 19, 10),
]  # fmt: skip
SHARED = [row for row in ROWS if row[0] > 0.254]


@pytest.mark.parametrize("row", ROWS)
def test_every_row_read(calc: Calc, row: tuple[float, ...]) -> None:
    thickness, _, _, _, force, current, _ = row
    answer = calc("spot-schedule", thickness=f"{thickness} mm", coating="bare", mains="50 Hz")
    assert answer.number("force_manual", "daN") == pytest.approx(force, rel=1e-9)
    assert answer.number("current_manual", "kA") == pytest.approx(current, rel=1e-9)


@pytest.mark.parametrize("row", SHARED)
def test_two_tables_made_apart_lie_near(calc: Calc, row: tuple[float, ...]) -> None:
    # the manual presses up to 31 percent harder and passes up to 23 percent more current, and never less of either
    thickness, pitch, overlap, face, force, current, nugget = row
    answer = calc("spot-schedule", thickness=f"{thickness} mm", coating="bare", mains="50 Hz")
    assert 1 <= force / answer.number("force", "daN") <= 1.32
    assert 1 <= current / answer.number("current", "kA") <= 1.23
    assert answer.number("nugget", "mm") == pytest.approx(nugget, rel=0.2)
    assert answer.number("tip_face", "mm") == pytest.approx(face, rel=0.08)
    assert answer.number("least_overlap", "mm") == pytest.approx(overlap, rel=0.15)
    assert answer.number("least_pitch", "mm") == pytest.approx(pitch, rel=0.25)


def test_the_second_of_two_spots_is_tested(calc: Calc) -> None:
    # the manual, page 12, read: weld two at the pitch of the job and test the second
    inputs = {"thickness": "1 mm", "width_1": "5 mm", "width_2": "5 mm", "failure": "button"}
    assert calc("button-check", **inputs, second_spot="yes").number("setup_proven") == 1
    assert calc("button-check", **inputs, second_spot="no").number("setup_proven") == 0
    assert calc("button-check", **inputs).word("verdict") == "test-the-second"


@pytest.mark.parametrize("failure", ["partial", "flat", "crack"])
def test_a_good_spot_leaves_a_hole(calc: Calc, failure: str) -> None:
    # the same page, read: the nugget pulls out and leaves a hole; a large flat break is no weld
    answer = calc("button-check", thickness="1 mm", width_1="9 mm", width_2="9 mm", failure=failure, second_spot="yes")
    assert answer.number("passes") == 0
    assert answer.number("setup_proven") == 0
    assert any("Do not weld on the car" in said for said in answer.warned("stop"))
