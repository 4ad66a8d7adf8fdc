"""Estimates of three figures against pages on network planning, all read, and against the distribution itself.

The mean is that of a beta distribution between the two ends, which is integrated here. TRAPS: a negative deviation, and
a page that weighs 1, 2 and 3.
"""

import pytest

from tests.outside.asking import Answer, Calc


def estimate(calc: Calc, least: float, likely: float, most: float, **more: str) -> Answer:
    return calc("time-estimate", least=f"{least} h", likely=f"{likely} h", most=f"{most} h", **more)


@pytest.mark.parametrize(
    ("figures", "mean", "spread", "within"),
    [
        ((4, 6, 12), 6.67, 1.33, 0.0051),  # calhub.xyz, read
        ((5, 8, 14), 8.5, 1.5, 1e-9),  # schematex.js.org, read
        ((3, 10, 20), 10.5, 2.8333, 0.00005),  # npmjs.com, pertestimate, read but for the sign
    ],
)
def test_worked(calc: Calc, figures: tuple[float, float, float], mean: float, spread: float, within: float) -> None:
    answer = estimate(calc, *figures)
    assert answer.number("mean", "h") == pytest.approx(mean, abs=within)
    assert answer.number("spread", "h") == pytest.approx(spread, abs=within)


def test_trap_a_negative_deviation(calc: Calc) -> None:
    # npmjs.com, pertestimate, read: -2.8333
    assert estimate(calc, 3, 10, 20).number("spread", "h") > 0


def test_trap_other_weights(calc: Calc) -> None:
    # a public gist, read: (1 + 2 x 2 + 3 x 5) / 6 = 3.33 for 1, 2 and 5
    assert estimate(calc, 1, 2, 5).number("mean", "h") == pytest.approx(14 / 6, rel=1e-9)
    assert estimate(calc, 1, 2, 5).number("mean", "h") != pytest.approx(3.33, abs=0.5)


@pytest.mark.parametrize("figures", [(4, 6, 12), (2, 9, 10), (10, 12, 40)])
def test_mean_of_the_beta_distribution(calc: Calc, figures: tuple[int, int, int]) -> None:
    # shapes 1 + 4 (m - a) / (b - a) and 1 + 4 (b - m) / (b - a), as the R package prevalence documents it, read
    least, likely, most = figures
    rise, fall = 4 * (likely - least) / (most - least), 4 * (most - likely) / (most - least)
    steps = 20_000
    points = [(step + 0.5) / steps for step in range(steps)]
    weights = [point**rise * (1 - point) ** fall for point in points]
    share = sum(point * weight for point, weight in zip(points, weights, strict=True)) / sum(weights)
    found = estimate(calc, least, likely, most).number("mean", "h")
    assert found == pytest.approx(least + share * (most - least), rel=1e-5)


def test_factors_multiply_everything(calc: Calc) -> None:
    # worked out apart: 4, 6, 12 hours, a half more for rust and twice for the hands
    answer = estimate(calc, 4, 6, 12, rust_factor="1.5", hands_factor="2")
    assert answer.number("mean", "h") == pytest.approx(20, rel=1e-9)
    assert answer.number("spread", "h") == pytest.approx(4, rel=1e-9)
    assert answer.number("lowest", "h") == pytest.approx(12, rel=1e-9)
    assert answer.number("highest", "h") == pytest.approx(36, rel=1e-9)


@pytest.mark.parametrize("figures", [(6, 4, 12), (4, 13, 12), (12, 6, 4)])
def test_figures_out_of_order_have_no_answer(calc: Calc, figures: tuple[float, float, float]) -> None:
    answer = estimate(calc, *figures)
    assert answer.why_not("mean") is not None
    assert any("not in order" in said for said in answer.warned("stop"))
