"""JavaScript: from the same trees that Python runs the plain script a page runs; formula.js holds what it calls.

`emit_calculator` is the entry point; `emit` writes one formula. Everything is in brackets, in base units, without eval.
"""

from __future__ import annotations

import json
from collections.abc import Iterator, Set
from types import MappingProxyType
from typing import Any

from builder.formula.compiling import Step
from builder.formula.evaluate import unit_numbers
from builder.formula.functions import FUNCTIONS, OPERATORS, SIGNS, Form
from builder.formula.inputs import Question, in_words
from builder.formula.kinds import ChoiceKind, TextKind
from builder.formula.lookup import LookupTable
from builder.formula.outputs import Shown
from builder.formula.pairs import Pair, Pairs, offered_with
from builder.formula.plotted import chart_data, sketch_data
from builder.formula.points.compiling import PointTable, measured_kinds
from builder.formula.points.deviations import BARE, LENGTHS
from builder.formula.points.rows import columns_of
from builder.formula.program import Program
from builder.formula.step_units import NOTHING_USUAL, StepUnit, Usual, step_units
from builder.formula.unit_data import unit_data
from builder.formula.units import Unit, offered_units
from builder.model.expression import Binary, Call, Choice, Conditional, Expression, Name, Number, Unary, UnitName
from builder.model.records.calculator import Input

_TEMPLATE = """\
window.seambook = window.seambook || {{}};
window.seambook.calculators = window.seambook.calculators || {{}};
window.seambook.calculators[{id}] = (function () {{
  "use strict";
  return {{
    id: {id},
    title: {title},
    inputs: {inputs},
    fixed: {fixed},
    tables: {tables},
    steps: [
{steps}
    ],
    outputs: {outputs},
    warnings: [
{warnings}
    ],
    charts: {charts},
    sketch: {sketch}{points}
  }};
}}());
"""


def emit_calculator(
    program: Program, id: str = "", pairs: Pairs = MappingProxyType({}), usual: Usual = NOTHING_USUAL
) -> str:
    """Return the script that puts a calculator into `seambook.calculators`; `id` is the program's own where absent.

    `pairs` says in which unit an input is asked for, and an output shown, in the other system of units; `usual` in
    which unit a step's value is shown where the record has none.
    """
    units = step_units(program, usual)
    # An input may have no answer too, where a plan hands on what is unknown.
    computed = {step.name for step in program.steps} | measured_kinds(program.record).keys() | program.questions.keys()
    warnings = [
        f"      {{level: {text(warned.level)}, say: {text(warned.say)}, "
        f"holds: function (v, F, t) {{ return {emit(warned.condition, computed)}; }}}}"
        for warned in program.warnings
    ]
    return _TEMPLATE.format(
        id=text(id or program.id),
        title=text(program.record.title),
        inputs=text([input_data(program.record.inputs[id_], question, pairs)
                     for id_, question in program.questions.items()]),
        fixed=text(program.fixed),
        tables=text({name: table_data(table) for name, table in program.tables.items()}),
        steps=",\n".join(_step(step, computed, _shown(units.get(step.name), pairs)) for step in program.steps),
        outputs=text(_outputs(program, pairs)),
        warnings=",\n".join(warnings),
        charts=text(chart_data(program)),
        sketch=text(sketch_data(program, pairs)),
        points=f",\n    points: {text(_points(program.points, pairs))}" if program.points is not None else "",
    )


def text(value: Any) -> str:
    """Write data as JavaScript that is safe inside a script element too: ASCII only, no `<`."""
    return json.dumps(value, ensure_ascii=True, allow_nan=False).replace("<", "\\u003c")


def emit(node: Expression, computed: Set[str]) -> str:
    """Write one checked formula; `computed` names what may itself have no answer."""
    match node:
        case Number():
            return text(node.value)
        case Choice():
            return text(node.id)
        case Name():
            return f"F.of(v.{node.name})" if node.name in computed else f"v.{node.name}"
        case Unary():
            return SIGNS[node.operator].javascript.format(emit(node.operand, computed))
        case Binary():
            return OPERATORS[node.operator].javascript.format(emit(node.left, computed), emit(node.right, computed))
        case Conditional():
            parts = (emit(part, computed) for part in (node.condition, node.then, node.otherwise))
            return "({} ? {} : {})".format(*parts)
        case Call():
            return _call(node, computed)
        case UnitName():
            raise AssertionError("a unit stands only inside in_unit and with_unit")


def _call(node: Call, computed: Set[str]) -> str:
    row = FUNCTIONS[node.function]
    if row.form is Form.CONSTANT:
        return row.javascript
    if row.form is Form.TABLE:
        named, column, *asked = node.arguments
        assert isinstance(named, Name)
        assert isinstance(column, Name)
        first = [f"t.{named.name}", text(column.name)]
        arguments = first + [emit(key, computed) for key in asked]
    else:
        arguments = list(_arguments(node, computed))
    return f"{row.javascript}({', '.join(arguments)})"


def _arguments(node: Call, computed: Set[str]) -> Iterator[str]:
    for argument in node.arguments:
        if isinstance(argument, UnitName):
            yield from (text(number) for number in unit_numbers(argument.name))
        else:
            yield emit(argument, computed)


def _step(step: Step, computed: Set[str], shown: dict[str, Any] | None) -> str:
    head = f"      {{name: {text(step.name)}, shown: {text(shown)}, "
    if step.decision is None:
        assert step.node is not None
        return f"{head}work: function (v, F, t) {{ return {emit(step.node, computed)}; }}}}"
    rows = []
    for branch in step.decision.branches:
        holds = "null"
        if branch.condition is not None:
            holds = f"function (v, F, t) {{ return {emit(branch.condition, computed)}; }}"
        said = f"answer: {text(branch.answer)}, say: {text(branch.say)}, because: {text(branch.because)}"
        rows.append(f"        {{holds: {holds}, {said}}}")
    return f"{head}decide: [\n" + ",\n".join(rows) + "\n      ]}"


