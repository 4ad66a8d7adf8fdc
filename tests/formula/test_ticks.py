"""Round numbers that divide a range: which ones, how many, and how they are written; the page divides alike."""

from __future__ import annotations

import math

import pytest

from builder.formula.series import row_places
from builder.formula.ticks import ticks_around, ticks_within
from tests.formula.node import ASSETS, run_node

SCRIPTS = tuple(ASSETS / f"{name}.js" for name in ("numbers", "scale"))
RANGES = (
    (0.0, 40.0), (-12.0, 28.0), (0.1, 0.3), (0.0, 1e-7), (1e6, 3.4e6), (-5.0, -4.2), (3.0, 3.0), (0.0, 0.0),
    (-7.0, -7.0), (0.30000000000000004, 0.6), (1.0, 24.0), (19.99, 20.01), (1e-300, 2e-300), (-1e9, 1e9),
)  # fmt: skip


@pytest.mark.parametrize(("low", "high", "texts"), [
    (0.0, 40.0, ("0", "10", "20", "30", "40")), (-12.0, 28.0, ("-20", "-10", "0", "10", "20", "30")),
    (0.1, 0.3, ("0.10", "0.15", "0.20", "0.25", "0.30")), (20.0, 20.0, ("18", "19", "20", "21", "22")),
    (1e6, 3.4e6, ("1000000", "2000000", "3000000", "4000000")),
])  # fmt: skip
def test_a_range_is_taken_in(low: float, high: float, texts: tuple[str, ...]) -> None:
    assert ticks_around(low, high, 4).texts == texts


def test_numbers_within_a_range() -> None:
    assert ticks_within(-17.0, 43.0, 5).texts == ("0", "20", "40")
    assert ticks_within(0.5, 1.2, 5).texts == ("0.6", "0.8", "1.0", "1.2")


@pytest.mark.parametrize(("low", "high"), RANGES)
def test_every_number_is_the_nearest_to_its_text_and_the_ends_lie_outside(low: float, high: float) -> None:
    for divisions in range(1, 8):
        ticks = ticks_around(low, high, divisions)
        values = ticks.values
        assert values[0] <= low + 1e-9 * abs(values[1] - values[0])
        assert values[-1] >= high - 1e-9 * abs(values[1] - values[0])
        assert 2 <= len(values) <= max(4, divisions + 3)
        if ticks.power > -200:
            assert [float(text) for text in ticks.texts] == list(values)
        assert math.isclose(values[1] - values[0], ticks.value(1), rel_tol=1e-6)


@pytest.mark.parametrize(("start", "end", "whole", "places"), [
    (0.0, 40.0, False, (0, 10, 20, 30, 40)), (20.0, 200.0, False, (20, 40, 60, 80, 100, 120, 140, 160, 180, 200)),
    (1.0, 4.0, True, (1, 2, 3, 4)), (1.0, 24.0, True, (2, 4, 6, 8, 10, 12, 14, 16, 18, 20, 22, 24)),
])  # fmt: skip
def test_rows_of_a_table(start: float, end: float, whole: bool, places: tuple[float, ...]) -> None:
    assert row_places(start, end, whole) == places


def test_the_page_divides_alike() -> None:
    asked = [[low, high, divisions] for low, high in RANGES for divisions in range(1, 8)]
    shown = run_node(f"""return {asked}.map(([low, high, divisions]) => ["around", "within"].map((name) => {{
        if (name === "within" && !(low < high)) return null;
        const ticks = seambook.scale[name](low, high, divisions);
        return [seambook.scale.values(ticks), seambook.scale.texts(ticks)];
    }}));""", SCRIPTS)
    for (low, high, divisions), (around, within) in zip(asked, shown, strict=True):
        ticks = ticks_around(low, high, int(divisions))
        assert around == [list(ticks.values), list(ticks.texts)], (low, high)
        if within is not None:
            ticks = ticks_within(low, high, int(divisions))
            assert within == [list(ticks.values), list(ticks.texts)], (low, high)
