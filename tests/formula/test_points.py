"""Fits of points: what must hold of any, best fits by a proof of their own, and the same bits in both languages."""

from __future__ import annotations

import json
import math
import random
from collections.abc import Sequence
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from builder.formula.points.deviations import Fitted, Point, compare
from builder.formula.points.eigen import Matrix, eigen
from builder.formula.points.fit import Fit, Place, apply
from tests.formula.node import ASSETS, run_node

LEAST = 0.02
SCRIPTS = (ASSETS / "numbers.js", ASSETS / "point_fit.js")
NEAR = 1e-6
"""Millimetres: rounding of places of some metres stays far below, and a wrong fit far above."""
Y = 1
places = st.tuples(*[st.floats(-2000, 2000)] * 3)
angles = st.tuples(*[st.floats(-math.pi, math.pi)] * 3)
FRAME: tuple[Place, ...] = ((0, 0, 0), (3000, 0, 0), (2000, 1500, 0), (500, 700, 900), (1500, -600, 400))
"""Five sound points that lie in no plane, so that every fit is a good one."""


def turned(place: Place, about: Place, shift: Place) -> Place:
    """Turn about x, y and z, then shift: written out, apart from the code under test."""
    x, y, z = place
    a, b, c = about
    y, z = y * math.cos(a) - z * math.sin(a), y * math.sin(a) + z * math.cos(a)
    x, z = x * math.cos(b) + z * math.sin(b), -x * math.sin(b) + z * math.cos(b)
    x, y = x * math.cos(c) - y * math.sin(c), x * math.sin(c) + y * math.cos(c)
    return x + shift[0], y + shift[1], z + shift[2]


def mirrored(place: Place) -> Place:
    return place[0], -place[1], place[2]


def points_of(stated: Sequence[Place], measured: Sequence[Place], sound: int | None = None) -> list[Point]:
    """Points of which the first few are sound; all of them unless told."""
    count = len(stated) if sound is None else sound
    return [Point(f"P{at}", one, other, at < count)
            for at, (one, other) in enumerate(zip(stated, measured, strict=True))]  # fmt: skip


def fitted(points: Sequence[Point], tolerance: float = 3.0, mirror: int | None = None) -> Fitted:
    found = compare(points, tolerance, LEAST, mirror)
    assert found.refused == ""
    return found


def lengths(found: Fitted) -> list[float]:
    return [row.length for row in found.deviations]


def moved_by(off: Sequence[Place]) -> list[Place]:
    """The frame with some of its points moved."""
    return [(x + dx, y + dy, z + dz) for (x, y, z), (dx, dy, dz) in zip(FRAME, off, strict=True)]


small = st.lists(st.tuples(*[st.floats(-50, 50)] * 3), min_size=len(FRAME), max_size=len(FRAME))


@given(small, angles, places)
def test_how_the_measured_points_lie_makes_no_difference(off: list[Place], about: Place, shift: Place) -> None:
    measured = moved_by(off)
    plain = fitted(points_of(FRAME, measured))
    other = fitted(points_of(FRAME, [turned(place, about, shift) for place in measured]))
    for one, two in zip(plain.deviations, other.deviations, strict=True):
        assert one.off == pytest.approx(two.off, rel=0, abs=NEAR)


@given(small)
def test_no_other_turn_is_better(off: list[Place]) -> None:
    """A certificate that needs no second method: with C the sum of the products of stated and turned places, each from
    its middle, a turn is the best of all proper ones exactly where C is symmetric and no two of its eigenvalues have a
    sum below nothing; that is where trace(C) - C has no eigenvalue below nothing.
    """
    measured = moved_by(off)
    found = fitted(points_of(FRAME, measured))
    assert found.fit is not None
    rows = [apply(found.fit, place) for place in measured]
    middle = [sum(place[axis] for place in FRAME) / len(FRAME) for axis in range(3)]
    assert [sum(row[axis] for row in rows) / len(rows) for axis in range(3)] == pytest.approx(middle, abs=NEAR)
    c = [[sum((one[a] - middle[a]) * (two[b] - middle[b]) for one, two in zip(FRAME, rows, strict=True))
          for b in range(3)] for a in range(3)]  # fmt: skip
    trace = sum(c[axis][axis] for axis in range(3))
    for a, b in ((0, 1), (0, 2), (1, 2)):
        assert c[a][b] == pytest.approx(c[b][a], rel=0, abs=1e-9 * trace)
        # What it takes of a symmetric matrix for trace - C to have no negative eigenvalue: every minor of two rows.
        assert (trace - c[a][a]) * (trace - c[b][b]) >= c[a][b] ** 2 - 1e-9 * trace**2
    assert all(trace - c[axis][axis] >= -1e-9 * trace for axis in range(3))
    assert determinant([[trace * (a == b) - c[a][b] for b in range(3)] for a in range(3)]) >= -1e-9 * trace**3


