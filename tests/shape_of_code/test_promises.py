"""Each promise of the README's section on security has a test of the name that stands behind it."""

from __future__ import annotations

import re

from tests.shape_of_code.modules import ROOT

_NAMED = re.compile(r"`(test_[a-z0-9_]+)`")


def test_every_promise_is_held_by_tests_that_are_there() -> None:
    section = (ROOT / "README.md").read_text("utf-8").partition("## Security")[2].partition("\n## ")[0]
    promises = section.split("\n- ")[1:]
    assert len(promises) >= 10
    assert [promise[:60] for promise in promises if not _NAMED.findall(promise)] == []
    there = {name for path in (ROOT / "tests").rglob("test_*.py") if "node_modules" not in path.parts
             for name in re.findall(r"^def (test_\w+)", path.read_text("utf-8"), re.MULTILINE)}  # fmt: skip
    assert sorted(set(_NAMED.findall(section)) - there) == []
