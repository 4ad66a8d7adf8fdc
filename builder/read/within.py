"""Whether what a path leads to lies within the layer that it is in: what lies elsewhere is not the book's to show."""

from __future__ import annotations

from pathlib import Path as DiskPath


def leads_out(path: DiskPath, layer: DiskPath) -> bool:
    """Whether links lead out of the layer; one that leads round in a circle is told when it is read."""
    try:
        return not path.resolve().is_relative_to(layer.resolve())
    except (OSError, RuntimeError):
        return False
