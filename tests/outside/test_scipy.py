"""What the library scipy 1.17.1 makes of the same thing by another way: integrals, roots, distributions, constants."""

from __future__ import annotations

import math

import pytest
from scipy.constants import convert_temperature, inch, lbf, psi
from scipy.integrate import dblquad, quad
from scipy.optimize import brentq
from scipy.spatial.transform import Rotation
from scipy.stats import beta

from tests.outside.asking import Calc


@pytest.mark.parametrize(("least", "likely", "most"), [(4, 6, 12), (2, 5, 8), (10, 11, 30), (1, 7, 8)])
def test_three_point_mean_is_that_of_the_beta_distribution(calc: Calc, least: int, likely: int, most: int) -> None:
    # The shapes by which the mean of a beta distribution over least to most is (a + 4 m + b) / 6.
    span = most - least
    first, second = 1 + 4 * (likely - least) / span, 1 + 4 * (most - likely) / span
    answer = calc("time-estimate", least=f"{least} h", likely=f"{likely} h", most=f"{most} h")
    assert answer.number("mean", "h") == pytest.approx(beta.mean(first, second, loc=least, scale=span), rel=1e-12)
    # Its spread, a sixth of the range, is a rule of thumb: the distribution's own is within a fifth of it here.
    assert beta.std(first, second, loc=least, scale=span) == pytest.approx(answer.number("spread", "h"), rel=0.2)


def mutual(one: float, other: float, apart: float) -> float:
    """Neumann's integral of two parallel straight wires side by side, in H: both of `one` long, `apart` between."""
    value, _ = dblquad(lambda x, y: 1 / math.hypot(x - y, apart), 0, one, 0, other)
    return float(1e-7 * value)


@pytest.mark.parametrize(("reach", "gap", "diameter"), [(0.3, 0.15, 0.025), (0.5, 0.2, 0.03), (0.8, 0.15, 0.025)])
def test_inductance_by_neumann(calc: Calc, reach: float, gap: float, diameter: float) -> None:
    # Self of a straight round wire from its own thin filament at the geometric mean distance, r e ** -1/4 (Rosa 1908,
    # from memory); opposite sides carry opposite currents, sides at right angles do not meet.
    distance = diameter / 2 * math.exp(-0.25)
    loop = 2 * (mutual(reach, reach, distance) - mutual(reach, reach, gap))
    loop += 2 * (mutual(gap, gap, distance) - mutual(gap, gap, reach))
    answer = calc(
        "tong-reach", cylinder_force="3 kN", arm_to_cylinder="200 mm", arm_to_tip="400 mm", short_reach="150 mm",
        reach=f"{reach} m", gap=f"{gap} m", arm_diameter=f"{diameter} m", base_resistance="200 microohm", mains="50 Hz",
    )  # fmt: skip
    # Grover's closed form drops terms of the order of the radius by the side.
    assert answer.number("inductance", "nH") == pytest.approx(loop * 1e9, rel=diameter / gap / 4)


@pytest.mark.parametrize(("length", "eccentricity"), [(1000, 5), (1500, 10), (2500, 20)])
def test_the_edge_stays_below_yield_by_the_secant_formula(calc: Calc, length: int, eccentricity: int) -> None:
    # At 1.67 times the allowable load; the load at which the edge yields is found as a root.
    answer = calc("prop-buckling", side="50 mm", wall="3.2 mm", length=f"{length} mm", ends="pinned",
                  yield_strength="235 MPa", load="5 kN", eccentricity=f"{eccentricity} mm")  # fmt: skip
    area, inertia = answer.number("area", "m**2"), answer.number("inertia", "m**4")
    modulus, reach = inertia / 0.025, eccentricity / 1000

    def edge(load: float) -> float:
        bow = 1 / math.cos(length / 2000 * math.sqrt(load / (210e9 * inertia)))
        return load / area + load * reach * bow / modulus - 235e6

    euler = math.pi**2 * 210e9 * inertia / (length / 1000) ** 2
    yields = brentq(edge, 1.0, euler * (1 - 1e-9))
    assert 1.67 * answer.number("allowable", "N") <= yields


@pytest.mark.parametrize(("one", "other", "angle"), [(20, 15, 60), (10, 10, 120), (5, 12, 90), (30, 4, 155)])
def test_two_pulls_as_turned_vectors(calc: Calc, one: float, other: float, angle: float) -> None:
    turned = Rotation.from_euler("z", angle, degrees=True).apply([other, 0, 0])
    along, across = one + turned[0], turned[1]
    answer = calc("pull-resultant", pull_1=f"{one} kN", pull_2=f"{other} kN", angle=f"{angle} degree")
    assert answer.number("resultant", "kN") == pytest.approx(math.hypot(along, across), rel=1e-12)
    assert answer.number("direction", "degree") == pytest.approx(math.degrees(math.atan2(across, along)), rel=1e-9)


@pytest.mark.parametrize(
    ("angle", "radius", "thickness", "k"), [(90, 1, 1, 0.407), (45, 2, 0.8, 0.45), (170, 0.5, 1.2, 0.33)]
)
def test_bend_allowance_is_the_arc_of_the_neutral_line(
    calc: Calc, angle: float, radius: float, thickness: float, k: float
) -> None:
    arc, _ = quad(lambda _: radius + k * thickness, 0, math.radians(angle))
    answer = calc("bend", angle=f"{angle} degree", radius=f"{radius} mm", thickness=f"{thickness} mm", k=str(k))
    assert answer.number("allowance", "mm") == pytest.approx(arc, rel=1e-12)


def test_pounds_and_inches(calc: Calc) -> None:
    # The library's constants: 0.0254 m, 4.4482216152605 N, 6894.757293168361 Pa.
    answer = calc("ram-force", area="1 inch**2", pressure="1000 psi")
    assert answer.number("force", "N") == pytest.approx(1000 * psi * inch**2, rel=1e-12)
    assert answer.number("force", "N") == pytest.approx(1000 * lbf, rel=1e-12)


@pytest.mark.parametrize("fahrenheit", [41.0, 68.0, 95.0])
def test_fahrenheit(calc: Calc, fahrenheit: float) -> None:
    celsius = convert_temperature(fahrenheit, "Fahrenheit", "Celsius")
    found, same = (
        calc("dew-point", air=f"{air}", humidity="60 percent", surface="20 degC").number("dew_point", "degC")
        for air in (f"{fahrenheit} degF", f"{float(celsius)!r} degC")
    )
    assert found == pytest.approx(same, rel=1e-12)
