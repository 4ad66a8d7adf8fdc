"""The formula language: parse, check, evaluate and emit formulas; compile, run and prove calculators; units.

Knows only `builder.model` and itself. Content mistakes come back as `Fault`s, which carry the path of the field in the
record and characters in its text; the stage that knows the file makes them problems.
"""

from builder.formula.answer import Answer, Judged, Result, Taken
from builder.formula.codes import CODES
from builder.formula.expressions import Checked, check_expression, evaluate_expression, names_in, number, unit_fault
from builder.formula.fault import Fault
from builder.formula.javascript import emit_calculator
from builder.formula.kinds import BARE, TRUTH, ChoiceKind, Kind, NumberKind, TruthKind, choice, describe, kind_of_unit
from builder.formula.lookup import CompiledTable, LookupTable, compile_table
from builder.formula.no_answer import NoAnswer, Value
from builder.formula.pairs import Pair, Pairs, make_pairs
from builder.formula.parse import parse
from builder.formula.plan_script import emit_method, emit_seam
from builder.formula.program import Compiled, Program, compile_calculator
from builder.formula.proving import prove
from builder.formula.run import run
from builder.formula.step_units import StepUnit, Usual, make_usual, step_units
from builder.formula.units import Unit, convert, dimension_of_example, offered_units, unit, unit_advice

__all__ = [
    "BARE",
    "CODES",
    "TRUTH",
    "Answer",
    "Checked",
    "ChoiceKind",
    "Compiled",
    "CompiledTable",
    "Fault",
    "Judged",
    "Kind",
    "LookupTable",
    "NoAnswer",
    "NumberKind",
    "Pair",
    "Pairs",
    "Program",
    "Result",
    "StepUnit",
    "Taken",
    "TruthKind",
    "Unit",
    "Usual",
    "Value",
    "check_expression",
    "choice",
    "compile_calculator",
    "compile_table",
    "convert",
    "describe",
    "dimension_of_example",
    "emit_calculator",
    "emit_method",
    "emit_seam",
    "evaluate_expression",
    "kind_of_unit",
    "make_pairs",
    "make_usual",
    "names_in",
    "number",
    "offered_units",
    "parse",
    "prove",
    "run",
    "step_units",
    "unit",
    "unit_advice",
    "unit_fault",
]
