"""Defects: which steps lead to one, and what its page tells."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.books.laying import TINY, build, lay

DEFECT = (TINY / "defects/hollow-plug.yaml").read_text("utf-8")
LINK = "defects/hollow-plug.html"


def page_of(folder: Path, defect: str, path: str, procedure: tuple[str, str] = ("", "")) -> str:
    content = lay(folder / "content", TINY)
    (content / "defects/hollow-plug.yaml").write_text(defect, "utf-8")
    file = content / "procedures/weld-cover.yaml"
    file.write_text(file.read_text("utf-8").replace(*procedure), "utf-8")
    outcome = build(content, folder / "site")
    assert outcome.published is not None, outcome.problems
    return (folder / "site" / path).read_text("utf-8")


@pytest.mark.parametrize(("arises", "procedure", "leads"), [
    ("{act: [weld, coupon], method: plug}", ("", ""), True),
    ("{act: weld}", ("", ""), True),
    ("{act: weld, method: bond}", ("", ""), False),
    ("{act: weld, method: bond}", ("        method: plug\n", ""), True),
    ("{act: coupon, method: plug}", ("", ""), False),
])  # fmt: skip
def test_a_step_leads_to_what_may_go_wrong_with_it(
    tmp_path: Path, arises: str, procedure: tuple[str, str], leads: bool
) -> None:
    defect = DEFECT.replace("{act: [weld, coupon], method: plug}", arises)
    assert defect.count(arises) == 1
    page = page_of(tmp_path, defect, "procedures/weld-cover.html", procedure)
    assert (LINK in page) == leads
    assert ("If it goes wrong" in page) == leads


def test_a_renamed_act_leads_to_it_too(tmp_path: Path) -> None:
    content = lay(tmp_path / "content", TINY)
    (content / "acts/weld.yaml").rename(content / "acts/join.yaml")
    file = content / "acts/join.yaml"
    file.write_text(file.read_text("utf-8").replace("summary:", "was: [weld]\nsummary:", 1), "utf-8")
    outcome = build(content, tmp_path / "site")
    assert outcome.published is not None, outcome.problems
    assert LINK in (tmp_path / "site/procedures/weld-cover.html").read_text("utf-8")


def test_the_page_tells_each_cause_with_its_sign_and_its_source(tmp_path: Path) -> None:
    page = page_of(tmp_path, DEFECT, LINK)
    for told in ("rings high", "Tap each plug", "struck on the rim", "the middle is grey", "Drill it out"):
        assert told in page
    assert 'href="../panels/box.html"' in page
    assert 'href="../sources/bench-trial.html"' in page
