"""A record is renamed and keeps its old name by `was`: whoever still uses the old name is judged as before."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.books.laying import TINY, build, lay, shown

PRIMELESS = Path(__file__).resolve().parents[1] / "invalid" / "C301-prime-step-deleted"
RENAMED = [
    ("acts", "weld"), ("acts", "prime"), ("states", "protected"), ("states", "vapour-about"), ("seams", "cover-edge"),
    ("panels", "box"), ("cavities", "box-inside"), ("openings", "hatch"), ("methods", "plug"),
    ("rules", "welder-is-proven"), ("calculators", "holes"),
]  # fmt: skip


def rename(content: Path, folder: str, name: str) -> None:
    old, new = content / folder / f"{name}.yaml", content / folder / f"{name}-of-today.yaml"
    text = old.read_text("utf-8")
    title = text.split("\n")[0]
    assert title.startswith("title:")
    assert "\nwas:" not in text
    new.write_text(text.replace(title, f"{title}\nwas: [{name}]", 1), "utf-8")
    old.unlink()


@pytest.mark.parametrize(("folder", "name"), RENAMED)
def test_a_rename_gives_warnings_and_nothing_else(folder: str, name: str, tmp_path: Path) -> None:
    content = lay(tmp_path / "content", TINY)
    rename(content, folder, name)
    outcome = build(content)
    assert {(problem.code.id, problem.level) for problem in outcome.problems} == {("L204", "warning")}, shown(outcome)


@pytest.mark.parametrize(("folder", "name"), RENAMED)
def test_a_rename_loosens_nothing(folder: str, name: str, tmp_path: Path) -> None:
    content = lay(tmp_path / "content", TINY, PRIMELESS)
    before = {(problem.code.id, problem.span.line) for problem in build(content).problems}
    rename(content, folder, name)
    after = {(problem.code.id, problem.span.line) for problem in build(content).problems if problem.code.id != "L204"}
    assert before == after
    assert {code for code, _ in before} == {"C301"}
