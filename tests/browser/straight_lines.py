"""Random straight-line programs in the formula language: each line one operation on what stands above it.

So every intermediate value has a name and can be compared by itself. A line is exact where both targets must agree to
the last bit: all operations down to it are marked exact in the table of functions, and take exact values.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from typing import Any

from hypothesis import strategies as st
from pydantic import TypeAdapter

from builder.formula import Program, compile_calculator
from builder.model.records.calculator import Calculator
from builder.model.records.table import Table

_TABLE, _CALCULATOR = TypeAdapter(Table), TypeAdapter(Calculator)

INPUTS = {"a": ("bare", None), "b": ("bare", None), "c": ("bare", None), "l": ("length", "mm"), "m": ("length", "inch"),
          "t": ("point", "degC"), "u": ("point", "degF")}  # fmt: skip
"""Name -> sort and the unit it is asked in."""
TABLES = {
    "steps": {"keys": {"k": {"say": "K", "match": "up"}}, "columns": {"x": {"say": "X"}},
              "rows": [{"k": "0", "x": "1"}, {"k": "1", "x": "10"}, {"k": "2.5", "x": "-"}, {"k": "100", "x": "0.3"}]},
    "slopes": {"keys": {"k": {"say": "K", "match": "between"}}, "columns": {"x": {"say": "X"}},
               "rows": [{"k": "-10", "x": "0.1"}, {"k": "0", "x": "0.7"}, {"k": "3", "x": "-"}, {"k": "50", "x": "9"}]},
    "names": {"keys": {"k": {"say": "K", "match": "exact"}}, "columns": {"x": {"say": "X"}},
              "rows": [{"k": "1", "x": "7"}, {"k": "0.1", "x": "8"}, {"k": "24", "x": "9"}]},
}  # fmt: skip

# Result, operands, text, is it exact, and must its operands be exact: where a last bit decides (a whole number, a
# limit, a sign), operands that agree to 1e-9 only would prove nothing.
EXACT = [
    ("bare", ("bare", "bare"), "{} + {}"), ("bare", ("bare", "bare"), "{} - {}"), ("bare", ("bare", "bare"), "{} * {}"),
    ("bare", ("bare", "bare"), "{} / {}"), ("bare", ("bare",), "-{}"), ("bare", ("bare",), "sqrt({})"),
    ("bare", ("bare",), "sqrt(abs({}))"), ("bare", ("bare",), "floor({})"), ("bare", ("bare",), "ceil({})"),
    ("bare", ("bare",), "round({})"), ("bare", ("bare", "bare"), "min({}, {})"),
    ("bare", ("bare", "bare", "bare"), "max({}, {}, {})"), ("bare", ("bare", "bare", "bare"), "median({}, {}, {})"),
    ("bare", ("bare", "bare", "bare", "bare"), "median({}, {}, {}, {})"), ("bare", ("bare",), "abs({})"),
    ("bare", ("bare",), "{} * pi"), ("bare", ("bare",), "{} / 1000"), ("bare", ("bare",), "{} + 1e-10"),
    ("bare", ("length", "length"), "{} / {}"), ("bare", ("length", "length"), "floor({} / {})"),
    ("bare", ("length",), "in_unit({}, ft)"), ("bare", ("length",), "in_unit({}, mm)"),
    ("bare", ("point",), "in_unit({}, degF)"), ("bare", ("point", "point"), "in_unit({} - {}, delta_degC)"),
    ("bare", ("truth", "bare", "bare"), "{1} if {0} else {2}"),
    ("bare", ("bare",), "table(steps, x, {})"), ("bare", ("bare",), "table(slopes, x, {})"),
    ("bare", ("bare",), "table(names, x, {})"),
    ("length", ("length", "length"), "{} + {}"), ("length", ("length", "length"), "{} - {}"),
    ("length", ("length", "bare"), "{} * {}"), ("length", ("bare",), "with_unit({}, mm)"),
    ("length", ("bare",), "with_unit({}, yard)"), ("length", ("length", "length"), "sqrt({} * {})"),
    ("length", ("truth", "length", "length"), "{1} if {0} else {2}"),
    ("point", ("bare",), "with_unit({}, degF)"), ("point", ("point", "point"), "max({}, {})"),
    ("truth", ("bare", "bare"), "{} < {}"), ("truth", ("bare", "bare"), "{} >= {}"),
    ("truth", ("length", "length"), "{} <= {}"), ("truth", ("point", "point"), "{} > {}"),
    ("truth", ("bare", "bare"), "{} == {}"), ("truth", ("bare", "bare"), "{} != {}"), ("truth", ("truth",), "not {}"),
    ("truth", ("truth", "truth"), "{} and {}"), ("truth", ("truth", "truth"), "{} or {}"),
]  # fmt: skip
LOOSE = [
    ("bare", ("bare",), "exp({})"), ("bare", ("bare",), "ln({})"), ("bare", ("bare",), "log10({})"),
    ("bare", ("bare",), "ln(abs({}))"), ("bare", ("bare",), "sin({})"), ("bare", ("bare",), "cos({})"),
    ("bare", ("bare",), "tan({})"), ("bare", ("bare", "bare"), "atan2({}, {})"), ("bare", ("bare", "bare"), "{} ** {}"),
    ("bare", ("bare",), "{} ** 3"), ("bare", ("length", "length"), "atan2({}, {})"),
]  # fmt: skip
ON_LOOSE = [
    ("bare", ("bare", "bare"), "{} + {}"), ("bare", ("bare", "bare"), "{} - {}"), ("bare", ("bare",), "-{}"),
    ("bare", ("bare",), "abs({})"), ("bare", ("bare", "bare"), "max({}, {})"),
    ("length", ("bare",), "with_unit({}, mm)"),
]  # fmt: skip


@dataclass
class Lines:
    """A program as it grows."""

    work: dict[str, str] = field(default_factory=dict)
    sorts: dict[str, str] = field(default_factory=lambda: {name: sort for name, (sort, _) in INPUTS.items()})
    loose: set[str] = field(default_factory=set)

    def known(self, sort: str, *, exact: bool) -> list[str]:
        """The names of this sort, those that are exact or all; the newest first, so that chains grow."""
        found = [name for name, one in self.sorts.items() if one == sort and not (exact and name in self.loose)]
        return found[::-1]


TELLING = ("0", "1", "-1", "2", "0.1", "24", "0.04", "0.96", "960", "40", "1e-9", "-273.15", "1e300", "3.5", "-2.5")
NUMBERS = st.one_of(
    st.sampled_from(TELLING),
    st.integers(-1000, 1000).map(str),
    st.builds("{}.{:09d}".format, st.integers(-100, 100), st.sampled_from([1, 2, 999999999, 999999998, 500000000])),
    st.decimals(-1000, 1000, places=3).map(str),
    st.floats(-1e6, 1e6).map(lambda value: f"{value:.15f}"),
    st.builds("{}/{}".format, st.integers(0, 50), st.integers(1, 64)),
)  # fmt: skip


@st.composite
def straight_lines(draw: Callable[..., Any]) -> tuple[Lines, list[dict[str, str]]]:
    """A program, and several sets of inputs for it."""
    lines = Lines()
    for at in range(draw(st.integers(3, 14))):
        sort = draw(st.sampled_from(["exact", "exact", "exact", "loose", "on loose"]))
        rows = {"exact": EXACT, "loose": LOOSE, "on loose": ON_LOOSE}[sort]
        result, operands, text = draw(st.sampled_from(rows))
        known = [lines.known(one, exact=sort != "on loose") for one in operands]
        if all(known):
            chosen = [draw(st.sampled_from(names)) for names in known]
            name = f"v{at}"
            lines.work[name] = text.format(*chosen)
            lines.sorts[name] = result
            if sort == "loose" or lines.loose.intersection(chosen):
                lines.loose.add(name)
    given = st.fixed_dictionaries(dict.fromkeys(INPUTS, NUMBERS))
    return lines, draw(st.lists(given, min_size=1, max_size=4))


def compiled(lines: Lines) -> Program:
    """The program compiled; that no line of it is refused is part of the test."""
    shown = {name: {"say": name} for name, sort in lines.sorts.items() if sort == "bare" and name in lines.work}
    work = {"zero": "a - a", **lines.work}
    asked = {name: {"ask": name, "start": "1"} | ({"unit": unit} if unit else {}) for name, (_, unit) in INPUTS.items()}
    record = {
        "title": "Lines", "asks": "What comes out?", "inputs": asked, "work": work,
        "outputs": shown or {"zero": {"say": "zero"}},
        "tables": {name: name for name in TABLES}, "warnings": "none", "sources": ["made-up"],
        "proofs": [{"given": dict.fromkeys(INPUTS, "1"), "expect": dict.fromkeys(shown or ["zero"], "no answer"),
                    "source": "made-up"}],
    }  # fmt: skip
    rest = {"title": "T", "sources": ["made-up"]}
    tables = {name: _TABLE.validate_python(table | rest) for name, table in TABLES.items()}
    program, faults = compile_calculator(_CALCULATOR.validate_python(record), tables, "lines")
    assert program is not None, faults
    return program
