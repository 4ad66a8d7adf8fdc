"""The Nu HTML checker finds nothing to say about the built site, nor about a book to print."""

from __future__ import annotations

import json
import shutil
import subprocess
from pathlib import Path

import pytest

from tests.books.laying import TINY, build
from tests.sweeps import share

ROOT = Path(__file__).parents[2]
CHECKER = ROOT / "tests/tools/node_modules/vnu-jar/build/dist/vnu.jar"
SOON = ("-XX:TieredStopAtLevel=1", "-XX:+UseSerialGC", "-Xss8m")
"""Over a few files Java compiles for longer than it checks; compiled so, it needs more room for its own calls."""
NOT_SELF = tuple(f"Resource violates Content Security Policy (meta tag): {what} " for what in ("external", "image"))
"""On disk the checker takes no file for 'self'; Chromium does, and tests/browser hears of any that it blocks."""


def complaints(*paths: Path) -> list[str]:
    """What the checker says of these files or folders, errors and warnings."""
    command = ("java", *SOON, "-jar", str(CHECKER), "--format", "json", "--skip-non-html", *map(str, paths))
    run = subprocess.run(command, stdin=subprocess.DEVNULL, capture_output=True, timeout=110, check=False)
    told = json.loads(run.stderr)["messages"]
    return [
        f"{Path(one.get('url', '')).name}:{one.get('lastLine', '')} {one['type']}: {one['message']}"
        for one in told
        if not one["message"].startswith(NOT_SELF)
    ]


BAD = '<!DOCTYPE html><html lang="en"><title>x</title><p id=a><p id=a><div role=nothing></div>'


@pytest.mark.slow
def test_every_page_is_valid_html(site: Path, tmp_path: Path) -> None:
    """A page with mistakes lies among them: the checker, which takes seconds to start, does find some."""
    assert CHECKER.is_file(), "make test brings the checker"
    checked = tmp_path / "checked"
    for path in share(sorted(site.rglob("*.html")), 100):
        place = checked / path.relative_to(site)
        place.parent.mkdir(parents=True, exist_ok=True)
        shutil.copyfile(path, place)
    assert build(TINY, tmp_path / "tiny").published is not None
    shutil.copyfile(tmp_path / "tiny/print.html", checked / "print.html")
    (checked / "bad.html").write_text(BAD, "utf-8")
    found = complaints(checked)
    of_bad = [one for one in found if one.startswith("bad.html:")]
    assert len(of_bad) >= 2
    assert found == of_bad, f"{len(found) - len(of_bad)} complaints"