def determinant(m: Matrix) -> float:
    (a, b, c), (d, e, f), (g, h, i) = m
    return a * (e * i - f * h) - b * (d * i - f * g) + c * (d * h - e * g)


@given(st.lists(places, min_size=1, max_size=4), angles, places)
def test_more_sound_points_without_error_change_nothing(more: list[Place], about: Place, shift: Place) -> None:
    stated = [*FRAME, *more]
    found = fitted(points_of(stated, [turned(place, about, shift) for place in stated]))
    assert lengths(found) == pytest.approx([0.0] * len(stated), abs=NEAR)
    assert found.facts["doubtful"] == 0


@given(small, angles, places)
def test_the_mirror_image_of_the_other_side_is_no_deviation(off: list[Place], about: Place, shift: Place) -> None:
    sound_side = moved_by(off)
    other = [turned(mirrored(place), about, shift) for place in sound_side]
    assert lengths(fitted(points_of(sound_side, other), mirror=Y)) == pytest.approx([0.0] * len(FRAME), abs=NEAR)


@given(small, angles, places)
def test_a_mirror_image_is_never_fitted_to_data(off: list[Place], about: Place, shift: Place) -> None:
    stated = moved_by(off)
    found = fitted(points_of(stated, [turned(mirrored(place), about, shift) for place in stated]))
    assert found.fit is not None
    assert found.facts["rms"] > 50
    assert determinant(found.fit.rotation) == pytest.approx(1, abs=1e-12)


@given(small)
def test_the_mean_lies_below_the_largest(off: list[Place]) -> None:
    facts = fitted(points_of(FRAME, moved_by(off))).facts
    assert facts["rms"] <= facts["largest_sound"] * (1 + 1e-12)
    assert facts["largest_sound"] <= facts["largest"]
    assert facts["rms_all"] <= facts["largest"] * (1 + 1e-12)


@given(small, places, places)
def test_a_point_that_is_not_used_changes_no_fit(off: list[Place], stated: Place, measured: Place) -> None:
    own = points_of(FRAME, moved_by(off))
    without = fitted(own)
    with_it = fitted([*own, Point("stray", stated, measured, False)])
    assert with_it.fit == without.fit
    assert with_it.deviations[:-1] == without.deviations


@given(st.integers(0, len(FRAME) - 1), st.integers(0, 2), st.sampled_from((-1, 1)), st.floats(15, 60))
def test_a_bad_point_among_the_sound_ones_is_the_first_to_look_at(at: int, axis: int, sign: int, by: float) -> None:
    off = [[0.0] * 3 for _ in FRAME]
    off[at][axis] = sign * by
    found = fitted(points_of(FRAME, moved_by([(x, y, z) for x, y, z in off])))
    first = [row for row in found.deviations if row.is_first]
    assert [row.name for row in first] == [f"P{at}"]
    assert first[0].alone == pytest.approx(by, abs=NEAR)
    assert first[0].rest == pytest.approx(0, abs=NEAR)
    assert first[0].is_doubtful


def test_three_sound_points_cannot_try_each_other() -> None:
    found = fitted(points_of(FRAME, FRAME, sound=3))
    assert (found.facts["sound"], found.facts["tried"]) == (3, 0)
    assert [row.alone for row in found.deviations] == [None] * 5


def test_a_point_without_which_the_others_lie_on_one_line_is_not_tried() -> None:
    stated: tuple[Place, ...] = ((0, 0, 0), (1000, 0, 0), (2000, 0, 0), (1000, 800, 0))
    found = fitted(points_of(stated, stated))
    assert [row.alone is None for row in found.deviations] == [False, False, False, True]
    assert found.facts["tried"] == 3


def test_how_far_the_sound_points_reach() -> None:
    """A square of side 2 about the middle, and a point four half-diagonals away: a quarter."""
    stated: tuple[Place, ...] = ((1, 1, 0), (-1, 1, 0), (-1, -1, 0), (1, -1, 0), (4, 4, 0))
    facts = fitted(points_of(stated, stated, sound=4)).facts
    assert facts["reach"] == pytest.approx(0.25)
    assert facts["breadth"] == pytest.approx(1)


