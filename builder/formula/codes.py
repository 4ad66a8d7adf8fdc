"""The problem codes of formulas, units and calculators; each explanation is what `seambook explain` prints."""

from __future__ import annotations

from builder.model.problem import Code

NOT_A_FORMULA = Code(
    "F501",
    "not_a_formula",
    "The text could not be read as a formula at all: a bracket is open, an operator has nothing behind it, or it is "
    "a sentence. Formulas are numbers, names, + - * / **, comparisons, and, or, not, `a if c else b` and the functions "
    "of the language.",
)
NOT_IN_LANGUAGE = Code(
    "F502",
    "not_in_language",
    "The formula uses something that the language leaves out, such as %, //, a chained comparison, an index, a dot or "
    "a lambda. The language is small so that paper and phone give the same answer; the message says what to write.",
)
TOO_BIG = Code(
    "F503",
    "formula_too_big",
    "A formula may be 50 levels deep, 200 parts large, and a number in it 40 characters long. Split it into named "
    "steps under `work`; they are easier to check, too.",
)
UNKNOWN_NAME = Code(
    "F504",
    "unknown_name",
    "The formula uses a name that is no input, no fixed value, no other formula and no fact of the record. Names are "
    "lower-case with underscores.",
)
UNKNOWN_FUNCTION = Code(
    "F505",
    "unknown_function",
    "There is no such function. There are min, max, abs, floor, ceil, round, sqrt, exp, ln, log10, sin, cos, tan, "
    "atan2, median, turns, turn_rounds, table, in_unit, with_unit and the constant pi.",
)
WRONG_ARGUMENTS = Code(
    "F506",
    "wrong_arguments",
    "A function was given too few or too many arguments, or an argument of a form it does not take: in_unit and "
    "with_unit take a unit second, table takes a table, a column and one value for each key.",
)
UNKNOWN_UNIT = Code(
    "F507",
    "unknown_unit",
    "There is no unit of this name. Units are spelled as Pint spells them: mm, kN, degC, delta_degC, percent, N*m, "
    "m**2, mg/m**3. Speed of rotation is 1/min, never rpm, since an angle has no dimension.",
)
UNITS_DISAGREE = Code(
    "F508",
    "units_disagree",
    "Two values are added, compared or chosen between that do not measure the same, or a value does not have the unit "
    "asked for. A bare number has no unit: a quantity in a formula is with_unit(3, mm).",
)
POINT_MISUSED = Code(
    "F509",
    "point_misused",
    "A temperature reading (degC, degF) is a point on a scale: two of them subtract to a difference, a difference may "
    "be added to one, and nothing else. 20 degC is not twice 10 degC. Use in_unit(x, degC) to get the bare number, "
    "and delta_degC or kelvin for differences.",
)
WRONG_KIND = Code(
    "F510",
    "wrong_kind",
    "A number stands where a condition is needed, a choice is used in arithmetic, or the like. Conditions come from "
    "comparisons; choices are compared by == and != only.",
)
UNKNOWN_CHOICE = Code(
    "F511",
    "unknown_choice",
    "A choice is compared with an id that it can never have, so the comparison would always give the same answer.",
)
NAME_TAKEN = Code(
    "F521",
    "name_taken",
    "One name is used twice within a calculator, or is a word of the formula language. Inputs, fixed values, tables, "
    "formulas and decisions share one set of names.",
)
CIRCLE = Code(
    "F522",
    "formulas_in_a_circle",
    "Formulas need each other's results in a circle, so none of them can be worked out first.",
)
UNNAMED_NUMBER = Code(
    "F523",
    "unnamed_number",
    "A number other than 0, 1, 2 and the powers of ten stands in a formula without saying where it comes from. Name "
    "it under `fixed` with its source. Small whole exponents are mathematics and may stand.",
)
UNUSED = Code(
    "F524",
    "unused_name",
    "An input, a fixed value, a table or a formula is defined and nothing uses it. An input without effect misleads "
    "whoever fills it in.",
)
BAD_INPUT_FIELD = Code(
    "F525",
    "bad_input_field",
    "The fields of an input do not fit together: a limit or a start that cannot be read or lies outside, no start and "
    "no default, choices together with a unit.",
)
BAD_VALUE = Code(
    "F526",
    "bad_value",
    "A number in the record cannot be read, or its unit does not fit.",
)
BAD_OUTPUT = Code(
    "F527",
    "bad_output",
    "An output names nothing that is worked out, or its unit does not fit the formula.",
)
BAD_DECISION = Code(
    "F528",
    "bad_decision",
    "The rows of a decision do not fit together: every row but the last has `if` and `answer`, the last has "
    "`otherwise` in their place.",
)
UNREACHABLE_ROW = Code(
    "F529",
    "unreachable_row",
    "A row of a decision can never be reached, because the rows above it take every case in which it would hold. The "
    "first row that holds wins: put the special case above the general one.",
)
BAD_PROOF = Code(
    "F530",
    "bad_proof",
    "A proof names an input or output that is not there, leaves one out, or gives a value or tolerance that does not "
    "fit its unit.",
)
NO_PROOF = Code(
    "F531",
    "unproven_calculator",
    "The calculator has no proof. Every calculator carries published or measured examples that are worked out again "
    "at every build.",
)
PROOF_FAILS = Code(
    "F532",
    "proof_fails",
    "Worked out with the proof's inputs, the calculator answers something else than the proof expects, by more than "
    "its tolerance. Either a formula or the proof is wrong; nothing is published until they agree.",
)
BAD_CHART = Code(
    "F535",
    "bad_chart",
    "A chart cannot be drawn: it runs over something that is no plain number asked for, begins or ends where the input "
    "admits nothing, or shows outputs that are no numbers of one unit. Lines in one chart share its upright axis.",
)
BAD_SKETCH = Code(
    "F536",
    "bad_sketch",
    "A sketch cannot be drawn: a measure that its form needs is missing, a measure is not one of its form, or what "
    "gives it measures something else. A sketch is drawn to scale, so each measure must be what it says.",
)
BAD_TABLE = Code(
    "F541",
    "bad_table",
    "A table cannot be used: a key or column is missing in a row, a cell is not what its column holds, a unit is "
    "unknown, or two keys are interpolated.",
)
ROW_TWICE = Code(
    "F542",
    "table_row_twice",
    "Two rows of a table have the same keys, so a look-up could find either.",
)
UNLIKE_UNITS = Code(
    "F561",
    "unlike_units",
    "The record of units puts a unit beside one that measures something else, such as a temperature beside a "
    "difference of temperatures. Readers who switch would be shown a wrong number, so the pair is refused.",
)
UNIT_TWICE = Code(
    "F562",
    "unit_twice",
    "A unit stands in the record of units more than once, so nobody could say what it is shown as. Each unit has one "
    "place: `to_us`, `to_metric` or `same`.",
)
BAD_POINTS_FIELD = Code(
    "F571",
    "bad_points_field",
    "What a calculator says of its table of points does not fit together: places are no lengths, the tolerance names "
    "no input that is a length, two columns have one name, a word means yes and no, or the least breadth is no share "
    "of one. Fitted numbers would have no meaning.",
)
BAD_POINTS = Code(
    "F572",
    "bad_points",
    "A table of points, that of `start` or of a proof, cannot be read or fitted: a column is missing, a cell holds no "
    "number, a name stands there twice, or too few points are sound. The line is counted from the first of the table.",
)
GIVEN_UNKNOWN = Code(
    "F551",
    "unknown_input",
    "A value was given for an input that the calculator does not ask for.",
)
GIVEN_MISSING = Code(
    "F552",
    "missing_input",
    "No value was given for an input that has no default. The calculator cannot guess: give it a value and its unit.",
)
GIVEN_BAD = Code(
    "F553",
    "bad_input",
    "A value given for an input cannot be read, has the wrong unit, or lies outside what the calculator admits.",
)

CODES = (
    NOT_A_FORMULA, NOT_IN_LANGUAGE, TOO_BIG, UNKNOWN_NAME, UNKNOWN_FUNCTION, WRONG_ARGUMENTS, UNKNOWN_UNIT,
    UNITS_DISAGREE, POINT_MISUSED, WRONG_KIND, UNKNOWN_CHOICE, NAME_TAKEN, CIRCLE, UNNAMED_NUMBER, UNUSED,
    BAD_INPUT_FIELD, BAD_VALUE, BAD_OUTPUT, BAD_DECISION, UNREACHABLE_ROW, BAD_PROOF, NO_PROOF, PROOF_FAILS,
    BAD_CHART, BAD_SKETCH,
    BAD_TABLE, ROW_TWICE, UNLIKE_UNITS, UNIT_TWICE, BAD_POINTS_FIELD, BAD_POINTS, GIVEN_UNKNOWN, GIVEN_MISSING,
    GIVEN_BAD,
)  # fmt: skip
