"""The problems that working out can find."""

from __future__ import annotations

from builder.model.problem import Code

UNKNOWN_INPUT = Code("W401", "given_to_no_input", """\
A calculator is put to work with an input it does not have. Most often the name is misspelt; the calculator's own page
lists its inputs.""")

UNKNOWN_OUTPUT = Code("W402", "unknown_output", """\
A calculator is asked to show an answer it does not have. Most often the name is misspelt; the calculator's own page
lists its answers.""")

MISSING_INPUT = Code("W403", "input_not_given", """\
A calculator is put to work without an input that it needs. Only an input with a default may be left out.""")

NO_SUCH_SEGMENT = Code("W404", "no_such_segment", """\
A step works out values for a segment that its seam does not have, or for a seam although the step names none.""")

BAD_GIVEN = Code("W405", "bad_given", """\
What is given to a calculator is no value it admits: a quantity, a choice's id, or a formula over the seam's facts.""")

POINTS_NEEDED = Code("W406", "points_needed", """\
A calculator that works on a table of points is put to work for a seam. A seam has no such table; link to the
calculator's page, where the points are typed in.""")

NOT_ONE_PLACE = Code("W407", "decision_without_a_place", """\
A decision says under `when` where it is shown: with `act`, beside every step that does it, or with `on`, on the page of
each seam or panel. Which facts it may use hangs on that, so it says one of the two.""")

NO_OPEN_CHOICE = Code("W408", "no_open_choice", """\
Under `possible` a decision says which ids of an open choice can be the case. It names an input that is given under
`with`, an input that is no choice, or an id that the choice does not have.""")

SHOWN_NO_DECISION = Code("W409", "shown_is_no_decision", """\
A decision shows an answer of its calculator that is a number or a text. It shows decisions alone: of their rows those
that remain can be told though some inputs are open.""")

NAME_TAKEN = Code("W410", "plan_name_taken", """\
A working with a name, or a fixed value of a method, makes a name for formulas that a fact of the seam or something
before it in the plan has already. `as: layout` makes one name of each of its calculator's answers, such as
`layout_count`. Each name means one thing; choose another.""")

UNKNOWN_PLACE = Code("W411", "unknown_place", """\
A step is done at a place that `planning.yaml` does not have. Of a place under another name nobody knows that it is
taken, and two steps would be planned into it at once. Name the place by its id or as that file says it, or add it.""")

TAKES_NOTHING = Code("W412", "takes_nothing", """\
A working of a method, or a supply that says how much a step takes of it, names an answer that the calculator does not
have, or says how the amount came about by an input that the calculator is not given. The calculator's own page lists
both.""")

NOT_AS_BOUGHT = Code("W413", "amount_not_as_bought", """\
An amount of a supply is in another kind of unit than its packs: grams of what is bought by the millilitre. Or the
supply does not say at all how it is bought. Then a job cannot tell how many packs it needs.""")

USAGE_UNCLEAR = Code("W414", "usage_unclear", """\
A row of what a step takes of a supply says its amount in one way: `each`, a fixed amount with its source, `by`, a
calculator over the subjects of the step, `told`, why nobody can say it, or `counted`, where else it is counted. By a
calculator it says with `on` whose facts it uses.""")

CODES = (UNKNOWN_INPUT, UNKNOWN_OUTPUT, MISSING_INPUT, NO_SUCH_SEGMENT, BAD_GIVEN, POINTS_NEEDED, NOT_ONE_PLACE,
         NO_OPEN_CHOICE, SHOWN_NO_DECISION, NAME_TAKEN, UNKNOWN_PLACE, TAKES_NOTHING, NOT_AS_BOUGHT,
         USAGE_UNCLEAR)  # fmt: skip
