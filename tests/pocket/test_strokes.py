"""Drawings in fewer letters: every stroke stays where it was."""

from __future__ import annotations

import re

import pytest

from builder.pocket.strokes import fewer_letters, relative

DRAWN = ("M31 109L152 109A25 25 0 0 0 175 93V67H-3Z", "M0 0L1 2Z", "M5 5L5 5.5L-1 -2M9 9Z", "M1 1H1V1")


def places(drawn: str) -> list[tuple[float, float]]:
    """Where a pen stands after each command, read by the rules of SVG 2, 9.3."""
    found = []
    x = y = 0.0
    start = (x, y)
    for letter, rest in re.findall("([A-Za-z])([^A-Za-z]*)", drawn):
        at = [float(one) for one in re.findall("-?[0-9.]+", rest)]
        base = (x, y) if letter.islower() else (0.0, 0.0)
        kind = letter.upper()
        if kind == "Z":
            x, y = start
        else:
            x = x if kind == "V" else base[0] + (at[0] if kind == "H" else at[-2])
            y = y if kind == "H" else base[1] + at[-1]
        start = (x, y) if kind == "M" else start
        found.append((x, y))
    return found


@pytest.mark.parametrize("drawn", DRAWN)
def test_a_path_goes_through_the_same_places(drawn: str) -> None:
    assert places(relative(drawn)) == places(drawn)
    assert len(relative(drawn)) <= len(drawn)


def test_other_curves_stay_as_they_are() -> None:
    assert relative("M0 0C1 1 2 2 3 3L9 9") == "M0 0C1 1 2 2 3 3L9 9"
    assert relative("M0 0L1 1 2 2") == "M0 0L1 1 2 2"


def test_strokes_of_one_kind_are_one_path_and_areas_are_not() -> None:
    lines = ('<path class="thin" d="M1 1L1 5"/>', '<path class="hatch" d="M2 2L6 2"/>')
    areas = ('<path class="sheet" d="M0 0H9V9Z"/>', '<path class="sheet" d="M1 1V8H8Z"/>')
    svg = f'<svg>{"".join(lines + areas)}<text class="strong" x="1" font-size="13">2 mm</text></svg>'
    assert fewer_letters(svg) == (
        '<svg><path class=t d="M1 1v4M2 2h4"/><path class=s d="M0 0h9v9z"/><path class=s d="M1 1v7h7z"/>'
        '<text x="1">2 mm</text></svg>'
    )
    alike = "".join(f'<path class="outline" d="M{at} 0V9"/>' for at in range(4))
    assert fewer_letters(f"<svg>{alike}</svg>") == '<svg><path d="M0 0v9M1 0v9M2 0v9M3 0v9"/></svg>'


def test_nothing_but_drawings_is_touched() -> None:
    text = '<p class="thin">M1 1L2 2</p><path class="thin" d="M1 1L1 5"/>'
    assert fewer_letters(text) == text
