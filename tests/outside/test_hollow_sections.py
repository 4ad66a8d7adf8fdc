"""Props of square tube against EN 10210-2's table and AISC 360 E3 examples.

The table was read at amesweb.info, a secondary page; it prints three figures and is asked for to half of the last.
E3 and its examples were read on program verification pages (docs.bentley.com, sdcverifier.com) and magedkamel.com.
"""

import math

import pytest

from tests.outside.asking import Calc

# side mm, wall mm, area cm2, second moment cm4: every row of the page down to 90 mm, as printed
TABLE = """
40 2.6 3.82 8.80 | 40 3.2 4.60 10.2 | 40 4.0 5.59 11.8 | 40 5.0 6.73 13.4 | 50 2.6 4.86 18.0 | 50 3.2 5.88 21.2
50 4.0 7.19 25.0 | 50 5.0 8.73 28.9 | 50 6.3 10.6 32.8 | 60 2.6 5.90 32.2 | 60 3.2 7.16 38.2 | 60 4.0 8.79 45.4
60 5.0 10.7 53.3 | 60 6.3 13.1 61.6 | 60 8.0 16.0 69.7 | 70 3.2 8.4 62.3 | 70 4.0 10.4 74.7 | 70 5.0 12.7 88.5
70 6.3 15.6 104 | 70 8.0 19.2 120 | 80 3.2 9.72 95 | 80 4.0 12.0 114 | 80 5.0 14.7 137 | 80 6.3 18.1 162
80 8.0 22.4 189 | 90 4.0 13.6 166
"""
ROWS = [tuple(row.split()) for row in TABLE.replace("\n", "|").split("|") if row.strip()]
STRIPS = 40000
PROP = {"length": "1500 mm", "ends": "pinned", "yield_strength": "355 MPa", "load": "10 kN", "eccentricity": "0 mm"}
AMERICAN = {"ends": "pinned", "load": "1 kN", "eccentricity": "0 mm", "corners": "sharp"}
AMERICAN |= {"elastic_modulus": "29000 ksi"}


def half_of_last(printed: str) -> float:
    decimals = len(printed.partition(".")[2])
    return 0.5 * 10.0**-decimals * 1.0001


@pytest.mark.parametrize(("side", "wall", "area", "inertia"), ROWS)
def test_area_and_second_moment_within_the_printing(calc: Calc, side: str, wall: str, area: str, inertia: str) -> None:
    answer = calc("prop-buckling", **PROP, side=f"{side} mm", wall=f"{wall} mm")
    assert answer.number("area", "cm**2") == pytest.approx(float(area), abs=half_of_last(area))
    assert answer.number("inertia", "cm**4") == pytest.approx(float(inertia), abs=half_of_last(inertia))


def test_every_row_read_is_asked() -> None:
    assert len(ROWS) == 26


def test_trap_sharp_corners_are_not_the_standard_s(calc: Calc) -> None:
    # 599 against 588 mm2, 1.9 percent too much (worked out apart); outside 4.8 with inside 1.6 mm would give 581.4
    hot = calc("prop-buckling", **PROP, side="50 mm", wall="3.2 mm").number("area", "mm**2")
    sharp = calc("prop-buckling", **PROP, side="50 mm", wall="3.2 mm", corners="sharp").number("area", "mm**2")
    assert hot == pytest.approx(588.05, abs=0.005)
    assert sharp == pytest.approx(599.04, abs=0.005)
    assert abs(hot - 581.4) > 5


def half_width(height: float, side: float, radius: float) -> float:
    beyond = abs(height) - (side / 2 - radius)
    return side / 2 if beyond <= 0 else side / 2 - radius + math.sqrt(max(radius**2 - beyond**2, 0))


def strips(side: float, radius: float) -> tuple[float, float]:
    """Area and second moment of a square with rounded corners, by summing strips."""
    thin = side / 2 / STRIPS
    middles = [(place + 0.5) * thin for place in range(STRIPS)]
    widths = [4 * half_width(middle, side, radius) for middle in middles]
    area = math.fsum(widths) * thin
    return area, math.fsum(width * middle**2 for width, middle in zip(widths, middles, strict=True)) * thin


