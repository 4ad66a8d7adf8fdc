"""The problems that whole-book checks can find."""

from __future__ import annotations

from builder.model.problem import Code

STATE_MISSING = Code("C301", "state_missing", """\
A rule says that a step needs a state - clean, protected, measured, braced - and at that step it does not hold: no step
before it makes it, or a later step spoiled it again. The rule's own reason stands with the message. Put the step that
makes the state in its place, or say with `except` and a reason why the rule does not bind here.""")

STATE_FORBIDDEN = Code("C302", "state_forbidden", """\
A rule forbids a step while a state holds, such as sparks while vapour that burns is about. Put the step that ends the
state before it.""")

STATE_OWED = Code("C303", "state_owed", """\
A step leaves something owed - a bead, a recoat, a fire watch - and the procedure ends without it, or a later step
spoiled it again.""")

WRONG_ORDER = Code("C304", "wrong_order", """\
A rule says which of two acts on the same subject comes first where a procedure has both, and they stand the other way
round.""")

NEEDLESS_EXEMPTION = Code("C305", "needless_exemption", """\
A step sets a rule aside with `except`, but does not break it: the rule is kept there, or does not speak of such a step.
An exemption that is not needed hides the day on which it would be: take it out.""")

RELIES_IN_A_CIRCLE = Code("C306", "relies_in_a_circle", """\
Procedures rely on one another in a circle, so none of them could be done first.""")

ACT_ON_STRANGER = Code("C307", "act_on_stranger", """\
A step does an act on a kind of subject that the act is not for, such as drilling plug holes in a cavity. Look at the
act's record for what it may be done on.""")

KEPT_STRANGER = Code("C308", "kept_stranger", """\
A step keeps a panel that is no sheet of any seam it works on.""")

METHOD_NOT_ALLOWED = Code("C309", "method_not_allowed", """\
A step joins a seam by a method that the seam's record does not allow for its repair.""")

CODES = (STATE_MISSING, STATE_FORBIDDEN, STATE_OWED, WRONG_ORDER, NEEDLESS_EXEMPTION, RELIES_IN_A_CIRCLE,
         ACT_ON_STRANGER, KEPT_STRANGER, METHOD_NOT_ALLOWED)  # fmt: skip
