"""A chart's samples: even, finer where a line bends, jumps or ends, and no more than a phone can work out."""

from __future__ import annotations

import math
from typing import Any

import pytest
from pydantic import TypeAdapter

from builder.formula import Program, compile_calculator, run
from builder.formula.series import MOST_SAMPLES, series
from builder.model.plots import Series
from builder.model.records.calculator import Calculator


def program(work: dict[str, str], chart: dict[str, Any], **inputs: dict[str, Any]) -> Program:
    record = {
        "title": "Made up", "asks": "What?", "inputs": inputs, "work": work,
        "outputs": {name: {"say": name} for name in work},
        "charts": {"one": {"say": "One", **chart}}, "warnings": "none", "sources": ["made-up"],
        "proofs": [{"given": {name: one["start"] for name, one in inputs.items()}, "expect": dict.fromkeys(work, "0"),
                    "within": "1e300", "source": "made-up"}],
    }  # fmt: skip
    compiled = compile_calculator(TypeAdapter(Calculator).validate_python(record), {}, "made-up")
    assert compiled.program is not None, compiled.faults
    return compiled.program


def sampled(work: dict[str, str], at: str = "1", **input_: Any) -> Series:
    """Sample from 0 to 10 over x, all formulas together."""
    chart = {"over": "x", "from": "0", "to": "10", "show": list(work)}
    made = program(work, chart, x={"ask": "X", "start": "1", **input_})
    return series(made, made.charts["one"], run(made, {"x": at}).values)


def test_a_straight_line_needs_no_more_than_even_samples() -> None:
    found = sampled({"y": "2 * x + 1"})
    assert [sample.x for sample in found.samples] == pytest.approx([0.25 * cut for cut in range(41)])
    assert [sample.ys[0] for sample in found.samples] == pytest.approx([2 * sample.x + 1 for sample in found.samples])
    assert (found.here, found.given, found.why) == ((1.0, (3.0,)), 1.0, ("",))


def test_a_bend_is_followed_to_a_part_of_what_the_line_spans() -> None:
    found = sampled({"y": "sqrt(x)"})
    assert 41 < len(found.samples) <= MOST_SAMPLES
    for one, other in zip(found.samples, found.samples[1:], strict=False):
        first, last = one.ys[0], other.ys[0]
        assert first is not None
        assert last is not None
        assert abs(math.sqrt((one.x + other.x) / 2) - (first + last) / 2) <= math.sqrt(10) / 300 * 1.001


def test_where_an_answer_begins_is_found_closely_and_why_there_is_none_is_told() -> None:
    found = sampled({"y": "sqrt(x - 2 - 0.1 - 0.01 - 0.01 - 0.01)"}, at="5")
    none = [sample.x for sample in found.samples if sample.ys[0] is None]
    some = [sample.x for sample in found.samples if sample.ys[0] is not None]
    edge = 2 + 0.1 + 0.01 + 0.01 + 0.01
    assert max(none) < edge <= min(some)
    assert min(some) - max(none) < 0.001
    assert found.why == ("root of a negative number",)


def test_a_jump_stays_a_jump() -> None:
    found = sampled({"y": "floor(x / 2)"})
    rises = [(one, other) for one, other in zip(found.samples, found.samples[1:], strict=False) if one.ys != other.ys]
    assert [(one.ys[0], other.ys[0]) for one, other in rises] == [(0, 1), (1, 2), (2, 3), (3, 4), (4, 5)]
    assert all(other.x - one.x < 0.01 for one, other in rises[:4])


def test_an_input_that_counts_is_sampled_at_whole_numbers_alone() -> None:
    found = sampled({"y": "x ** 2"}, whole="yes")
    assert found.stepped
    assert [(sample.x, sample.ys[0]) for sample in found.samples] == [(x, x * x) for x in range(11)]
    assert [sample.x for sample in found.rows] == list(range(0, 11, 2))


def test_no_line_asks_for_more_than_a_phone_can_work_out() -> None:
    found = sampled({"y": "sin(x * 100)", "z": "1 / (x - 10 / 100)", "w": "floor(x * 100)"})
    assert len(found.samples) <= MOST_SAMPLES


def test_a_value_beyond_the_chart_has_no_point() -> None:
    found = sampled({"y": "x"}, at="11")
    assert found.here is None
    assert found.given == 11