def test_a_deviation_that_is_the_tolerance_is_within_it() -> None:
    stated = [*FRAME, (100.0, 200.0, 300.0), (100.0, 200.0, 400.0)]
    measured = [*FRAME, (103.0, 200.0, 300.0), (103.01, 200.0, 400.0)]
    found = fitted(points_of(stated, measured, sound=5))
    assert [row.is_beyond for row in found.deviations[-2:]] == [False, True]


@pytest.mark.parametrize(("matrix", "values"), [
    # symmetric matrices with values known from textbooks or plain by their form
    ([[2.0, 1.0], [1.0, 2.0]], [3, 1]),
    ([[0.0, 0.0], [0.0, 0.0]], [0, 0]),
    ([[2.0, -1.0, 0.0], [-1.0, 2.0, -1.0], [0.0, -1.0, 2.0]], [2 + math.sqrt(2), 2, 2 - math.sqrt(2)]),
    ([[1.0, 1.0, 1.0], [1.0, 1.0, 1.0], [1.0, 1.0, 1.0]], [3, 0, 0]),
    ([[5.0, 0.0, 0.0], [0.0, -7.0, 0.0], [0.0, 0.0, 1.0]], [5, 1, -7]),
])  # fmt: skip
def test_eigenvalues(matrix: Matrix, values: list[float]) -> None:
    found, vectors = eigen(matrix)
    assert found == pytest.approx(values, abs=1e-14)
    for value, vector in zip(found, vectors, strict=True):
        assert sum(one * one for one in vector) == pytest.approx(1)
        turned = [sum(one * two for one, two in zip(row, vector, strict=True)) for row in matrix]
        assert turned == pytest.approx([value * one for one in vector], abs=1e-14)


COMPARE = """
return GIVEN.map(([points, tolerance, mirror]) => {
  const found = seambook.pointFit.compare(points, tolerance, 0.02, mirror);
  return {refused: found.refused, facts: found.facts, fit: found.fit, rows: found.deviations};
});
"""


def made_up(chance: random.Random) -> tuple[list[Point], float, int | None]:
    """Points as a body has them, flat and bunched ones too, now and then on one line."""
    count = chance.randint(2, 12)
    size = [chance.choice((0.0, 1.0, 600.0, 3000.0)) for _ in range(3)]
    about = [chance.choice((0.0, math.pi, chance.uniform(-3, 3))) for _ in range(3)]
    shift = [chance.uniform(-100, 100) for _ in range(3)]
    noise = chance.choice((0.0, 0.5, 20.0))
    points = []
    for at in range(count):
        x, y, z = (chance.uniform(-one, one) for one in size)
        there = turned((x, y, z), (about[0], about[1], about[2]), (shift[0], shift[1], shift[2]))
        a, b, c = (value + chance.gauss(0, noise) for value in there)
        points.append(Point(f"P{at}", (x, y, z), (a, b, c), chance.random() < 0.8))
    return points, chance.choice((1.0, 3.0, 10.0)), chance.choice((None, 0, 1, 2))


@pytest.mark.slow
def test_the_page_fits_alike() -> None:
    chance = random.Random(20)
    sets = [made_up(chance) for _ in range(400)]
    sent = json.dumps([[[point._asdict() for point in points], *more] for points, *more in sets])
    shown: list[dict[str, Any]] = run_node(COMPARE, SCRIPTS, f"const GIVEN = {sent};")
    refused = 0
    for (points, tolerance, mirror), page in zip(sets, shown, strict=True):
        found = compare(points, tolerance, LEAST, mirror)
        refused += bool(found.refused)
        assert page["refused"] == found.refused
        assert_alike(page, found)
    assert 20 < refused < 380


def assert_alike(page: dict[str, Any], found: Fitted) -> None:
    """The same operations in the same order: places to the last bit, angles as near as the libraries' arctangents."""
    for name, value in found.facts.items():
        assert page["facts"][name] == pytest.approx(value, rel=1e-14, abs=0), name
    fit: Fit | None = found.fit
    if fit is not None:
        assert page["fit"]["rotation"] == fit.rotation
        assert page["fit"]["shift"] == list(fit.shift)
    for row, other in zip(found.deviations, page["rows"], strict=True):
        assert other["off"] == list(row.off)
        assert (other["length"], other["alone"], other["rest"]) == (row.length, row.alone, row.rest)
        assert (other["isBeyond"], other["isDoubtful"], other["isFirst"]) == (
            row.is_beyond, row.is_doubtful, row.is_first,
        )  # fmt: skip
