"""The law over little procedures: every breach with both steps. A failing id is a line of procedures.txt."""

from __future__ import annotations

from pathlib import Path

import pytest

from builder.check.law import Law
from builder.check.order import Breach, judge
from tests.check.little import FIXTURES, little_law, steps_of, told


def _cases(path: Path) -> list[object]:
    lines = enumerate(path.read_text("utf-8").splitlines(), 1)
    return [
        pytest.param(*(part.strip() for part in line.split("|")), id=f"{path.name}:{at}")
        for at, line in lines if line.strip() and not line.startswith("#")
    ]  # fmt: skip


def _written(breach: Breach) -> str:
    at, other = breach.at + 1, breach.other + 1 if breach.other is not None else 0
    if breach.sort == "needless":
        return f"{at} needless {breach.rule_id}"
    if breach.sort == "asks":
        return f"{at} {breach.rule_id} lacks {breach.state}"
    if breach.sort == "order":
        return f"{at} {breach.rule_id} of {told(breach.subject)}, before {other}"
    word = "since" if breach.sort == "forbids" else "made at" if breach.late else "spoiled at"
    happened = f", {word} {other}" if breach.other is not None else ""
    return f"{at} {breach.rule_id} {breach.state} of {told(breach.subject)}{happened}"


@pytest.fixture(scope="module")
def law() -> Law:
    return little_law()


@pytest.mark.parametrize(("steps", "breaches"), _cases(FIXTURES / "procedures.txt"))
def test_little_procedures(law: Law, steps: str, breaches: str) -> None:
    found = list(dict.fromkeys(_written(breach) for breach in judge(law, steps_of(steps))))
    assert sorted(found) == sorted(breach for breach in breaches.split("; ") if breach)
