"""Where the supplied content and templates lie: beside the package in a checkout, inside it in a wheel."""

from __future__ import annotations

from pathlib import Path

from builder.model.files import Layer

PACKAGE = Path(__file__).resolve().parent
WORD = "supplied"
"""In place of a folder's path: the library that comes with Seambook."""


def _supplied(name: str) -> Path:
    beside = PACKAGE.parent / name
    return beside if beside.is_dir() and (PACKAGE.parent / "pyproject.toml").is_file() else PACKAGE / name


def templates() -> Path:
    """Return the folder of templates and assets."""
    return _supplied("templates")


def layer(text: str, base: Path) -> Layer:
    """Return the layer a word means: `supplied`, or a folder seen from `base`."""
    if text == WORD:
        return Layer(_supplied("content"), "content", supplied=True)
    return Layer((base / text), text.rstrip("/\\").replace("\\", "/") or "/")
