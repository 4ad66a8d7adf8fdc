"""Names of scripts that pages share -> their paths; what goes into each stands in `templates/assets/js/order.txt`."""

from __future__ import annotations


def shared(*names: str) -> tuple[str, ...]:
    """Return the paths of these scripts from the book's root, in the order in which they are loaded."""
    return tuple(f"assets/js/{name}.js" for name in names)
