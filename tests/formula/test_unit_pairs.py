"""What stands for a quantity in the other system: by published factors, no more and no less exact than the original."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from builder import layers, settings
from builder.formula import Pair, make_pairs, unit
from builder.formula.pairs import decimals
from builder.model.records.units import Counterpart, UnitSettings
from tests.formula.cases import Case, cases
from tests.site.building import ROOT

PAIRS, PROBLEMS = settings.unit_pairs(layers.choose(("supplied",), ROOT).layers)
PUBLISHED = {
    # NIST SP 811 (2008), appendix B.8; exact but for psi, which is printed to seven figures.
    ("mm", "inch"): 1 / Fraction("25.4"),
    ("cm", "inch"): 1 / Fraction("2.54"),
    ("um", "thou"): 1 / Fraction("25.4"),
    ("m", "ft"): 1 / Fraction("0.3048"),
    ("m**2", "ft**2"): 1 / Fraction("0.09290304"),
    ("cm**2", "inch**2"): 1 / Fraction("6.4516"),
    ("kg", "lb"): 1 / Fraction("0.45359237"),
    ("g", "oz"): 1 / Fraction("28.349523125"),
    ("N", "lbf"): 1 / Fraction("4.4482216152605"),
    ("MPa", "psi"): 1000000 / Fraction("6894.757"),
    ("bar", "psi"): 100000 / Fraction("6894.757"),
    ("liter", "gallon"): 1 / Fraction("3.785411784"),
    ("ml", "fluid_ounce"): 128 / Fraction("3785.411784"),
    ("delta_degC", "delta_degF"): Fraction("1.8"),
    ("N*m", "lbf*ft"): 1 / (Fraction("4.4482216152605") * Fraction("0.3048")),
}
numbers = st.builds(
    lambda whole, places: f"{whole / 10**places:.{places}f}", st.integers(-10**7, 10**7), st.integers(0, 4)
)


def pair_of(own: str, other: str, least: int | None) -> Pair:
    first, second = unit(own), unit(other)
    assert first is not None
    assert second is not None
    return Pair(first, second, "us", least)


@pytest.mark.parametrize("case", cases("unit_pairs.txt"))
def test_what_is_said(case: Case) -> None:
    number, own, other, least, said, _ = case.columns
    pair = pair_of(own, other, None if least == "-" else int(least))
    assert pair.text(Fraction(number), decimals(number)) == said


@pytest.mark.parametrize(("own", "other"), PUBLISHED)
def test_factors_are_the_published_ones(own: str, other: str) -> None:
    factor = PUBLISHED[own, other]
    assert PAIRS[own].other.name == other
    assert float(PAIRS[own].convert(Fraction(1))) == pytest.approx(float(factor), rel=1e-7 if other == "psi" else 1e-12)


def test_the_supplied_pairs_are_sound_and_lead_both_ways() -> None:
    assert PROBLEMS == ()
    assert {pair.to for pair in PAIRS.values()} == {"metric", "us"}
    for pair in PAIRS.values():
        assert pair.other.name in PAIRS, "a reader of the other system could not write it"
        assert PAIRS[pair.other.name].to != pair.to


@given(numbers, st.sampled_from(sorted(PAIRS)))
def test_no_more_and_no_less_exact_than_the_original(number: str, name: str) -> None:
    pair = PAIRS[name]
    said = pair.text(Fraction(number), decimals(number))
    own_last = Fraction(10) ** -decimals(number)
    last = own_last * pair.own.factor / pair.other.factor
    shown = Fraction(10) ** -pair.places(decimals(number))
    assert shown <= last, "coarser than the original"
    assert pair.least is not None or shown * 10 > last, "ten times finer than the original"
    # Read back, it lies within half of the original's last digit: that much a limit may be off, and no more.
    back = (Fraction(said) * pair.other.factor + pair.other.offset - pair.own.offset) / pair.own.factor
    assert abs(back - Fraction(number)) <= own_last / 2


@given(numbers, numbers, st.sampled_from(sorted(PAIRS)))
def test_what_is_more_is_never_said_to_be_less(one: str, other: str, name: str) -> None:
    pair, places = PAIRS[name], max(decimals(one), decimals(other))
    low, high = sorted((Fraction(one), Fraction(other)))
    assert Fraction(pair.text(low, places)) <= Fraction(pair.text(high, places))


@given(numbers, st.sampled_from(sorted(PAIRS)))
def test_a_limit_that_is_said_to_be_admitted_is_admitted(number: str, name: str) -> None:
    pair, exact = PAIRS[name], PAIRS[name].convert(Fraction(number))
    low, high = (Fraction(pair.limit(number, is_lower=is_lower)) for is_lower in (True, False))
    assert high <= exact <= low
    assert low - high <= max(abs(exact) / 1000, Fraction(1, 10**6))


@given(numbers, st.sampled_from(sorted(PAIRS)))
def test_a_starting_value_is_told_to_four_figures_at_least(number: str, name: str) -> None:
    exact = PAIRS[name].convert(Fraction(number))
    assert abs(Fraction(PAIRS[name].entry(number)) - exact) <= max(abs(exact) / 1000, Fraction(1, 10**6))


def test_a_pair_without_a_fault_is_kept_beside_one_with() -> None:
    rows = (Counterpart(unit="mm", as_="inch"), Counterpart(unit="kg", as_="psi"), Counterpart(unit="mm", as_="ft"))
    pairs, faults = make_pairs(UnitSettings(to_us=rows, to_metric=(), same=("h",)))
    assert list(pairs) == ["mm"]
    assert [fault.path for fault in faults] == [("to_us", 1, "as"), ("to_us", 2, "unit")]
