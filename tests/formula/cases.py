"""From a plain text table under fixtures/ its cases, each with its line number, which is the id of a failing test."""

from pathlib import Path
from typing import NamedTuple

import pytest
from _pytest.mark.structures import ParameterSet

FIXTURES = Path(__file__).parent / "fixtures"


class Case(NamedTuple):
    """One line: columns parted by ` | `."""

    line: int
    columns: tuple[str, ...]


def cases(name: str, folder: Path = FIXTURES) -> list[ParameterSet]:
    """Return the lines of a fixture as parameters; blank lines and those that begin with # are for the reader."""
    made = []
    for line, text in enumerate((folder / name).read_text(encoding="utf-8").splitlines(), 1):
        if text.strip() and not text.startswith("#"):
            columns = tuple(column.strip() for column in text.split(" | "))
            made.append(pytest.param(Case(line, columns), id=f"{name}:{line}"))
    return made
