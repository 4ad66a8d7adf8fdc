"""A published book's files in, one HTML file that holds them all out: the pocket copy.

`grouped` says which files are packed together, `packed` packs a group, `plain_page` makes of a page what reads
without a script, and `bound` puts it all into the one file. The file is written in ISO 8859-1, in which packed bytes
cost least.
"""

from __future__ import annotations

import base64
import hashlib
import json
import lzma
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import Any, NamedTuple

from builder.model.views import Site
from builder.pocket.armour import armoured
from builder.pocket.groups import HOME, grouped, held
from builder.pocket.lines import is_text, marked, numbered, shared
from builder.pocket.plain import KINDS, PlainPage, plain_page, plain_part
from builder.pocket.quoted import is_quoted, unquoted

_FILTERS: list[dict[str, Any]] = [{
    "id": lzma.FILTER_LZMA1, "preset": 9 | lzma.PRESET_EXTREME, "dict_size": 1 << 22, "lc": 4, "lp": 0, "pb": 0,
    "nice_len": 273,
}]  # fmt: skip
"""What templates/pocket/unlzma.js reads."""
_SCRIPTS = ("unlzma", "shelf", "leaf", "paper", "turning")
_ENCODING = "iso-8859-1"


class Packed(NamedTuple):
    """A group of files, packed."""

    files: tuple[tuple[str, int], ...]
    """Each with its size, in their order."""
    text: str


def packed(files: Sequence[tuple[str, bytes]]) -> Packed:
    """Pack files together."""
    return Packed(tuple((path, len(data)) for path, data in files), _pressed(b"".join(data for _, data in files)))


def bound(
    templates: Path, render: Callable[..., str], site: Site, groups: Sequence[Packed], lines: Sequence[str],
    plain: str, styles: Sequence[str],
) -> bytes:  # fmt: skip
    """Put the copy together; `render` fills its page.

    `lines` is what marks stand for, `styles` the style sheets of its pages.
    """
    folder = templates / "pocket"
    style = (folder / "pocket.css").read_text("ascii")
    script = "\n".join((folder / f"{name}.js").read_text("ascii") for name in _SCRIPTS)
    listed = {"groups": [one.files for one in groups], "lines": lines}
    contents = json.dumps(listed, ensure_ascii=True, separators=(",", ":")).encode()
    text = render(
        site=site, style=style, script=script, plain=plain, groups=[one.text for one in groups],
        list_size=len(contents), list_text=_pressed(contents),
        script_hash=_hash(script), style_hash=_hash(style), book_hashes=" ".join(map(_hash, styles)),
    )  # fmt: skip
    return text.encode(_ENCODING, "xmlcharrefreplace")


def _pressed(data: bytes) -> str:
    return armoured(lzma.compress(data, format=lzma.FORMAT_RAW, filters=_FILTERS))


def _hash(text: str) -> str:
    """Return what a content security policy knows a block by."""
    return f"'sha256-{base64.b64encode(hashlib.sha256(text.encode()).digest()).decode()}'"


__all__ = [
    "HOME", "KINDS", "Packed", "PlainPage", "bound", "grouped", "held", "is_quoted", "is_text", "marked", "numbered",
    "packed", "plain_page", "plain_part", "shared", "unquoted",
]  # fmt: skip
