"""A program -> what no longer agrees with its proofs, whether it works on single values or on a table of points."""

from __future__ import annotations

from builder.formula.fault import Fault
from builder.formula.points.answers import prove_points
from builder.formula.program import Program
from builder.formula.run import prove as prove_values


def prove(program: Program) -> tuple[Fault, ...]:
    """Work every proof out again; return a fault for each number that differs by more than the proof's tolerance."""
    return prove_values(program) if program.points is None else prove_points(program)
