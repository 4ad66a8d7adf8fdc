"""Pairs of places -> the turn and shift that bring the measured ones nearest to where they should be.

Horn's closed form with a unit quaternion (Journal of the Optical Society of America A 4, 1987): a turn made of a
quaternion is never a mirror image. The same operations in the same order as `point_fit.js`.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import NamedTuple

from builder.formula.points.eigen import Matrix, eigen

Place = tuple[float, float, float]
LEAST_POINTS = 3
SAME = 1e-9
"""Two best turns that differ by less than this share fit equally well."""


class Pair(NamedTuple):
    """A point's two places."""

    stated: Place
    measured: Place


class Fit(NamedTuple):
    """A proper turn and a shift: `rotation` times a measured place, plus `shift`."""

    quaternion: tuple[float, float, float, float]
    rotation: Matrix
    shift: Place
    breadth: float
    """The lesser of the breadths of both sets of places."""


def fit(pairs: Sequence[Pair], least_breadth: float) -> Fit | str:
    """Fit, or return which refusal holds: few, line or undecided."""
    if len(pairs) < LEAST_POINTS:
        return "few"
    stated, measured = [pair.stated for pair in pairs], [pair.measured for pair in pairs]
    to, from_ = centre(stated), centre(measured)
    width = min(_breadth(stated, to), _breadth(measured, from_))
    if not width >= least_breadth or width == 0:
        return "line"
    values, vectors = eigen(_quaternion_matrix(_products(pairs, to, from_)))
    if not values[0] - values[1] > SAME * abs(values[0]):
        return "undecided"
    w, x, y, z = vectors[0]
    rotation = _rotation(w, x, y, z)
    turned = _times(rotation, from_)
    return Fit((w, x, y, z), rotation, (to[0] - turned[0], to[1] - turned[1], to[2] - turned[2]), width)


def apply(found: Fit, place: Place) -> Place:
    """Turn and shift a measured place."""
    turned = _times(found.rotation, place)
    return turned[0] + found.shift[0], turned[1] + found.shift[1], turned[2] + found.shift[2]


def centre(places: Sequence[Place]) -> Place:
    """Return the mean place."""
    x = y = z = 0.0
    for place in places:
        x, y, z = x + place[0], y + place[1], z + place[2]
    return x / len(places), y / len(places), z / len(places)


def length(x: float, y: float, z: float) -> float:
    """Return how long a difference of two places is."""
    return math.sqrt(x * x + y * y + z * z)


def angles(rotation: Matrix) -> Place:
    """Return the turns about the fixed axes, about x first, then y, then z."""
    flat = math.sqrt(rotation[0][0] * rotation[0][0] + rotation[1][0] * rotation[1][0])
    return (
        math.atan2(rotation[2][1], rotation[2][2]),
        math.atan2(-rotation[2][0], flat),
        math.atan2(rotation[1][0], rotation[0][0]),
    )


def whole_angle(quaternion: tuple[float, float, float, float]) -> float:
    """Return the angle of the one turn that does the same."""
    w, x, y, z = quaternion
    return 2 * math.atan2(length(x, y, z), abs(w))


def _times(rotation: Matrix, place: Place) -> Place:
    return (
        rotation[0][0] * place[0] + rotation[0][1] * place[1] + rotation[0][2] * place[2],
        rotation[1][0] * place[0] + rotation[1][1] * place[1] + rotation[1][2] * place[2],
        rotation[2][0] * place[0] + rotation[2][1] * place[1] + rotation[2][2] * place[2],
    )


def _breadth(places: Sequence[Place], middle: Place) -> float:
    """Return the second largest over the largest spread: 0 on one line."""
    spread = [[0.0] * 3 for _ in range(3)]
    for place in places:
        off = (place[0] - middle[0], place[1] - middle[1], place[2] - middle[2])
        for row in range(3):
            for column in range(3):
                spread[row][column] += off[row] * off[column]
    values, _ = eigen(spread)
    return math.sqrt(max(values[1], 0.0) / values[0]) if values[0] > 0 else 0.0


def _products(pairs: Sequence[Pair], to: Place, from_: Place) -> Matrix:
    """Sum over the pairs the products of measured (rows) and stated (columns), each from its own centre."""
    s = [[0.0] * 3 for _ in range(3)]
    for stated, measured in pairs:
        for row in range(3):
            for column in range(3):
                s[row][column] += (measured[row] - from_[row]) * (stated[column] - to[column])
    return s


def _quaternion_matrix(s: Matrix) -> Matrix:
    """Horn's four by four: the vector of its largest value is the best turn."""
    (xx, xy, xz), (yx, yy, yz), (zx, zy, zz) = s
    return [
        [xx + yy + zz, yz - zy, zx - xz, xy - yx],
        [yz - zy, xx - yy - zz, xy + yx, zx + xz],
        [zx - xz, xy + yx, -xx + yy - zz, yz + zy],
        [xy - yx, zx + xz, yz + zy, -xx - yy + zz],
    ]


def _rotation(w: float, x: float, y: float, z: float) -> Matrix:
    return [
        [w * w + x * x - y * y - z * z, 2 * (x * y - w * z), 2 * (x * z + w * y)],
        [2 * (x * y + w * z), w * w - x * x + y * y - z * z, 2 * (y * z - w * x)],
        [2 * (x * z - w * y), 2 * (y * z + w * x), w * w - x * x - y * y + z * z],
    ]
