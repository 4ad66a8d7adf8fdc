"""A book's names -> `seambook.webmanifest`, by which a phone puts it beside its other programs.

Members and their meaning: W3C, Web Application Manifest. All ways in it are from the book's root, so that the folder
may lie at any path of a server.
"""

from __future__ import annotations

import json

from builder.delivery.icons import SIZES, Icon
from builder.model.views import Site

MANIFEST = "seambook.webmanifest"
PAPER = "#ffffff"
"""As `--paper` by day."""
SHORT = 12
"""Letters that stay whole below an icon on most phones (common practice)."""


def manifest_of(site: Site) -> bytes:
    """Return the manifest."""
    data = {
        "name": site.title,
        "short_name": _short(site.name),
        "start_url": "index.html",
        "scope": "./",
        "display": "standalone",
        "display_override": ["minimal-ui", "standalone"],
        "background_color": PAPER,
        "theme_color": PAPER,
        "lang": "en",
        "icons": [_icon(icon) for icon in SIZES],
    }
    return (json.dumps(data, ensure_ascii=False, indent=1) + "\n").encode()


def _icon(icon: Icon) -> dict[str, str]:
    return {
        "src": icon.path, "sizes": f"{icon.size}x{icon.size}", "type": "image/png",
        "purpose": "maskable" if icon.is_masked else "any",
    }  # fmt: skip


def _short(name: str) -> str:
    """As many whole words as fit, one at least."""
    words = name.split()
    while len(words) > 1 and len(" ".join(words)) > SHORT:
        words.pop()
    return " ".join(words)
