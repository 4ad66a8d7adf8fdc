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


TEXT = (CONTENT / PROCEDURE).read_text("utf-8")
PRIME = _prime_key(TEXT)
BARE = TEXT.replace(_block(TEXT, PRIME), "")
SWAPPED = BARE.replace(_block(TEXT, WELD), _block(TEXT, WELD) + _block(TEXT, PRIME))
DRILL = """\
      - key: drill-again
        act: drill-plug-holes
        on: seam:rocker-lower
        do: Drill two more.
"""
DRILLED = TEXT.replace(_block(TEXT, PRIME), _block(TEXT, PRIME) + DRILL)


def _file(name: str) -> str:
    return PROCEDURE.replace("renew", name)


def _told(folder: Path, **texts: str) -> dict[str, list[Problem]]:
    """Check the library with copies of the procedure that say this; return what is told of each one's last weld."""
    content = Path(shutil.copytree(CONTENT, folder / "content"))
    for name, text in texts.items():
        (content / _file(name)).write_text(text, "utf-8")
    outcome = build(content)
    assert outcome.failed(strict=False)
    weld = f"      - key: {WELD}"
    welds = {f"content/{_file(name)}": text.split("\n").index(weld) + 2 for name, text in texts.items()}
    told = [one for one in outcome.problems if one.code.id == "C301" and "Rocker lower" in one.message]
    of_weld = [one for one in told if one.span.line == welds.get(one.span.file)]
    return {name: [one for one in of_weld if one.span.file == f"content/{_file(name)}"] for name in texts}


@pytest.fixture(scope="module")
def told(tmp_path_factory: pytest.TempPathFactory) -> dict[str, list[Problem]]:
    return _told(tmp_path_factory.mktemp("spoiled"), bare=BARE, swapped=SWAPPED, drilled=DRILLED)


def _breaches(found: list[Problem]) -> list[Problem]:
    assert found, "the final weld of the lower flange was not refused"
    return [problem for problem in found if _rule()["because"] in (problem.why or "")]


def _protecting() -> set[str]:
    """Return the acts that protect a mating face."""
    texts = {path.stem: path.read_text("utf-8") for path in (CONTENT / "acts").glob("*.yaml")}
    acts = {name: yaml.load(text, yaml.CSafeLoader) for name, text in texts.items()}
    return {name for name, act in acts.items() if act["makes"] != "none" and {"state": "protected"} in act["makes"]}


def test_without_the_prime_step_the_weld_is_refused(told: dict[str, list[Problem]], tmp_path: Path) -> None:
    (problem,) = _breaches(told["bare"])
    assert problem.see[-1].span.file.startswith("content/rules/")
    advice = re.fullmatch(r'put a step "(.*)" after "(.*)" and before "(.*)"', problem.do)
    assert advice is not None
    act, after, before = advice.groups()
    assert act in _protecting()
    step = f"      - key: as-advised\n        act: {act}\n        on: seam:rocker-lower\n        do: As advised.\n"
    mended = BARE.replace(_block(BARE, after), _block(BARE, after) + step)
    assert mended.index("as-advised") < mended.index(f"- key: {before}")
    found = _told(tmp_path, mended=mended)
    assert not found["mended"], "the advice was followed and the weld is still refused"


def test_primed_after_the_weld_is_refused_with_both_places(told: dict[str, list[Problem]]) -> None:
    (problem,) = _breaches(told["swapped"])
    late = SWAPPED.split("\n").index(f"      - key: {PRIME}") + 2
    assert (problem.see[0].span.file, problem.see[0].span.line) == (f"content/{_file('swapped')}", late)


def test_drilled_after_priming_is_refused_with_both_places(told: dict[str, list[Problem]]) -> None:
    (problem,) = _breaches(told["drilled"])
    place = DRILLED.split("\n").index("      - key: drill-again") + 2
    assert (problem.see[0].span.file, problem.see[0].span.line) == (f"content/{_file('drilled')}", place)
