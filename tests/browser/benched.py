"""Scripts of a built book on an empty page of their own, as a page loads them: brought by the browser from disk."""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path

from playwright.sync_api import Page

from tests.browser.watched import PHONE, Watched


def benched(watched: Watched, folder: Path, scripts: Iterable[Path]) -> Page:
    """Open a page that runs these scripts in their order, and nothing else; it lies in `folder`."""
    tags = "".join(f'<script src="{path.as_uri()}"></script>' for path in scripts)
    bench = folder / "bench.html"
    head = '<!DOCTYPE html><html lang="en"><meta charset="utf-8"><title>bench</title>'
    bench.write_text(f"{head}<body>{tags}</body>", "utf-8")
    page = watched.blank(PHONE)
    page.goto(bench.as_uri())
    return page
