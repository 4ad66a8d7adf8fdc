"""What the lint of the house style objects to; all are warnings."""

from __future__ import annotations

from builder.model.problem import Code

HEDGE = Code("H901", "hedge", """\
A step leaves open what is to be done: "as needed", "if necessary". Who reads it in the bay decides by guess. Say until
what is seen, felt or read. The words are those of `house-style.yaml`.""")

TWO_ACTIONS = Code("H902", "two_actions", """\
A step tells a second action beside its own. The second has no act, so no rule sees it, and whoever is called away
between the two does not know which is done. Make it a step of its own. The verbs and their acts are those of
`house-style.yaml`.""")

NOT_TAKEN_UP = Code("H903", "tool_or_supply_not_listed", """\
A step says to use a tool or a supply by its title and does not list it under `tools` or `supplies`: it is then missing
from what is laid out, and no link leads to how it is used.""")

LATE_DANGER = Code("H904", "danger_told_late", """\
The first step in which a danger begins does not name its hazard. A warning after the step that it is about comes too
late.""")

NOT_MEASURED = Code("H905", "not_measured", """\
A procedure opens or joins the structure of a car and records no reading. What is not measured cannot be found
again.""")

UNUSED_RECORD = Code("H906", "record_unused", """\
No other record refers to this one, so nobody comes upon it where it is needed. Refer to it, or take it away.""")

UNKNOWN_IN_STYLE = Code("H907", "style_names_nothing", """\
`house-style.yaml` names an act or a hazard that the book does not have.""")

CODES = (HEDGE, TWO_ACTIONS, NOT_TAKEN_UP, LATE_DANGER, NOT_MEASURED, UNUSED_RECORD, UNKNOWN_IN_STYLE)