@pytest.mark.parametrize(
    ("corners", "side", "wall", "outer", "inner"),
    [("hot-finished", 50, 3.2, 4.8, 3.2), ("hot-finished", 90, 8, 12, 8), ("cold-formed", 50, 3, 6, 3),
     ("cold-formed", 40, 2, 4, 2), ("cold-formed", 100, 8, 24, 16), ("sharp", 50, 3, 0, 0)],
)  # fmt: skip
def test_corners_by_strips(calc: Calc, corners: str, side: float, wall: float, outer: float, inner: float) -> None:
    # thin strips know no formula of a corner; the radii are those the page states
    outside, inside = strips(side, outer), strips(side - 2 * wall, inner)
    answer = calc("prop-buckling", **PROP, side=f"{side} mm", wall=f"{wall} mm", corners=corners)
    assert answer.number("area", "mm**2") == pytest.approx(outside[0] - inside[0], rel=1e-5)
    assert answer.number("inertia", "mm**4") == pytest.approx(outside[1] - inside[1], rel=1e-5)


@pytest.mark.parametrize(("corners", "side", "wall", "area", "inertia"), [
    ("sharp", 50, 3, 564.0, 208492.0), ("sharp", 50, 3.2, 599.04, 219695.9), ("sharp", 80, 5, 1500.0, 1412500.0),
    ("cold-formed", 50, 3, 540.822, 194670.9), ("cold-formed", 40, 2, 293.699, 69402.0),
    ("cold-formed", 60, 4, 854.795, 435509.5),
])  # fmt: skip
def test_corners_by_a_finite_element_library(
    calc: Calc, corners: str, side: float, wall: float, area: float, inertia: float
) -> None:
    # Computed with sectionproperties 3.10.2, corners of 200 points: mm2 and mm4. Its inside radius is the outside one
    # less the wall, as of cold-formed tube up to 6 mm, not of the hot-finished one. The figures stand here, since the
    # library compiles its mesher from C when it is installed.
    answer = calc("prop-buckling", **PROP, side=f"{side} mm", wall=f"{wall} mm", corners=corners)
    assert answer.number("area", "mm**2") == pytest.approx(area, rel=1e-5)
    assert answer.number("inertia", "mm**4") == pytest.approx(inertia, rel=1e-5)


def critical(calc: Calc, slenderness: float, yield_ksi: float) -> tuple[float, float]:
    """Strength and allowable strength in ksi of a sharp tube that is just so slender, asked for by its length."""
    side, bore = 4.0, 3.5
    length = slenderness * math.sqrt((side**2 + bore**2) / 12)
    answer = calc("prop-buckling", **AMERICAN, side=f"{side} inch", wall="0.25 inch", length=f"{length} inch",
                  yield_strength=f"{yield_ksi} ksi")  # fmt: skip
    assert answer.number("slenderness") == pytest.approx(slenderness, rel=1e-9)
    area = answer.number("area", "inch**2")
    return answer.number("strength", "kip") / area, answer.number("allowable", "kip") / area


def test_design_example_e9(calc: Calc) -> None:
    # HSS 12x10x3/8, 14.6 in2, KL/r 47.9, 46 ksi: read as 518 kip (0.90) and 344 or 345 kip (1.67)
    stress, allowed = critical(calc, 47.9, 46)
    assert 0.9 * stress * 14.6 == pytest.approx(518, abs=0.5)
    assert allowed * 14.6 == pytest.approx(344.5, abs=0.5)


def test_pipe_column(calc: Calc) -> None:
    # KL/r 17.40, 50 ksi: read as 48.91 ksi and, over 7.66 in2, 374.5 kip
    stress, _ = critical(calc, 17.40, 50)
    assert stress == pytest.approx(48.91, abs=0.006)
    assert stress * 7.66 == pytest.approx(374.5, abs=0.15)


def test_square_tube_8_by_030(calc: Calc) -> None:
    # A 9.24, I 91.45, r 3.146 and KL/r 19.07 read; 449.87 kip worked out apart
    answer = calc("prop-buckling", **AMERICAN, side="8 inch", wall="0.3 inch", length="60 inch",
                  yield_strength="50 ksi")  # fmt: skip
    area, inertia = answer.number("area", "inch**2"), answer.number("inertia", "inch**4")
    assert area == pytest.approx(9.24, abs=0.0051)
    assert inertia == pytest.approx(91.45, abs=0.0051)
    assert math.sqrt(inertia / area) == pytest.approx(3.146, abs=0.00051)
    assert answer.number("slenderness") == pytest.approx(19.07, abs=0.0051)
    assert answer.number("strength", "kip") == pytest.approx(449.87, abs=0.05)


def test_large_square_column(calc: Calc) -> None:
    # HSS 16x16x1/2, 46 ksi, A 28.3, KL/r 34.23 read (magedkamel.com); 42.513 ksi and 720.4 kip worked out apart
    stress, allowed = critical(calc, 34.23, 46)
    assert stress == pytest.approx(42.513, abs=0.001)
    assert allowed * 28.3 == pytest.approx(720.4, abs=0.1)


