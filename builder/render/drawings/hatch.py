"""A drawing's id in, the hatch patterns of a section out: neighbours run in opposite directions (ISO 128-3)."""

from __future__ import annotations

from html import escape

_SPACING = 5.5
_ANGLES = (45, 135)


def patterns(drawing: str) -> str:
    """Definitions of both directions, under ids that begin with the drawing's."""
    drawn = "".join(
        f'<pattern id="{escape(drawing)}_hatch-{turn}" width="{_SPACING}" height="{_SPACING}" '
        f'patternUnits="userSpaceOnUse" patternTransform="rotate({angle})">'
        f'<path class="hatch" d="M0 0V{_SPACING}"/></pattern>'
        for turn, angle in enumerate(_ANGLES)
    )
    return f"<defs>{drawn}</defs>"


def fill(drawing: str, index: int) -> str:
    """Fill of the sheet at this place in the stack."""
    return f"url(#{escape(drawing)}_hatch-{index % len(_ANGLES)})"