def _shown(found: StepUnit | None, pairs: Pairs) -> dict[str, Any] | None:
    """How a page shows the value of a step that gives a number."""
    if found is None:
        return None
    pair = pairs.get(found.unit.name)
    more = {"digits": pair.places(found.digits)} if pair and found.digits is not None else {}
    other = _other(pair, **more) if pair else None
    return {"unit": unit_data(found.unit), "digits": found.digits, "other": other}


def input_data(record: Input, question: Question, pairs: Pairs) -> dict[str, Any]:
    """Return a question as a page holds it."""
    pair = pairs.get(question.unit.name)
    return {
        "id": question.id,
        "ask": question.ask,
        "unit": question.unit.name,
        "units": [] if question.choices else _units(record, question, pair),
        "other": _other(pair, admits=_limited(record, pair)) if pair else None,
        "choices": question.choices or None,
        "start": question.start,
        "otherwise": question.default,
        "low": question.low,
        "high": question.high,
        "whole": question.whole,
        "oneOf": list(question.one_of),
        "admits": question.admits,
        "help": record.help,
    }


def _points(table: PointTable, pairs: Pairs) -> dict[str, Any]:
    """What a table of points is read, fitted and told by, in the script."""
    record, own = table.record, table.reader.unit
    pair = pairs.get(own.name)
    stated, measured = record.stated, record.measured
    return {
        "unit": unit_data(own),
        "units": [unit_data(unit) for unit in table.reader.units],
        "other": _other(pair, digits=pair.places(record.digits)) if pair else None,
        "digits": record.digits,
        "mirror": table.mirror,
        "columns": list(columns_of(record)),
        "yes": [word.lower() for word in record.sound.yes],
        "no": [word.lower() for word in record.sound.no],
        "tolerance": record.tolerance,
        "leastBreadth": table.least_breadth,
        "refuse": {"few": record.refuse.few, "line": record.refuse.line, "undecided": record.refuse.undecided},
        "verdicts": {
            "within": record.verdicts.within, "beyond": record.verdicts.beyond, "doubtful": record.verdicts.doubtful,
            "alone": record.verdicts.alone, "rest": record.verdicts.rest, "first": record.verdicts.first,
        },
        "axes": [record.axes.x, record.axes.y, record.axes.z],
        "say": {
            "name": record.name.say, "stated": stated.say, "measured": measured.say, "sound": record.sound.say,
        },
        "counts": list(BARE),
        "lengths": list(LENGTHS),
    }  # fmt: skip
def _units(record: Input, question: Question, pair: Pair | None) -> list[dict[str, Any]]:
    """The units an input may be given in, each with what it admits in words."""
    own = question.unit
    return [
        {**unit_data(unit), "admits": question.admits if unit is own else _limited(record, Pair(own, unit, "us"))}
        for unit in _admitted(own, pair)
    ]


def _admitted(own: Unit, pair: Pair | None) -> tuple[Unit, ...]:
    """The units a reader may write: those that are offered, and what the page itself may show."""
    offered = offered_units(own)
    is_new = pair is not None and all(pair.other.name != known.name for known in offered)
    return (*offered, pair.other) if pair is not None and is_new else offered


def _other(pair: Pair, **more: Any) -> dict[str, Any]:
    return {"system": pair.to, "unit": unit_data(pair.other), **more}


def _limited(record: Input, pair: Pair) -> str:
    """What may be answered, in words, in the other unit."""
    low, high = (
        pair.limit(text, is_lower=is_lower) if text is not None else None
        for text, is_lower in ((record.from_, True), (record.to, False))
    )
    return in_words(record.whole, low, high, pair.other.name)


def table_data(table: LookupTable) -> dict[str, Any]:
    """Return a table as a page holds it."""
    keys = [
        {"name": key.name, "match": key.match, "unit": unit_data(key.unit) if key.unit else None} for key in table.keys
    ]
    columns = {name: list(column.cells) for name, column in table.columns.items()}
    return {"keys": keys, "order": list(table.order()), "columns": columns, "rows": [list(row) for row in table.rows]}


def _shown_in(shown: Shown, pair: Pair | None) -> list[dict[str, Any]]:
    """The units an answer may be shown in, each with how many decimal places."""
    units = offered_with(shown.unit, pair) if shown.unit.name else (shown.unit,)
    return [{**unit_data(unit), "digits": _digits(shown, unit, pair)} for unit in units]


def _digits(shown: Shown, unit: Unit, pair: Pair | None) -> int:
    if unit is shown.unit:
        return shown.digits
    stands = pair if pair is not None and pair.other is unit else Pair(shown.unit, unit, "us")
    return stands.places(shown.digits)


def _outputs(program: Program, pairs: Pairs) -> list[dict[str, Any]]:
    return [
        {
            "id": name,
            "say": shown.say,
            "unit": None if isinstance(shown.kind, ChoiceKind | TextKind) else unit_data(shown.unit),
            "digits": shown.digits,
            "other": _other(pair, digits=pair.places(shown.digits)) if pair else None,
            "labels": shown.labels,
            "units": [] if isinstance(shown.kind, ChoiceKind) else _shown_in(shown, pair),
        }
        for name, shown in program.outputs.items()
        for pair in (pairs.get(shown.unit.name),)
    ]
