"""Nuggets, buttons and flanges: the roots of lecture slides, the definitions of AWS D8.1M:2013, and a design guide.

The roots are printed to two places. The slides and definitions were read; the rest was worked out apart.
"""

import pytest

from tests.outside.asking import Calc

ROOTS = [  # mm, 4 and 5 times the root, worked out apart to two places
    (0.7, 3.35, 4.18), (0.8, 3.58, 4.47), (1.0, 4.00, 5.00), (1.2, 4.38, 5.48), (1.5, 4.90, 6.12), (2.0, 5.66, 7.07),
]  # fmt: skip


@pytest.mark.parametrize(("sheet", "least", "setup"), ROOTS)
def test_four_and_five_times_the_root(calc: Calc, sheet: float, least: float, setup: float) -> None:
    answer = calc("spot-nugget", sheet_1=f"{sheet} mm", sheet_2=f"{sheet} mm")
    assert answer.number("least_nugget", "mm") == pytest.approx(least, abs=0.0051)
    assert answer.number("setup_nugget", "mm") == pytest.approx(setup, abs=0.0051)
    button = calc("button-check", thickness=f"{sheet} mm", width_1="5 mm", width_2="5 mm", failure="button")
    assert button.number("required", "mm") == pytest.approx(least, abs=0.0051)


@pytest.mark.parametrize(
    ("stack", "governing"),
    [((0.7, 2.0), 0.7), ((2.0, 0.7), 0.7), ((0.8, 1.2, 1.0), 1.0), ((1.2, 0.8, 1.0), 1.0), ((0.7, 1.4, 1.4), 1.4),
     ((0.7, 0.7, 2.0), 0.7)],
)  # fmt: skip
def test_the_thinner_of_two_and_the_second_thickest_of_three(
    calc: Calc, stack: tuple[float, ...], governing: float
) -> None:
    # AWS D8.1M:2013, clause 3, read on a page that quotes it
    sheets = {f"sheet_{place}": f"{sheet} mm" for place, sheet in enumerate(stack, 1)}
    assert calc("spot-nugget", **sheets).number("governing", "mm") == pytest.approx(governing, rel=1e-12)


def test_trap_a_thin_skin_has_an_interface_of_its_own(calc: Calc) -> None:
    # 0.7 on 1.4 and 1.4 mm: 4 times the root is 3.35 at the skin and 4.73 between the thick ones (worked out apart)
    answer = calc("spot-nugget", sheet_1="0.7 mm", sheet_2="1.4 mm", sheet_3="1.4 mm")
    assert answer.number("interface_1", "mm") == pytest.approx(3.35, abs=0.0051)
    assert answer.number("interface_2", "mm") == pytest.approx(4.73, abs=0.0051)
    assert answer.why_not("interface_3") is not None
    assert any("outside sheet is thinner" in said for said in answer.warned("care"))


def test_four_sheets_have_no_single_nugget(calc: Calc) -> None:
    # the standards' scopes end at three sheets, read
    answer = calc("spot-nugget", sheet_1="0.8 mm", sheet_2="1 mm", sheet_3="1.2 mm", sheet_4="1 mm")
    for output in ("governing", "least_nugget", "setup_nugget"):
        assert str(answer.why_not(output)).startswith("outside the table")
    assert answer.number("interface_2", "mm") == pytest.approx(4.00, abs=0.0051)
    assert any("Four sheets" in said for said in answer.warned("stop"))


@pytest.mark.parametrize(
    ("longest", "shortest", "mean", "passes"),
    # mean of the largest and the smallest dimension, read; 4 mm is asked of 1.0 mm sheet
    [(4.6, 3.8, 4.2, 1), (4.2, 3.4, 3.8, 0), (4.2, 3.8, 4.0, 1), (4.19, 3.8, 3.995, 0), (5, 5, 5, 1), (7.8, 0, 3.9, 0)],
)
def test_a_button_is_the_mean_of_two_widths(
    calc: Calc, longest: float, shortest: float, mean: float, passes: int
) -> None:
    answer = calc("button-check", thickness="1.0 mm", width_1=f"{longest} mm", width_2=f"{shortest} mm",
                  failure="button")  # fmt: skip
    assert answer.number("button", "mm") == pytest.approx(mean, rel=1e-9)
    assert answer.number("passes") == passes


@pytest.mark.parametrize(
    ("sheet", "overlap", "face", "nugget"),
    [(0.021, 7 / 16, 0.187, 0.139), (0.031, 7 / 16, 0.187, 0.161), (0.040, 1 / 2, 0.250, 0.181),
     (0.050, 9 / 16, 0.250, 0.210), (0.062, 5 / 8, 0.250, 0.231), (0.078, 11 / 16, 0.312, 0.268),
     (0.094, 3 / 4, 0.312, 0.304)],
)  # fmt: skip
def test_the_schedules_own_overlap_takes_its_own_tip(
    calc: Calc, sheet: float, overlap: float, face: float, nugget: float
) -> None:
    # American schedule, read; the design guide, read, has one to two nugget diameters to the edge
    answer = calc("flange-check", flange=f"{overlap} inch", radius="0 mm", tip_face=f"{face} inch",
                  edge_distance=f"{nugget} inch")  # fmt: skip
    assert answer.number("passes") == 1
    assert answer.number("centre_line", "inch") == pytest.approx(max(overlap / 2, nugget), rel=1e-9)
    assert nugget <= answer.number("centre_line", "inch") <= 2 * nugget * (1 + 1e-9)
    # the same tip with no land to spare: a flange as wide as the face just takes it, a hair less does not
    just, less = (
        calc("flange-check", flange=f"{width} inch", radius="0 mm", tip_face=f"{face} inch", edge_distance="0 mm")
        for width in (face, face - 0.001)
    )
    assert (just.number("passes"), less.number("passes")) == (1, 0), sheet


def test_three_millimetres_clear(calc: Calc) -> None:
    # a design page, read: 3 mm from weld to edge, so 5.5 mm to the middle of a 5 mm nugget; 4.5 mm are left
    answer = calc("flange-check", flange="12 mm", radius="2 mm", tip_face="5 mm", edge_distance="5.5 mm")
    assert answer.number("centre_line", "mm") == pytest.approx(5.5, rel=1e-12)
    assert answer.number("widest_tip", "mm") == pytest.approx(9.0, rel=1e-9)
