"""Every calculator of the supplied library agrees with the published figures that stand in its own record."""

import pytest

from builder.formula import prove
from tests.outside.conftest import CONTENT, program

NAMES = sorted(path.stem for path in (CONTENT / "calculators").glob("*.yaml"))


def test_there_are_calculators() -> None:
    assert len(NAMES) >= 8


@pytest.mark.parametrize("name", NAMES)
def test_its_proofs_hold(name: str) -> None:
    found = program(name)
    assert len(found.proofs) >= 2
    assert [fault.message for fault in prove(found)] == []
