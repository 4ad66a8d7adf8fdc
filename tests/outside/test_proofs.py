"""Every calculator of the supplied library agrees with the published figures that stand in its own record."""

from collections.abc import Mapping

from builder.formula import Program, prove

FIRST = {"dew-point", "sheet-gauge", "bend", "spot-layout", "bead", "coverage", "ram-force", "noise-dose"}


def test_the_calculators_are_there_with_two_proofs_each(programs: Mapping[str, Program]) -> None:
    assert set(programs) >= FIRST
    assert [name for name, program in programs.items() if len(program.proofs) < 2] == []


def test_their_proofs_hold(programs: Mapping[str, Program]) -> None:
    assert [(name, fault.message) for name, program in programs.items() for fault in prove(program)] == []
