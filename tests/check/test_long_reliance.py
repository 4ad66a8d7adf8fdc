"""Procedures that rely on one another in a chain as long as a book are walked without running out of stack."""

from __future__ import annotations

from builder.check import check_procedure
from builder.model.reference import Ref
from tests.check.little import little_law, locate, steps_of, summary
from tests.check.test_check_relies import WELD

LENGTH = 3000


def test_a_chain_brings_its_first_state_along() -> None:
    last = LENGTH - 1
    chain = [
        summary(Ref("procedure", f"p{at}"), steps_of("prime a > air body" if at == last else "air body"),
                () if at == last else (f"p{at + 1}",))
        for at in range(LENGTH)
    ]  # fmt: skip
    first = summary(Ref("procedure", "first"), steps_of(WELD), ("p0",))
    assert check_procedure(first.ref, little_law(first, *chain), locate) == ()
