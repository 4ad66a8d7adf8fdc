"""The supplied procedure, spoiled in the three ways that cost a car: refused, with the reason and both places."""

from __future__ import annotations

import re
import shutil
from pathlib import Path

import pytest
import yaml

from builder.model.problem import Problem
from tests.books.laying import build

CONTENT = Path(__file__).resolve().parents[2] / "content"
PROCEDURE = "procedures/renew-rocker-outer.yaml"
WELD = "spot-lower"
"""The step that closes the lower flange for good."""


def _rule() -> dict[str, str]:
    rules = [yaml.load(path.read_text("utf-8"), Loader=yaml.CBaseLoader) for path in (CONTENT / "rules").glob("*.yaml")]
    found: list[dict[str, str]] = [rule for rule in rules if rule.get("needs", {}).get("state") == "protected"]
    assert len(found) == 1
    return found[0]


def _block(text: str, key: str) -> str:
    """Return the lines of one step."""
    start = text.index(f"      - key: {key}\n")
    end = re.search(r"\n(?=      - key: |  - title: |close_out:)", text[start:])
    assert end is not None
    return text[start : start + end.start() + 1]


def _prime_key(text: str) -> str:
    """Return the step that primes the lower flange."""
    for found in re.finditer(r"      - key: ([a-z-]+)\n        act: prime-weld-through\n        on: (.*)\n", text):
        if "seam:rocker-lower" in found[2]:
            return found[1]
    raise AssertionError("no step primes the lower flange")


@pytest.fixture
def content(tmp_path: Path) -> Path:
    return Path(shutil.copytree(CONTENT, tmp_path / "content"))


def _breaches(content: Path, text: str) -> list[Problem]:
    found = _told_of_the_weld(content, text)
    assert found, "the final weld of the lower flange was not refused"
    return [problem for problem in found if _rule()["because"] in (problem.why or "")]


def _told_of_the_weld(content: Path, text: str) -> list[Problem]:
    (content / PROCEDURE).write_text(text, "utf-8")
    outcome = build(content)
    assert outcome.failed(strict=False)
    weld = text.split("\n").index(f"      - key: {WELD}") + 2
    return [p for p in outcome.problems if p.code.id == "C301" and p.span.line == weld and "Rocker lower" in p.message]


def _protecting() -> set[str]:
    """Return the acts that protect a mating face."""
    texts = {path.stem: path.read_text("utf-8") for path in (CONTENT / "acts").glob("*.yaml")}
    acts = {name: yaml.load(text, yaml.CSafeLoader) for name, text in texts.items()}
    return {name for name, act in acts.items() if act["makes"] != "none" and {"state": "protected"} in act["makes"]}


def test_without_the_prime_step_the_weld_is_refused(content: Path) -> None:
    text = (content / PROCEDURE).read_text("utf-8")
    bare = text.replace(_block(text, _prime_key(text)), "")
    (problem,) = _breaches(content, bare)
    assert problem.see[-1].span.file.startswith("content/rules/")
    advice = re.fullmatch(r'put a step "(.*)" after "(.*)" and before "(.*)"', problem.do)
    assert advice is not None
    act, after, before = advice.groups()
    assert act in _protecting()
    step = f"      - key: as-advised\n        act: {act}\n        on: seam:rocker-lower\n        do: As advised.\n"
    mended = bare.replace(_block(bare, after), _block(bare, after) + step)
    assert mended.index("as-advised") < mended.index(f"- key: {before}")
    assert not _told_of_the_weld(content, mended), "the advice was followed and the weld is still refused"


def test_primed_after_the_weld_is_refused_with_both_places(content: Path) -> None:
    text = (content / PROCEDURE).read_text("utf-8")
    key = _prime_key(text)
    prime, weld = _block(text, key), _block(text, WELD)
    (problem,) = _breaches(content, swapped := text.replace(prime, "").replace(weld, weld + prime))
    late = swapped.split("\n").index(f"      - key: {key}") + 2
    assert (problem.see[0].span.file, problem.see[0].span.line) == (f"content/{PROCEDURE}", late)


def test_drilled_after_priming_is_refused_with_both_places(content: Path) -> None:
    text = (content / PROCEDURE).read_text("utf-8")
    prime = _block(text, _prime_key(text))
    drill = prime.splitlines()[0].split("key:")[0] + (
        "key: drill-again\n        act: drill-plug-holes\n        on: seam:rocker-lower\n        do: Drill two more.\n"
    )
    (problem,) = _breaches(content, spoiled := text.replace(prime, prime + drill))
    place = spoiled.split("\n").index("      - key: drill-again") + 2
    assert (problem.see[0].span.file, problem.see[0].span.line) == (f"content/{PROCEDURE}", place)
