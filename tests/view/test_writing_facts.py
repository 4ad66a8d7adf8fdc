"""The writing guide names every fact that formulas may use, so that nobody has to misspell one to hear the others."""

from __future__ import annotations

import re

import pytest

from builder.formula.facts import fact_kinds, plan_kinds
from builder.view.writing_words import FACTS

NAMED = set(re.findall(r"`(\w+)`", FACTS)) | {"sheet_2", "sheet_3", "interface_2"}
SUBJECTS = ("seam", "segment", "step", "panel", "cavity")


@pytest.mark.parametrize("subject", SUBJECTS)
def test_each_fact_is_named(subject: str) -> None:
    kinds = {**fact_kinds(subject, {}), **(plan_kinds({}) if subject == "seam" else {})}
    assert kinds
    assert set(kinds) - NAMED == set()


def test_none_is_named_that_there_is_not() -> None:
    assert set(plan_kinds({})).union(*(fact_kinds(subject, {}) for subject in SUBJECTS)) >= NAMED
