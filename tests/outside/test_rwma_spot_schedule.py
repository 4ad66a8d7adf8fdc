"""The spot schedule for bare sheet against every row of the American schedule, read whole in a reprint.

The rows are exact, so they are asked for to the last figure printed; cycles are of 60 Hz. Worked out apart: what a
sheet between two rows gets, and the same time in cycles of 50 Hz.
"""

import pytest

from tests.outside.asking import Calc

ROWS = [  # thickness in, face in, lbf, weld cycles, hold cycles, A, lbf shear, fused zone in, pitch in, overlap in
    (0.010, 0.125, 160, 4, 5, 4000, 130, 0.113, 1 / 4, 3 / 8),
    (0.021, 0.187, 244, 6, 8, 6500, 300, 0.139, 3 / 8, 7 / 16),
    (0.031, 0.187, 326, 8, 10, 8000, 530, 0.161, 1 / 2, 7 / 16),
    (0.040, 0.250, 412, 10, 12, 8800, 812, 0.181, 3 / 4, 1 / 2),
    (0.050, 0.250, 554, 14, 16, 9600, 1195, 0.210, 7 / 8, 9 / 16),
    (0.062, 0.250, 670, 18, 20, 10600, 1717, 0.231, 1, 5 / 8),
    (0.078, 0.312, 903, 25, 30, 11800, 2365, 0.268, 1 + 1 / 8, 11 / 16),
    (0.094, 0.312, 1160, 34, 35, 13000, 3054, 0.304, 1 + 1 / 4, 3 / 4),
    (0.109, 0.375, 1440, 45, 40, 14200, 3672, 0.338, 1 + 5 / 16, 13 / 16),
    (0.125, 0.375, 1760, 60, 45, 15600, 4300, 0.375, 1 + 1 / 2, 7 / 8),
    (0.156, 0.500, 2500, 93, 50, 18000, 6500, 0.446, 1 + 3 / 4, 1),
    (0.187, 0.625, 3340, 130, 55, 20500, 9000, 0.516, 2, 1 + 1 / 2),
    (0.250, 0.750, 5560, 230, 60, 26000, 18000, 0.660, 4, 1 + 1 / 2),
]
EXACT = 1e-9


@pytest.mark.parametrize("row", ROWS)
def test_every_row_read(calc: Calc, row: tuple[float, ...]) -> None:
    thickness, face, force, weld, hold, current, _, nugget, pitch, overlap = row
    answer = calc("spot-schedule", thickness=f"{thickness} inch", coating="bare", mains="60 Hz")
    assert answer.number("tip_face", "inch") == pytest.approx(face, rel=EXACT)
    assert answer.number("force", "lbf") == pytest.approx(force, rel=EXACT)
    assert answer.number("cycles") == pytest.approx(weld, rel=EXACT)
    assert answer.number("hold_time", "s") * 60 == pytest.approx(hold, rel=EXACT)
    assert answer.number("current", "A") == pytest.approx(current, rel=EXACT)
    assert answer.number("nugget", "inch") == pytest.approx(nugget, rel=EXACT)
    assert answer.number("least_pitch", "inch") == pytest.approx(pitch, rel=EXACT)
    assert answer.number("least_overlap", "inch") == pytest.approx(overlap, rel=EXACT)


@pytest.mark.parametrize("row", [row for row in ROWS if 0.0158 < row[0] < 0.157])
def test_every_least_shear_read(calc: Calc, row: tuple[float, ...]) -> None:
    answer = calc("spot-strength", thickness=f"{row[0]} inch", tensile_strength="300 MPa")
    assert answer.number("table_shear", "lbf") == pytest.approx(row[6], rel=EXACT)


def test_the_shear_column_ends_at_90_ksi(calc: Calc) -> None:
    # read: the column is for steel of at most 90 ksi
    inside = calc("spot-strength", thickness="0.040 inch", tensile_strength="90000 psi")
    assert inside.number("table_shear", "lbf") == pytest.approx(812, rel=EXACT)
    beyond = calc("spot-strength", thickness="0.040 inch", tensile_strength="90100 psi").why_not("table_shear")
    assert beyond is not None
    assert beyond.startswith("outside the table")


def test_cycles_of_50_hz_take_as_long(calc: Calc) -> None:
    # 15 cycles are 0.250 s at 60 Hz and 0.300 s at 50 Hz, read at spotweldinc.com; so 10 cycles at 60 Hz are 8.33
    answer = calc("spot-schedule", thickness="0.040 inch", coating="bare", mains="50 Hz")
    assert answer.number("weld_time", "s") == pytest.approx(10 * 0.250 / 15, rel=EXACT)
    assert answer.number("cycles") == pytest.approx(10 * (0.250 / 15) / (0.300 / 15), rel=EXACT)


def test_between_two_rows(calc: Calc) -> None:
    # worked out apart: half way from 0.040 to 0.050 in; the distances are the thicker row's
    answer = calc("spot-schedule", thickness="0.045 inch", coating="bare", mains="60 Hz")
    assert answer.number("force", "lbf") == pytest.approx((412 + 554) / 2, rel=1e-6)
    assert answer.number("cycles") == pytest.approx(12, rel=1e-6)
    assert answer.number("current", "kA") == pytest.approx(9.2, rel=1e-6)
    assert answer.number("least_pitch", "inch") == pytest.approx(7 / 8, rel=EXACT)
    assert answer.number("least_overlap", "inch") == pytest.approx(9 / 16, rel=EXACT)


@pytest.mark.parametrize("thickness", ["0.0099 inch", "0.251 inch"])
def test_nothing_is_drawn_past_the_ends(calc: Calc, thickness: str) -> None:
    answer = calc("spot-schedule", thickness=thickness, coating="bare", mains="60 Hz")
    for output in ("force", "weld_time", "cycles", "current", "tip_face", "nugget"):
        assert str(answer.why_not(output)).startswith("outside the table")


def test_trap_a_rule_of_thumb_for_the_time(calc: Calc) -> None:
    # A page's 2.36 cycles for each millimetre of the stack gives 4.7 for two sheets of 1 mm, half of the schedule's 10.
    answer = calc("spot-schedule", thickness="1.0 mm", coating="bare", mains="60 Hz")
    assert answer.number("cycles") > 1.8 * 2.36 * 2


def test_another_rule_of_thumb_agrees(calc: Calc) -> None:
    # lecture slides, read, 50 Hz: about 250 kgf and 10 cycles for each millimetre; held to a third
    answer = calc("spot-schedule", thickness="1.0 mm", coating="bare", mains="50 Hz")
    assert answer.number("force", "kgf") == pytest.approx(250, rel=0.34)
    assert answer.number("cycles") == pytest.approx(10, rel=0.34)
