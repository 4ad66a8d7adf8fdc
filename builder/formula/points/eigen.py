"""A symmetric matrix -> its eigenvalues and eigenvectors, by Jacobi's rotations.

The same operations in the same order as `point_fit.js`, so that paper and phone give the same bits.
"""

from __future__ import annotations

import math

Matrix = list[list[float]]
MOST_SWEEPS = 60
"""Four rows need about six; the bound only keeps a number that is none from turning for ever."""


def eigen(symmetric: Matrix) -> tuple[list[float], Matrix]:
    """Return the eigenvalues, the largest first, and for each its vector of length one."""
    size = len(symmetric)
    a = [row[:] for row in symmetric]
    vectors = [[1.0 if row == column else 0.0 for column in range(size)] for row in range(size)]
    for _ in range(MOST_SWEEPS):
        if all(a[p][q] == 0 for p in range(size) for q in range(p + 1, size)):
            break
        for p in range(size):
            for q in range(p + 1, size):
                _turn(a, vectors, p, q)
    # Equal values keep their order, in both languages.
    order = sorted(range(size), key=lambda at: -a[at][at])
    return [a[at][at] for at in order], [[vectors[row][at] for row in range(size)] for at in order]


def _turn(a: Matrix, vectors: Matrix, p: int, q: int) -> None:
    """Turn the plane of p and q so that nothing is left between them."""
    between = a[p][q]
    if between == 0:
        return
    if abs(a[p][p]) + abs(between) == abs(a[p][p]) and abs(a[q][q]) + abs(between) == abs(a[q][q]):
        # Too small to change either value: it is rounding and would only be turned about.
        a[p][q] = a[q][p] = 0.0
        return
    theta = (a[q][q] - a[p][p]) / (2 * between)
    tangent = (1.0 if theta >= 0 else -1.0) / (abs(theta) + math.sqrt(theta * theta + 1))
    cosine = 1 / math.sqrt(tangent * tangent + 1)
    sine = tangent * cosine
    a[p][p] -= tangent * between
    a[q][q] += tangent * between
    a[p][q] = a[q][p] = 0.0
    for row in range(len(a)):
        if row not in (p, q):
            along, across = a[row][p], a[row][q]
            a[row][p] = a[p][row] = cosine * along - sine * across
            a[row][q] = a[q][row] = sine * along + cosine * across
        along, across = vectors[row][p], vectors[row][q]
        vectors[row][p] = cosine * along - sine * across
        vectors[row][q] = sine * along + cosine * across
