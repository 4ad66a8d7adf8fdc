"""A procedure as the bay is handed it -> pieces of HTML by step and danger, with ways from the book's own folder."""

from __future__ import annotations

import re
from collections.abc import Callable
from posixpath import dirname, join, normpath
from typing import Any

from builder.model.bay_views import BayProcedure, BayStep

_WAY = re.compile(r'\b(href|src|srcset)="([^"]*)"')
_OUTSIDE = re.compile(r"[a-z][a-z0-9+.-]*:")
HEAD = "h2"
"""What is to be done is the head of the page."""
Macro = Callable[..., str]


def bay_parts(procedure: BayProcedure, told: Macro, beside: Macro, message: Macro) -> dict[str, Any]:
    """Return the pieces; `told`, `beside` and `message` fill templates."""
    folder, path = dirname(procedure.path), procedure.path

    def piece(html: str) -> str:
        return _WAY.sub(lambda found: f'{found[1]}="{_from_root(found[1], found[2], folder, path)}"', html.strip())

    def pieces(one: BayStep) -> dict[str, str]:
        made = {"told": piece(told(one.step, HEAD)), "beside": piece(beside(one.step)), "draws": one.draws}
        return {key: text for key, text in made.items() if text}

    return {
        "banner": procedure.banner,
        "hazards": {one.key: message(one).strip() for one in procedure.warnings},
        "steps": {one.step.key: pieces(one) for one in procedure.steps},
    }


def _from_root(attribute: str, ways: str, folder: str, path: str) -> str:
    if attribute == "srcset":
        parts = (one.strip().partition(" ") for one in ways.split(","))
        return ", ".join(f"{_one(way, folder, path)} {size}" for way, _, size in parts)
    return _one(ways, folder, path)


def _one(way: str, folder: str, path: str) -> str:
    if _OUTSIDE.match(way):
        return way
    file, sign, anchor = way.partition("#")
    return f"{normpath(join(folder, file)) if file else path}{sign}{anchor}"
