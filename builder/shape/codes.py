"""The problems that shaping can find: keys and values that do not make a record of their kind."""

from __future__ import annotations

from builder.model.problem import Code

MISSING_KEY = Code("S201", "missing_key", """\
A record lacks a key that every record of its kind carries. Where there is nothing to say, most lists are written as
`none`: missing and none are different things, and nobody can tell later which was meant.""")

UNKNOWN_KEY = Code("S202", "unknown_key", """\
A record has a key that its kind does not know, most often a misspelt one. It would
silently be left out of the book.""")

WRONG_FORM = Code("S203", "wrong_form", """\
A value has another form than this key takes: a list in place of a text, a mapping in place of a list.""")

WRONG_VALUE = Code("S204", "wrong_value", """\
A value is none of those that this key admits, or lies outside its limits.""")

BAD_QUANTITY = Code("S205", "bad_quantity", """\
A quantity is written as a number, a space and a unit, such as `0.8 mm` or `20 min`. A bare number leaves the reader
guessing, so it is refused.""")

WRONG_UNIT = Code("S206", "wrong_unit", """\
A quantity's unit is unknown, or is of another dimension than this key takes: a length where a time belongs.""")

BAD_REFERENCE = Code("S207", "bad_reference", """\
A reference is not written as references are: a bare id where only one kind fits (`rocker-outer`), kind and id where
several do (`seam:rocker-lower`), `body` or `welder` as the subject of a step.""")

EMPTY_LIST = Code("S208", "empty_list", """\
A list is empty. Write `none` where there is nothing: an empty list leaves open whether it was forgotten.""")

SAME_KEY = Code("S209", "same_key", """\
Two steps of a procedure, or two practical tests of a lesson, have the same key. Links, job files, revisions and what
people have passed hang on a key, so each has its own, for good.""")

ONE_CONSEQUENCE = Code("S210", "one_consequence", """\
A rule has one `when` and exactly one consequence: needs, owes, forbids, if-both-first or asks. Write two rules where
there are two.""")

TO_FILL_IN = Code("S211", "to_fill_in", """\
A value still is the placeholder FILL IN that `seambook write` put there. The comment above it in the file says what it
takes. Write the value; a key that may be left out stands as a comment and can be taken out altogether.""")

NOT_APPROVED = Code("S212", "not_approved", """\
A revision is written by one person and approved by another, since nobody sees their own mistakes. Where the shop has
one person, `approver: solo` says so openly on the page. `approver: none` is for what nobody has approved yet, and what
is issued has been approved.""")

REVISIONS_OUT_OF_ORDER = Code("S213", "revisions_out_of_order", """\
Revisions stand newest first, the present one before all in `earlier`: each has the number below the one before it, and
none is dated after a later one. A number that is left out or given twice would leave open which of them a printed
sheet is.""")

REVISED_STRANGER = Code("S214", "revised_stranger", """\
A revision says what was changed in a step that the procedure does not have. A step that was taken out has no place left
where its change could be shown: say it in the revision's `reason`.""")

WRONGLY_REPLACED = Code("S215", "wrongly_replaced", """\
`replaced_by` names what to work from in place of a withdrawn procedure. One that is not withdrawn says nothing of the
kind: two procedures for the same work are each worked from, or one of them is withdrawn.""")

CODES = (MISSING_KEY, UNKNOWN_KEY, WRONG_FORM, WRONG_VALUE, BAD_QUANTITY, WRONG_UNIT, BAD_REFERENCE, EMPTY_LIST,
         SAME_KEY, ONE_CONSEQUENCE, TO_FILL_IN, NOT_APPROVED, REVISIONS_OUT_OF_ORDER, REVISED_STRANGER,
         WRONGLY_REPLACED)  # fmt: skip
