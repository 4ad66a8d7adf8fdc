"""The code in the foot of a printed page: its modules, as bars of the drawing, are those of the standard's encoder."""

from __future__ import annotations

import re

import segno

from builder.render.drawings.code import QUIET, code

ADDRESS = "https://book.example.org/procedures/weld-cover.html"


def test_every_dark_module_is_drawn_and_no_other() -> None:
    drawn = {
        (int(x) + step, int(y))
        for x, y, length in re.findall(r"M(\d+) (\d+)h(\d+)v1h-\3z", code(ADDRESS))
        for step in range(int(length))
    }
    matrix = segno.make(ADDRESS, micro=False, error="m").matrix
    dark = {(x + QUIET, y + QUIET) for y, row in enumerate(matrix) for x, module in enumerate(row) if module}
    assert drawn == dark
    assert len(drawn) > 200


def test_it_has_the_quiet_zone_and_the_finders_of_the_standard() -> None:
    """ISO/IEC 18004: four free modules around, and in three corners a ring of seven around a block of three."""
    found = re.search(r'viewBox="0 0 (\d+) \1"', code(ADDRESS))
    assert found is not None
    size = int(found[1])
    bars = [(int(x), int(y), int(length)) for x, y, length in re.findall(r"M(\d+) (\d+)h(\d+)v1", code(ADDRESS))]
    assert min(x for x, _, _ in bars) == min(y for _, y, _ in bars) == 4
    assert max(x + length for x, _, length in bars) == max(y for _, y, _ in bars) + 1 == size - 4
    corners = {(4, 4, 7), (size - 11, 4, 7), (4, size - 11, 7)}
    assert corners <= set(bars)
