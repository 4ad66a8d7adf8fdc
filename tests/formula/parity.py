"""From random numbers nested formulas and what Python makes of them, with the script that must make the same.

`batch` is the entry point. A case is exact where both languages must agree to the last bit. Functions that two
languages round differently take exact values only, and nothing is decided by what they give: a difference in the last
bit, divided by or compared with, would grow as large as one likes and test the numbers, not the book.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from functools import cache
from random import Random
from typing import Any, NamedTuple

from pydantic import TypeAdapter

from builder.formula import Fault, Kind, NoAnswer, Value, choice, compile_table, number, parse
from builder.formula.check import Scope, check
from builder.formula.evaluate import evaluate, worker_of
from builder.formula.javascript import emit, table_data, text
from builder.formula.lookup import LookupTable
from builder.model.expression import TABLE, Call, Expression, UnitName, children
from builder.model.records.table import Table

NAMES = ("a", "b", "c", "lost")
KINDS: dict[str, Kind] = {**dict.fromkeys(NAMES, number()), "k": choice(["lap", "butt"])}
TELLING = (0.0, 1.0, -1.0, 2.0, 0.1, 0.5, 2.5, 3.0, 24.0, 960.0, -273.15, 1e-9, 1e300, -1e300, 5e-324)
_TABLE = {
    "title": "Steps", "sources": ["made-up"],
    "keys": {"joint": {"say": "Joint", "match": "exact"}, "size": {"say": "Size", "match": "up"},
             "heat": {"say": "Heat", "match": "between"}},
    "columns": {"x": {"say": "X"}},
    "rows": [{"joint": joint, "size": size, "heat": heat, "x": cell} for joint, size, heat, cell in (
        ("lap", "1", "0", "0.1"), ("lap", "1", "2", "0.7"), ("lap", "1", "24", "3.3"), ("lap", "3", "-1", "5"),
        ("lap", "3", "1", "-"), ("lap", "3", "960", "6.1"), ("butt", "2.5", "0", "7"), ("butt", "2.5", "2.5", "8.9"),
    )],
}  # fmt: skip


class Example(NamedTuple):
    """A formula and the values it is worked out with."""

    formula: str
    values: Mapping[str, Value]
    exact: bool


@cache
def steps() -> LookupTable:
    """The table that formulas here look into, as `steps`."""
    found = compile_table(TypeAdapter(Table).validate_python(_TABLE)).table
    assert found is not None
    return found


def tables_script() -> str:
    """The same table as a script's data."""
    return text({"steps": table_data(steps())})


def example(random: Random) -> Example:
    """Make one case up."""
    is_exact = random.random() < 0.7
    made = _exact(random, random.randint(1, 4)) if is_exact else _loose(random, random.randint(1, 3))
    values: dict[str, Value] = {name: _value(random) for name in NAMES}
    values["k"] = random.choice(["lap", "butt"])
    values["lost"] = NoAnswer("it is unknown")
    return Example(made, values, is_exact)


def batch(chosen: int | Iterable[Example], count: int = 500) -> list[dict[str, Any]]:
    """Work cases out in Python: `js`, a function of values, `F` and tables; `inputs`; `expected`; `exact`; `largest`.

    `chosen` is a seed, or the examples themselves. No answer is `{"why": ...}` in inputs and expected; `largest` is the
    size of the largest value on the way, by which inexact cases are judged.
    """
    if isinstance(chosen, int):
        random = Random(chosen)
        chosen = [example(random) for _ in range(count)]
    return [_worked_out(one) for one in chosen]


def _worked_out(one: Example) -> dict[str, Any]:
    tables = {"steps": steps()}
    tree = parse(one.formula)
    assert not isinstance(tree, Fault), (one.formula, tree)
    _, faults = check(tree, Scope(KINDS, tables))
    assert not faults, (one.formula, faults)
    found = evaluate(worker_of(tree, tables), one.values)
    return {
        "formula": one.formula,
        "js": f"function (v, F, t) {{ return {emit(tree, {'lost'})}; }}",
        "inputs": {name: told(value) for name, value in one.values.items()},
        "expected": told(found),
        "exact": one.exact,
        "largest": max(_sizes(tree, one.values, tables), default=0.0),
    }


