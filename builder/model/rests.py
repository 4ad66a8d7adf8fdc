"""What rests on a source: one value, limit or rule of a record, told apart from the record's own list of sources."""

from __future__ import annotations

from typing import NamedTuple

from builder.model.quantity import Quantity


class Rest(NamedTuple):
    """One thing that a record takes from a source."""

    source: str
    """The source's id."""
    name: str
    """What it is called where it stands; plain text."""
    said: str
    """With quantities a pattern that they are put into, such as `{} to {}`; without, Markdown."""
    quantities: tuple[Quantity, ...] = ()
    anchor: str = ""
    """Where on the record's page it stands."""
