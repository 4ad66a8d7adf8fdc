"""An address -> the QR code a phone's camera reads it from, as SVG (ISO/IEC 18004)."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import groupby

from builder.model.views import Html

QUIET = 4
"""Modules kept free on each side: what the standard asks, and readers fail without it."""


def code(address: str) -> Html:
    """Draw the code; level M, since paper in a bay gets dirty. Beside it the address stands in letters."""
    import segno  # only a book with an address needs it

    rows = segno.make(address, micro=False, error="m").matrix
    size = len(rows) + 2 * QUIET
    path = "".join(part for at, row in enumerate(rows) for part in _runs(row, at))
    return Html(
        f'<svg class="code" viewBox="0 0 {size} {size}" width="{size * 3}" height="{size * 3}" aria-hidden="true">'
        f'<path d="{path}"/></svg>'
    )


def _runs(row: bytearray, at: int) -> Iterator[str]:
    """Each stretch of dark modules in a row, as a bar one module high."""
    x = QUIET
    for dark, run in groupby(row):
        length = len(list(run))
        if dark:
            yield f"M{x} {at + QUIET}h{length}v1h-{length}z"
        x += length
