"""What is given to a calculator on the command line and cannot be taken: a clear message, and exit code 2."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from click.testing import CliRunner

from builder import cli, pipeline
from builder.formula import CODES, run
from builder.formula.codes import GIVEN_BAD, GIVEN_MISSING, GIVEN_UNKNOWN
from builder.supplied import layer
from tests.site.building import read_once

GOOD = {"air": "20 degC", "humidity": "60 percent", "surface": "18 degC"}


@pytest.fixture(scope="module", autouse=True)
def once() -> Iterator[None]:
    with read_once():
        yield


def _ask(*words: str) -> tuple[int, str]:
    result = CliRunner().invoke(cli.commands, ["calc", *words, "--content", "supplied"])
    return result.exit_code, result.output


@pytest.mark.parametrize(("given", "code", "said"), [
    ({**GOOD, "humid": "60 percent"}, GIVEN_UNKNOWN, "humidity"),
    ({"air": "20 degC", "humidity": "60 percent"}, GIVEN_MISSING, "surface"),
    ({**GOOD, "air": "warm"}, GIVEN_BAD, "air"),
    ({**GOOD, "air": "20 mm"}, GIVEN_BAD, "air"),
    ({**GOOD, "humidity": "160 percent"}, GIVEN_BAD, "humidity"),
    ({**GOOD, "air": "1e999 degC"}, GIVEN_BAD, "air"),
])  # fmt: skip
def test_bad_inputs_are_explained_and_end_with_two(given: dict[str, str], code: object, said: str) -> None:
    programs, _, _ = pipeline.asked((layer("supplied", Path()),))
    faults = run(programs["dew-point"], given).faults
    assert [fault.code for fault in faults] == [code]
    assert code in CODES
    exit_code, output = _ask("dew-point", *(f"{name}={value}" for name, value in given.items()))
    assert exit_code == 2
    assert said in output
    assert "Traceback" not in output


def test_an_unknown_calculator_offers_the_nearest() -> None:
    exit_code, output = _ask("dew-pont")
    assert exit_code == 2
    assert "dew-point" in output


def test_an_input_without_its_sign_or_given_twice() -> None:
    assert _ask("dew-point", "air")[0] == 2
    assert _ask("dew-point", "air=20 degC", "air=21 degC")[0] == 2
