"""Points with two places each -> every point's deviation after the fit, and the numbers that formulas may use.

Each sound point is also tried by the others: the fit is made without it, and one that then stands off by more than the
tolerance is doubtful. `point_fit.js` does the same.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import NamedTuple

from builder.formula.points.fit import Fit, Pair, Place, angles, apply, centre, fit, length, whole_angle

SAME = 1e-9
"""A deviation this little over the tolerance, as a share of it, is rounding."""
BARE = ("points", "sound", "tried", "doubtful", "beyond", "breadth", "reach", "turn", "turn_x", "turn_y", "turn_z")
LENGTHS = ("rms", "rms_all", "largest", "largest_sound", "shift_x", "shift_y", "shift_z")
"""The names that formulas may use: counts, shares and angles in radians; and lengths."""


class Point(NamedTuple):
    """One row of the table."""

    name: str
    stated: Place
    measured: Place
    sound: bool


class Deviation(NamedTuple):
    """What lies between where a point should be and where it is, seen from where it should be."""

    name: str
    sound: bool
    off: Place
    length: float
    is_beyond: bool
    alone: float | None
    """Of a sound point how far it stands off where the fit is made without it; None where that cannot be."""
    rest: float | None
    """The root mean square of the other sound points in that fit."""
    is_doubtful: bool
    is_first: bool
    """The doubtful point without which the others agree best."""


class Fitted(NamedTuple):
    """What comes of a table of points, in its own unit."""

    deviations: tuple[Deviation, ...]
    fit: Fit | None
    facts: dict[str, float]
    refused: str = ""
    """Which refusal holds where no fit was made: few, line or undecided."""


def compare(points: Sequence[Point], tolerance: float, least_breadth: float, mirror: int | None = None) -> Fitted:
    """Fit on the sound points and report every one; `mirror` is the axis that is turned round first."""
    shown = [point if mirror is None else point._replace(stated=_mirrored(point.stated, mirror)) for point in points]
    sound = [Pair(point.stated, point.measured) for point in shown if point.sound]
    found = fit(sound, least_breadth)
    if isinstance(found, str):
        return Fitted((), None, {}, found)
    tried = iter([_without(sound, at, least_breadth) for at in range(len(sound))])
    rows = [_deviation(point, found, next(tried) if point.sound else (None, None), tolerance) for point in shown]
    doubtful = [row.rest for row in rows if row.is_doubtful and row.rest is not None]
    if doubtful:
        at = next(at for at, row in enumerate(rows) if row.is_doubtful and row.rest == min(doubtful))
        rows[at] = rows[at]._replace(is_first=True)
    return Fitted(tuple(rows), found, _facts(shown, rows, found))


def _mirrored(place: Place, axis: int) -> Place:
    x, y, z = (-value if at == axis else value for at, value in enumerate(place))
    return x, y, z


def _without(sound: Sequence[Pair], at: int, least_breadth: float) -> tuple[float | None, float | None]:
    """Fit without one sound point: how far it stands off, and how well the others agree."""
    others = [pair for place, pair in enumerate(sound) if place != at]
    found = fit(others, least_breadth)
    if isinstance(found, str):
        return None, None
    return length(*_off(sound[at], found)), _rms([length(*_off(pair, found)) for pair in others])


def _off(pair: Pair, found: Fit) -> Place:
    moved = apply(found, pair.measured)
    return moved[0] - pair.stated[0], moved[1] - pair.stated[1], moved[2] - pair.stated[2]


def _rms(lengths: Sequence[float]) -> float:
    total = 0.0
    for one in lengths:
        total += one * one
    return math.sqrt(total / len(lengths))


def _deviation(point: Point, found: Fit, tried: tuple[float | None, float | None], tolerance: float) -> Deviation:
    off = _off(Pair(point.stated, point.measured), found)
    size = length(*off)
    alone, rest = tried
    most = tolerance * (1 + SAME)
    return Deviation(
        point.name, point.sound, off, size, size > most, alone, rest, alone is not None and alone > most, False
    )


def _facts(points: Sequence[Point], rows: Sequence[Deviation], found: Fit) -> dict[str, float]:
    sound = [row.length for row in rows if row.sound]
    every = [row.length for row in rows]
    about = angles(found.rotation)
    return {
        "points": float(len(rows)),
        "sound": float(len(sound)),
        "tried": float(sum(row.alone is not None for row in rows)),
        "doubtful": float(sum(row.is_doubtful for row in rows)),
        "beyond": float(sum(row.is_beyond for row in rows)),
        "breadth": found.breadth,
        "reach": _reach(points),
        "turn": whole_angle(found.quaternion),
        "turn_x": about[0], "turn_y": about[1], "turn_z": about[2],
        "rms": _rms(sound),
        "rms_all": _rms(every),
        "largest": max(every),
        "largest_sound": max(sound),
        "shift_x": found.shift[0], "shift_y": found.shift[1], "shift_z": found.shift[2],
    }  # fmt: skip


def _reach(points: Sequence[Point]) -> float:
    """Return how far out the sound points reach, as a share of how far out any point lies from their middle."""
    middle = centre([point.stated for point in points if point.sound])
    away = [length(*(one - other for one, other in zip(point.stated, middle, strict=True))) for point in points]
    return max(far for far, point in zip(away, points, strict=True) if point.sound) / max(away)
