"""The Nu HTML checker finds nothing to say about the built site."""

from __future__ import annotations

import json
import shutil
import subprocess
from pathlib import Path

import pytest

from tests.sweeps import share

ROOT = Path(__file__).parents[2]
CHECKER = ROOT / "tests/tools/node_modules/vnu-jar/build/dist/vnu.jar"
NOT_SELF = tuple(f"Resource violates Content Security Policy (meta tag): {what} " for what in ("external", "image"))
"""On disk the checker takes no file for 'self'; Chromium does, and tests/browser hears of any that it blocks."""


def complaints(*paths: Path) -> list[str]:
    """What the checker says of these files or folders, errors and warnings."""
    command = ("java", "-jar", str(CHECKER), "--format", "json", "--skip-non-html", *map(str, paths))
    run = subprocess.run(command, stdin=subprocess.DEVNULL, capture_output=True, timeout=110, check=False)
    told = json.loads(run.stderr)["messages"]
    return [
        f"{Path(one.get('url', '')).name}:{one.get('lastLine', '')} {one['type']}: {one['message']}"
        for one in told
        if not one["message"].startswith(NOT_SELF)
    ]


@pytest.mark.slow
def test_every_page_is_valid_html(site: Path, tmp_path: Path) -> None:
    assert CHECKER.is_file(), "make test brings the checker"
    for path in share(sorted(site.rglob("*.html")), 12):
        place = tmp_path / path.relative_to(site)
        place.parent.mkdir(parents=True, exist_ok=True)
        shutil.copyfile(path, place)
    found = complaints(tmp_path)
    assert found == [], f"{len(found)} complaints"


@pytest.mark.slow
def test_the_checker_does_find_mistakes(tmp_path: Path) -> None:
    page = tmp_path / "bad.html"
    page.write_text('<!DOCTYPE html><html lang="en"><title>x</title><p id=a><p id=a><div role=nothing></div>', "utf-8")
    assert len(complaints(page)) >= 2
