"""What a page says of a quantity in both systems, whichever it shows first."""

from __future__ import annotations

import pytest

from builder.formula import make_pairs
from builder.formula.pairs import System
from builder.model.quantity import Quantity
from builder.model.records.units import Counterpart, UnitSettings
from builder.model.said import Said, joined, said
from builder.view.quantities import Units

PAIRS, _ = make_pairs(UnitSettings(
    to_us=(
        Counterpart(unit="mm", as_="inch"), Counterpart(unit="degC", as_="degF"),
        Counterpart(unit="delta_degC", as_="delta_degF", places=1), Counterpart(unit="micrometer", as_="thou"),
    ),
    to_metric=(Counterpart(unit="inch", as_="mm"),), same=("min",),
))  # fmt: skip
METRIC, US = Units(PAIRS, "metric"), Units(PAIRS, "us")


@pytest.mark.parametrize(
    ("quantity", "metric", "us"),
    [
        (Quantity("0.8", "mm"), "0.8\u00a0mm", "0.031\u00a0in"),
        (Quantity("0.0375", "inch"), "0.953\u00a0mm", "0.0375\u00a0in"),
        (Quantity("20", "degC"), "20\u00a0°C", "68\u00a0°F"),
        (Quantity("3", "delta_degC"), "3\u00a0°C", "5.4\u00a0°F"),
        (Quantity("60", "micrometer"), "60\u00a0µm", "2.36\u00a0mil"),
    ],
)
def test_the_system_of_the_shop_comes_first(quantity: Quantity, metric: str, us: str) -> None:
    assert METRIC.shown(quantity) == Said(metric, us)
    assert US.shown(quantity) == Said(us, metric)


@pytest.mark.parametrize("first", ["metric", "us"])
def test_what_has_no_pair_is_shown_as_it_is(first: System) -> None:
    units = Units(PAIRS, first)
    assert units.shown(Quantity("20", "min")) == Said("20\u00a0min")
    assert units.shown(Quantity("85", "dB")) == Said("85\u00a0dB")
    assert units.shown(None) == Said("unknown")
    assert units.number("-", "mm") == Said("-")
    assert units.limit("3 inch", "mm", is_lower=True) == Said("3 inch")


def test_an_answer_is_converted_before_it_is_rounded() -> None:
    # 12.04 degC is 53.67 degF; the 12.0 that is shown would be 53.6.
    assert METRIC.answer("12.0", "degC", 12.04).other == "53.7\u00a0°F"
    assert METRIC.answer("12.0", "degC", None).other == "53.6\u00a0°F"


def test_texts_are_put_together_in_both() -> None:
    low, high = METRIC.shown(Quantity("2", "mm")), METRIC.shown(Quantity("3.0", "mm"))
    assert said(low, " to ", high, ".") == Said("2\u00a0mm to 3.0\u00a0mm.", "0.08\u00a0in to 0.118\u00a0in.")
    assert joined("; ", ["one", low]) == Said("one; 2\u00a0mm", "one; 0.08\u00a0in")
    assert said("plain", " text") == Said("plain text")