@pytest.mark.parametrize(("yield_ksi", "limit"), [(36, 133.68), (46, 118.26), (50, 113.43)])
def test_where_the_branches_meet(calc: Calc, yield_ksi: float, limit: float) -> None:
    # 118.26 and 113.4 read; both sides of 2.25 are 0.3900 and 0.3898 of yield (worked out
    # apart); the printed 4.71 is 1.5 pi cut short, which moves it by a tenth of a percent
    for slenderness in (limit - 0.01, limit + 0.01):
        assert critical(calc, slenderness, yield_ksi)[0] == pytest.approx(0.3899 * yield_ksi, rel=0.002)


def test_trap_50_ksi_is_elastic_long_before_134(calc: Calc) -> None:
    # a page prints about 134 for 50 ksi, which is 36 ksi's: at 125 it is 0.877 of Euler, 16.07 ksi, and not 15.95
    euler = math.pi**2 * 29000 / 125**2
    stress, _ = critical(calc, 125, 50)
    assert stress == pytest.approx(0.877 * euler, rel=1e-6)
    assert stress - 50 * 0.658 ** (50 / euler) > 0.1


@pytest.mark.parametrize(("length", "strength"), [(1000, 171.14), (1500, 133.52), (2000, 94.32), (2500, 61.73)])
def test_shop_prop(calc: Calc, length: int, strength: float) -> None:
    # worked out apart with the table's rounded 588 mm2 and 19.0 mm, so asked for to half a percent
    answer = calc("prop-buckling", **(PROP | {"length": f"{length} mm"}), side="50 mm", wall="3.2 mm")
    assert answer.number("strength", "kN") == pytest.approx(strength, rel=0.005)
    assert answer.number("allowable", "kN") == pytest.approx(strength / 1.67, rel=0.005)


def test_below_johnson_and_euler(calc: Calc) -> None:
    # sharp 50x3, 235 MPa, 2 m: slenderness 104.022, 79.31 kN, Johnson 91.89, Euler 108.03 (worked out apart)
    answer = calc("prop-buckling", side="50 mm", wall="3 mm", length="2000 mm", ends="pinned", load="1 kN",
                  yield_strength="235 MPa", eccentricity="0 mm", corners="sharp")  # fmt: skip
    assert answer.number("slenderness") == pytest.approx(104.022, abs=0.001)
    assert answer.number("strength", "kN") == pytest.approx(79.31, abs=0.01)
    euler = math.pi**2 * 210e3 * answer.number("inertia", "mm**4") / 2000**2 / 1000
    assert euler == pytest.approx(108.03, abs=0.01)
    assert answer.number("strength", "kN") < 91.89 < euler


@pytest.mark.parametrize(
    ("ends", "recommended", "theoretical"),
    [("pinned", 1, 1), ("fixed-pinned", 0.80, 0.7), ("fixed", 0.65, 0.5), ("free", 2.10, 2)],
)
def test_effective_lengths(calc: Calc, ends: str, recommended: float, theoretical: float) -> None:
    # both read at calcsteel.com; a long prop carries with the inverse square of its effective length
    long = PROP | {"length": "6000 mm"}
    pinned, held = (
        calc("prop-buckling", **(long | {"ends": each}), side="50 mm", wall="3.2 mm").number("strength", "kN")
        for each in ("pinned", ends)
    )
    assert pinned / held == pytest.approx(recommended**2, rel=1e-9)
    assert pinned / held >= theoretical**2


def test_off_centre_brings_the_margin_to_two_or_three(calc: Calc) -> None:
    # trade practice: 2 to 3 for shop loads, against the code's 1.67; taken where nothing is said of the centre
    told = {key: value for key, value in PROP.items() if key != "eccentricity"} | {"yield_strength": "235 MPa"}
    answer = calc("prop-buckling", **told, side="50 mm", wall="3.2 mm")
    margin = answer.number("strength", "kN") / answer.number("allowable", "kN")
    assert 2 < margin < 3


def test_the_foot_without_a_plate_is_the_tube_s_own_end(calc: Calc) -> None:
    bare = calc("prop-buckling", **PROP, side="50 mm", wall="3.2 mm")
    assert bare.number("foot_pressure", "MPa") == pytest.approx(10000 / 588.05, rel=1e-4)
    plate = calc("prop-buckling", **PROP, side="50 mm", wall="3.2 mm", foot_area="100 cm**2")
    assert plate.number("foot_pressure", "MPa") == pytest.approx(1, rel=1e-9)
