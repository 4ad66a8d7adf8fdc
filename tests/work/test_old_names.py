"""A calculator, a table, a method and a hazard used by their old names do their work all the same."""

from __future__ import annotations

import re
from pathlib import Path

from tests.books.laying import TINY, build, lay


def test_nothing_vanishes_from_a_page_when_a_record_is_renamed(tmp_path: Path) -> None:
    content = lay(tmp_path / "content", TINY)
    first = build(content, tmp_path / "before")
    assert first.published is not None
    for folder, old, new in (("calculators", "holes", "plug-holes"), ("tables", "hole-sizes", "sizes-of-holes"),
                             ("hazards", "vapour", "primer-vapour"), ("methods", "plug", "mag-plug")):  # fmt: skip
        path = content / folder / f"{old}.yaml"
        text = path.read_text("utf-8").replace("\n", f"\nwas: [{old}]\n", 1)
        path.unlink()
        (content / folder / f"{new}.yaml").write_text(text, "utf-8")
    outcome = build(content, tmp_path / "after")
    assert outcome.published is not None
    assert {problem.code.id for problem in outcome.problems} == {"L204"}
    page = "procedures/weld-cover.html"
    before, after = ((tmp_path / name / page).read_text("utf-8") for name in ("before", "after"))
    for old, new in (("holes", "plug-holes"), ("vapour", "primer-vapour"), ("plug", "mag-plug")):
        after = after.replace(f"{new}.html", f"{old}.html")
    # A page's edition is made of all that it says, and of where its links lead.
    said, said_now = (re.search(r"Edition of this page: ([0-9a-f]{8})", one) for one in (before, after))
    assert said is not None
    assert said_now is not None
    assert after.replace(said_now[1], said[1]) == before
    assert (tmp_path / "after" / "calculators" / "holes.html").exists(), "a stub leads on from the old name"