def told(value: Value) -> Any:
    """Return a value as JSON holds it."""
    return {"why": value.why} if isinstance(value, NoAnswer) else value


def _sizes(node: Expression, values: Mapping[str, Value], tables: Mapping[str, LookupTable]) -> Iterable[float]:
    if isinstance(node, UnitName):
        return
    found = evaluate(worker_of(node, tables), values)
    if isinstance(found, float):
        yield abs(found)
    below = children(node)
    for child in below[2:] if isinstance(node, Call) and node.function == TABLE else below:
        yield from _sizes(child, values, tables)


def _value(random: Random) -> float:
    sort = random.random()
    if sort < 0.5:
        return random.choice(TELLING)
    return float(random.randint(-50, 50)) if sort < 0.7 else round(random.uniform(-1000, 1000), random.randint(0, 9))


def _exact(random: Random, depth: int) -> str:
    """A number both languages agree on to the last bit."""
    if depth == 0:
        return random.choice(["a", "b", "c", "a", "b", "c", "lost", "0", "1", "2", "0.1", "1e-10", "1e3", "pi"])
    one, other = (_exact(random, depth - 1) for _ in range(2))
    sort = random.randrange(9)
    if sort < 3:
        return f"({one} {random.choice('+-*/')} {other})"
    if sort == 3:
        return f"{random.choice(['abs', 'floor', 'ceil', 'round', 'sqrt', '-'])}({one})"
    if sort == 4:
        return f"{random.choice(['min', 'max', 'median'])}({one}, {other}, {_exact(random, depth - 1)})"
    if sort == 5:
        return f"table(steps, x, k, {one}, {other})"
    if sort == 6:
        unit = random.choice(["mm", "inch", "degC", "degF", "percent", "degree", '"kJ/mm"', '"1/min"'])
        return f"in_unit(with_unit({one}, {unit}), {unit})"
    return f"({one} if {_truth(random, depth - 1)} else {other})"


def _truth(random: Random, depth: int) -> str:
    sort = random.randrange(4 if depth else 2)
    if sort == 0:
        return f"(k {random.choice(['==', '!='])} '{random.choice(['lap', 'butt'])}')"
    if sort == 1:
        sign = random.choice(["<", "<=", ">", ">=", "==", "!="])
        return f"({_exact(random, depth)} {sign} {_exact(random, depth)})"
    if sort == 2:
        return f"(not {_truth(random, depth - 1)})"
    return f"({_truth(random, depth - 1)} {random.choice(['and', 'or'])} {_truth(random, depth - 1)})"


def _loose(random: Random, depth: int) -> str:
    """A number both languages agree on within 1e-9 of the largest value on the way."""
    if depth == 0:
        one, other = (_exact(random, 1) for _ in range(2))
        name = random.choice(["exp", "ln", "log10", "sin", "cos", "tan", "atan2", "**", "** 3"])
        made = {"atan2": f"atan2({one}, {other})", "**": f"({one}) ** ({other})", "** 3": f"({one}) ** 3"}
        return made.get(name, f"{name}({one})")
    one = _loose(random, depth - 1)
    sort = random.randrange(4)
    if sort == 0:
        return f"({one} {random.choice('+-*')} {_loose(random, depth - 1)})"
    if sort == 1:
        return f"{random.choice(['abs', '-'])}({one})"
    if sort == 2:
        return f"{random.choice(['min', 'max', 'median'])}({one}, {_exact(random, 1)}, {_loose(random, depth - 1)})"
    return f"({one} if {_truth(random, 1)} else {_exact(random, 1)})"
