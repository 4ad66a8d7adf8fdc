"""Lines of the body drawing: read, mirrored and made of points; curves against the Bernstein form of Bézier curves."""

from __future__ import annotations

import math
import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from builder.model.outline import LINE_PATTERN, Line, area_of, first_outside, mirrored, points_of, read_line

numbers = st.integers(0, 400).map(float)
moves = st.sampled_from([2, 4, 6]).flatmap(lambda count: st.tuples(*[numbers] * count))
lines = st.tuples(st.tuples(numbers, numbers), moves, moves)


@pytest.mark.parametrize(
    ("text", "right"),
    [
        ("0 0", True), ("0 0; 10.5 -3", True), ("0 0; 1 2 3 4; 1 2 3 4 5 6", True), ("", False), ("0", False),
        ("0 0;1 1", False), ("0 0; 1 2 3", False), ("0 0; 1 2 3 4 5 6 7 8", False), ("1 2 3 4; 0 0", False),
        ("0 0; 1e3 1", False), ("0 0; 100000 1", False), ('0 0; 1 1"/>', False), ("0 0; 1 1\n", False),
    ],
)  # fmt: skip
def test_what_is_a_line(text: str, right: bool) -> None:
    assert bool(re.fullmatch(LINE_PATTERN, text)) == right


def test_a_line_is_read_move_by_move() -> None:
    assert read_line("0 0; 100 0; 120 0 120 40") == ((0, 0), (100, 0), (120, 0, 120, 40))


@given(lines)
def test_the_mirror_image_of_the_mirror_image_is_the_line(line: Line) -> None:
    assert mirrored(mirrored(line, width=400), width=400) == line
    assert mirrored(mirrored(line, height=300), height=300) == line
    assert all(one[1::2] == other[1::2] for one, other in zip(mirrored(line, width=400), line, strict=True))


@given(lines)
def test_points_lie_on_the_curve(line: Line) -> None:
    """Each point of the last curve is the one that the Bernstein polynomials give (Farin, Curves and Surfaces)."""
    start, move = line[1][-2:], line[2]
    handles = [start, *zip(move[::2], move[1::2], strict=True)]
    degree = len(handles) - 1
    drawn = points_of(line)[-8:] if degree > 1 else points_of(line)[-1:]
    for step, point in enumerate(drawn, 1):
        share = step / len(drawn)
        weights = [math.comb(degree, at) * share**at * (1 - share) ** (degree - at) for at in range(degree + 1)]
        for axis in (0, 1):
            expected = sum(weight * handle[axis] for weight, handle in zip(weights, handles, strict=True))
            assert point[axis] == pytest.approx(expected, abs=1e-9)


@pytest.mark.parametrize(
    ("points", "area"),
    [(((0, 0), (4, 0), (4, 3)), 6), (((0, 0), (0, 5), (5, 5), (5, 0)), 25), (((1, 1), (2, 2), (3, 3)), 0)],
)
def test_the_area_of_plain_shapes(points: tuple[tuple[float, float], ...], area: float) -> None:
    assert area_of(points) == area


def test_a_handle_may_lie_outside_and_its_curve_may_not() -> None:
    assert first_outside(read_line("0 0; 10 -8 20 20"), 20, 20) is not None
    assert first_outside(read_line("0 10; 10 -5 20 10"), 20, 20) is None
    assert first_outside(read_line("0 0; 20.5 20"), 20, 20) == (20.5, 20)
