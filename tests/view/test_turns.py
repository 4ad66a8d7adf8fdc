"""The order in which marks are made, as an answer says it."""

from __future__ import annotations

import pytest

from builder.view.turns import turns_of
from tests.formula.node import ASSETS, run_node


@pytest.mark.parametrize(("order", "turns"), [
    ("1, 12; 6; 3, 9", (1, 0, 4, 0, 0, 3, 0, 0, 5, 0, 0, 2)), ("Turn about: 2, 1.", (2, 1)), ("", ()), ("7", ()),
    ("From one end to the other.", ()), ("3 mm first, then 2, 4; 1", (3, 1, 0, 2)), ("1, 1, 2", (1, 3)),
    ("0, 1, 2", ()), ("1, 1001", ()),
])  # fmt: skip
def test_each_mark_has_its_turn(order: str, turns: tuple[int, ...]) -> None:
    assert turns_of(order) == turns
    scripts = [ASSETS / f"{name}.js" for name in ("numbers", "turns")]
    assert tuple(run_node(f"return seambook.turnsOf({order!r});", scripts)) == turns
