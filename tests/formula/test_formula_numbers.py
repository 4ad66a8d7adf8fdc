"""Numbers as people write them, and as they are shown."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from builder.formula.numbers import exact, fixed, plain, read_written, to_float
from tests.formula.cases import Case, cases


@pytest.mark.parametrize("case", cases("written.txt"))
def test_written(case: Case) -> None:
    text, wanted = case.columns
    found = read_written(text)
    if wanted.startswith("!"):
        assert isinstance(found, str)
        assert wanted[2:] in found
    else:
        assert not isinstance(found, str)
        assert f"{found.number} {found.unit}".strip() == wanted


@pytest.mark.parametrize(
    ("value", "digits", "shown"),
    [(2.675, 2, "2.68"), (0.5, 0, "1"), (2.5, 0, "3"), (-0.04, 1, "0.0"), (-0.05, 1, "-0.1"), (1e21, 0, "1" + "0" * 21),
     (1e-7, 3, "0.000"), (0.1 + 0.2, 20, "0.30000000000000004000"), (-0.0, 0, "0"), (12.0, 1, "12.0")],
)  # fmt: skip
def test_fixed(value: float, digits: int, shown: str) -> None:
    assert fixed(value, digits) == shown


@pytest.mark.parametrize(
    ("value", "shown"),
    [(5.0, "5"), (0.1 + 0.2, "0.3"), (1234567.0, "1234567"), (123456.7, "123457"), (0.000123456789, "0.000123457"),
     (0.0, "0"), (-2.50, "-2.5"), (100.0, "100"), (1e-12, "0.000000000001")],
)  # fmt: skip
def test_plain(value: float, shown: str) -> None:
    assert plain(value) == shown


@given(st.floats(allow_nan=False, allow_infinity=False))
def test_exact_reads_back(value: float) -> None:
    assert to_float(exact(value)) == value
