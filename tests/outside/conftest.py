"""Calculators of the supplied library, asked as `seambook calc NAME ... --json` is, and as a page of the book is."""

import json
from collections.abc import Mapping
from functools import cache
from pathlib import Path

import pytest
from playwright.sync_api import Browser

from builder import answers, layers, pipeline
from builder.formula import Program
from builder.model.standing import Standing
from tests.outside.asking import Answer, Calc, Refused
from tests.outside.opened import Opened


@pytest.fixture(params=["Python", pytest.param("Chromium", marks=pytest.mark.sweep(3))])
def calc(request: pytest.FixtureRequest) -> Calc:
    """`calc(name, **inputs as text) -> Answer`: every test that asks runs twice, here and in the built book.

    Of one that goes through many rows the book is asked every third; a soak asks it all.
    """
    if request.param == "Python":
        return _calc
    opened: Opened = request.getfixturevalue("opened")
    return opened.calc


@pytest.fixture(scope="session")
def ask() -> Calc:
    """As `calc`, in Python alone: for what must hold of any input, which is asked hundreds of times."""
    return _calc


@pytest.fixture(scope="session")
def opened(chromium: Browser, site: Path, programs: Mapping[str, Program]) -> Opened:
    """The built book's own scripts."""
    return Opened(chromium, site, programs)


@pytest.fixture(scope="session")
def programs() -> Mapping[str, Program]:
    """Every calculator of the library by name."""
    return _programs()


def _calc(name: str, **inputs: str) -> Answer:
    program = _programs()[name]
    answer = answers.ask(program, [f"{key}={value}" for key, value in inputs.items()])
    if isinstance(answer, str):
        raise Refused(answer)
    return Answer(json.loads(answers.answer_json(program, answer, Standing(()))))


@cache
def _programs() -> Mapping[str, Program]:
    chosen = layers.choose(("supplied",), Path.cwd())
    found, problems = pipeline.calculators(chosen.layers)
    assert not chosen.problems
    assert not problems
    return found
