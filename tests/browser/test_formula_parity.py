"""What Python and Chromium make of the same formulas: bit for bit where that is promised, and "no answer" alike.

The rest agrees within 1e-9 of the largest value on the way (DESIGN, section 3). The scripts are those the book ships.
"""

from __future__ import annotations

from collections import Counter
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, Phase, example, given, settings
from playwright.sync_api import Browser, Page

from builder.formula import NoAnswer, Value, emit_calculator, run
from tests.browser.straight_lines import INPUTS, Lines, compiled, straight_lines
from tests.sweeps import is_soak

pytestmark = pytest.mark.slow
RUN = """(many) => {
  const plain = (value) => value instanceof seambook.formula.NoAnswer ? {why: value.why} : value;
  return many.map((given) => {
    const {values, faults} = seambook.formula.run(seambook.calculators.lines, given);
    const all = Object.entries(values).map(([name, value]) => [name, plain(value)]);
    return {values: Object.fromEntries(all), faults: Object.keys(faults).sort()};
  });
}"""
REASONS = (
    "division by zero", "root of a negative number", "logarithm of a number not above zero",
    "power of a negative number", "the number is too large", "outside the table",
)  # fmt: skip

NO_ANSWERS = Lines(
    {"by_zero": "a / (b - b)", "root": "sqrt(0 - c)", "log": "ln(0 - c)", "power": "(0 - c) ** (1 / 2)",
     "large": "exp(c * 1000)", "off": "table(steps, x, 1000)"},
    dict.fromkeys(("by_zero", "root", "log", "power", "large", "off"), "bare"), {"log", "power", "large"},
)  # fmt: skip
"""Each reason once: what else is drawn changes with the library's version and with the code it looks into."""


@pytest.fixture(scope="module")
def page(chromium: Browser, site: Path) -> Page:
    """An empty page with the book's scripts; it has no policy, so that a test may hand it a program."""
    paths = [f"{site.name}/assets/js/{name}.js" for name in ("numbers", "working")]
    scripts = "".join(f'<script src="{path}"></script>' for path in paths)
    bench = site.parent / "bench.html"
    bench.write_text(f"<!DOCTYPE html><title>bench</title>{scripts}", "utf-8")
    page = chromium.new_context(offline=True).new_page()
    page.goto(bench.as_uri())
    return page


def both(page: Page, lines: Lines, inputs: list[dict[str, str]]) -> list[tuple[dict[str, Any], dict[str, Any]]]:
    """What Python and the page answer to each set of inputs: values by name, and inputs refused."""
    program = compiled(lines)
    page.evaluate(f"() => {{ {emit_calculator(program)} }}")
    shown = page.evaluate(RUN, inputs)
    found = []
    for one, other in zip(inputs, shown, strict=True):
        answer = run(program, one)
        values = {name: _plain(value) for name, value in answer.values.items()}
        found.append(({"values": values, "faults": sorted(str(fault.path[-1]) for fault in answer.faults)}, other))
    return found


def _plain(value: Value) -> object:
    return {"why": value.why} if isinstance(value, NoAnswer) else value


def differing(lines: Lines, python: dict[str, Any], script: dict[str, Any]) -> list[tuple[str, str, Any, Any]]:
    """The lines whose values differ by more than they may."""
    if python["faults"] != script["faults"] or python["values"].keys() != script["values"].keys():
        return [("faults", "", python, script)]
    numbers = [abs(value) for value in python["values"].values() if isinstance(value, float)]
    room = 1e-9 * max(numbers, default=0.0)
    found = []
    for name, value in python["values"].items():
        other = script["values"][name]
        if type(other) is int:  # a whole number comes as one, in the digits that mean this float and no other
            other = float(other)
        is_close = name in lines.loose and isinstance(value, float) and isinstance(other, int | float)
        if value != other and not (is_close and abs(value - other) <= room):
            found.append((name, lines.work.get(name, "input"), value, other))
    return found


def test_python_and_chromium_agree(page: Page) -> None:
    seen: Counter[str] = Counter()

    @settings(
        max_examples=250 if is_soak() else 60, deadline=None, derandomize=True, database=None,
        phases=(Phase.explicit, Phase.generate, Phase.shrink), suppress_health_check=list(HealthCheck),
    )  # fmt: skip
    @example((NO_ANSWERS, [dict.fromkeys(INPUTS, "1")]))
    @given(straight_lines())
    def agree(made: tuple[Lines, list[dict[str, str]]]) -> None:
        lines, inputs = made
        for python, script in both(page, lines, inputs):
            assert differing(lines, python, script) == []
            for name, value in python["values"].items():
                seen["no answer" if isinstance(value, dict) else "loose" if name in lines.loose else "exact"] += 1
                seen[value["why"].partition(":")[0] if isinstance(value, dict) else ""] += 1

    agree()
    # Else it compared less than it says.
    assert all(seen[sort] > (100 if is_soak() else 24) for sort in ("exact", "loose", "no answer")), seen
    assert all(seen[reason] for reason in REASONS), seen


@pytest.mark.parametrize(("length", "pitch"), [
    ("960 mm", "40 mm"), ("0.96 m", "40 mm"), ("96 cm", "4 cm"), ("960", "0.04 m"), ("37.79527559055118 inch", "40 mm"),
])  # fmt: skip
def test_the_floor_trap(page: Page, length: str, pitch: str) -> None:
    # 960 mm at 40 mm is 24 spaces and 25 welds, though 0.96 / 0.04 is 23.999999999999996 in binary.
    lines = Lines({"welds": "floor(l / m) + 1"}, {"welds": "bare", "l": "length", "m": "length"})
    inputs = {**dict.fromkeys("abctu", "1"), "l": length, "m": pitch}
    [(python, script)] = both(page, lines, [inputs])
    assert (python["values"]["welds"], script["values"]["welds"]) == (25, 25)


@pytest.mark.parametrize(("text", "value"), [
    # IEEE 754 doubles, worked out by hand or plain arithmetic, not by either target
    ("a / 0", None), ("sqrt(0 - a)", None), ("ln(a - a)", None), ("(0 - a) ** (1 / 2)", None), ("exp(a * 1000)", None),
    ("1 if a / 0 > 1 else 2", None), ("2 ** 10", 1024), ("-2 ** 2", -4), ("floor(0 - 1 / 2 * a)", -1),
    ("round(0 - (2 + 2 + 1) / 2 * a)", -3), ("round((2 + 2 + 1) / 2 * a)", 3), ("ceil(0 - 1 / 2 * a)", 0),
    ("min(a, 2, 0)", 0), ("atan2(0, 0 - a)", 3.141592653589793), ("0.1 + 0.1 + 0.1", 0.30000000000000004),
    ("1 if a / 0 > 1 or a == 1 else 2", 1), ("1 if a / 0 > 1 and a == 2 else 2", 2),
])  # fmt: skip
def test_known_traps(page: Page, text: str, value: float | None) -> None:
    lines = Lines({"x": text}, {"x": "bare"})
    [(python, script)] = both(page, lines, [dict.fromkeys("abclmtu", "1")])
    for side in (python, script):
        found = side["values"]["x"]
        assert (set(found) == {"why"}) if value is None else found == value, (text, found)
