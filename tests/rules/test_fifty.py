"""Each of the fifty rules of practice is kept by rules of the book or by what its acts make and spoil."""

from __future__ import annotations

from pathlib import Path
from typing import NamedTuple

import pytest

from builder.model.records.law import Act
from tests.rules.supplied import law
from tests.rules.test_rules import RULES

FIFTY = 50


class Line(NamedTuple):
    number: str
    kept_by: tuple[str, ...]


def _lines() -> list[Line]:
    text = Path(__file__).with_name("fifty.txt").read_text("utf-8")
    told = [line.partition("|") for line in text.splitlines() if line.strip() and not line.startswith("#")]
    return [Line(said.split()[0], tuple(part.strip() for part in kept.split(";"))) for said, _, kept in told]


LINES = _lines()
EFFECTS = [part for line in LINES for part in line.kept_by if " " in part]


def test_every_number_is_covered() -> None:
    assert [line.number for line in LINES if line.number != "+"] == [str(at) for at in range(1, FIFTY + 1)]
    assert all(part for line in LINES for part in line.kept_by)


def test_every_rule_of_the_book_has_its_place() -> None:
    named = {part for line in LINES for part in line.kept_by if " " not in part}
    assert sorted(named) == RULES


@pytest.mark.parametrize("effect", EFFECTS)
def test_an_act_makes_or_spoils_what_a_rule_needs(effect: str) -> None:
    act, does, state, *of = effect.split()
    found: Act = law().acts[act]
    whose = of[1] if of else "same"
    assert does in ("makes", "spoils")
    assert (state, whose) in {(one.state, one.of) for one in (found.makes if does == "makes" else found.spoils)}
