"""The problems that linking can find."""

from __future__ import annotations

from builder.model.problem import Code

WRONG_KIND = Code("L201", "wrong_reference_kind", """\
A reference points at a record of a kind that does not belong in this place, such as a tool where a seam is meant.""")

UNKNOWN_ANCHOR = Code("L202", "unknown_anchor", """\
A reference names a step or a word that the record does not have. The record itself exists: look at its own list.""")

UNKNOWN_REFERENCE = Code("L203", "unknown_reference", """\
A reference points at a record that does not exist in any layer of the book. Most often an id is misspelt, or the
record has not been written yet.""")

MOVED_REFERENCE = Code("L204", "moved_reference", """\
A reference uses a record's old name. It still leads there, because the record says so with `was`, but the new name
should be written.""")

TWO_CLAIMS = Code("L205", "two_claims", """\
An old name is claimed by two records with `was`, or is the name of a living record. Where a link to it should lead
cannot be told: keep one claim.""")

NOT_HANDED = Code("L206", "not_handed", """\
`other:` means the same seam, cavity or opening on the car's other side. It makes no sense for a subject of which the
car has only one.""")

CODES = (WRONG_KIND, UNKNOWN_ANCHOR, UNKNOWN_REFERENCE, MOVED_REFERENCE, TWO_CLAIMS, NOT_HANDED)
