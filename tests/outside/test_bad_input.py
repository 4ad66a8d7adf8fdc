"""What cannot be used is refused with a message that names the input and what it admits; nothing is worked out."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from pathlib import Path

import pytest

from builder.formula import Program
from builder.formula.inputs import Question
from tests.outside.asking import Calc, Refused
from tests.site.building import CONTENT, seambook_here

NAMES = sorted(path.stem for path in (CONTENT / "calculators").glob("*.yaml"))
STRANGE = "1 mol"
"""A unit that no input of the job has."""


def good(program: Program) -> dict[str, str]:
    return dict(program.proofs[0].given)


def bad(question: Question) -> Iterator[str]:
    """A text, an empty text, a strange unit, and values just beyond what is admitted."""
    yield "abc"
    yield ""
    yield STRANGE
    if question.choices or question.one_of:
        yield "3.25"
        return
    span = max(abs(question.high or 0.0), abs(question.low or 0.0), 1.0)
    if question.high is not None:
        yield repr(question.unit.from_base(question.high + span / 100))
    if question.low is not None:
        yield repr(question.unit.from_base(question.low - span / 100))


@pytest.mark.parametrize("name", NAMES)
def test_each_input_refuses_what_it_does_not_admit(calc: Calc, programs: Mapping[str, Program], name: str) -> None:
    program = programs[name]
    calc(name, **good(program))
    for id_, question in program.questions.items():
        for text in bad(question):
            with pytest.raises(Refused) as refused:
                calc(name, **(good(program) | {id_: text}))
            said = str(refused.value)
            assert id_ in said, text
            # A page names the units that it offers where another was written.
            assert question.admits in said or (text == STRANGE and '"mol" is not offered here: write' in said), text


@pytest.mark.parametrize("name", NAMES)
def test_each_required_input_is_missed(calc: Calc, programs: Mapping[str, Program], name: str) -> None:
    program = programs[name]
    for id_, question in program.questions.items():
        without = {one: text for one, text in good(program).items() if one != id_}
        if question.default is not None:
            calc(name, **without)
            continue
        with pytest.raises(Refused) as refused:
            calc(name, **without)
        assert f"{id_} is missing" in str(refused.value)


@pytest.mark.parametrize(("words", "said"), [
    (("air=warm", "humidity=60", "surface=18"), "air"),
    (("air=20", "humidity=160", "surface=18"), "humidity"),
    (("air=20 bar", "humidity=60", "surface=18"), "bar"),
    (("air=20", "humidity=60"), "surface is missing"),
    (("air=20", "humidity=60", "surface=18", "wind=3"), "wind"),
    (("air=20", "air=21", "humidity=60", "surface=18"), "twice"),
    (("20", "humidity=60", "surface=18"), "is no input"),
])  # fmt: skip
def test_the_command_ends_with_2_and_says_why(tmp_path: Path, words: tuple[str, ...], said: str) -> None:
    found = seambook_here("calc", "dew-point", *words, folder=tmp_path)
    assert (found.code, found.out) == (2, "")
    assert said in found.err
    assert "Traceback" not in found.err


def test_an_unknown_calculator_is_told_its_neighbour(tmp_path: Path) -> None:
    found = seambook_here("calc", "dew-pont", "air=20", folder=tmp_path)
    assert (found.code, found.out) == (2, "")
    assert "dew-point" in found.err
