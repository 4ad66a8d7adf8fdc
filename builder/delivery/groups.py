"""The catalogue and the files of each record -> what every phone keeps, and what it keeps for each procedure.

A procedure leads to what it and the procedures that it relies on name, and to what those records name in turn. Other
procedures are not among it, and what a term or a source names is not followed: a link or two further lies the whole
book.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Mapping, Set
from typing import NamedTuple

from builder.model.links import Catalogue
from builder.model.reference import LONE_SUBJECTS, Ref

PROCEDURE = "procedure"
_WAY = re.compile(rb'href=\\?"(?:\.\./)*([a-z0-9-]+/[a-z0-9-]+\.html)')
"""The page of a record, as a page beside it leads there; in a script the quotation mark is escaped."""
ALWAYS = frozenset({"page", "job"})
"""Kinds that belong to no procedure and every phone: the book's own prose, and its example jobs."""
ENDS = frozenset({"term", "source", "scale", "rule", "act", "state"})
"""Kinds that explain: what they name in turn is not wanted for the work."""


class Groups(NamedTuple):
    """Paths by what they are kept for."""

    core: frozenset[str]
    """What no procedure is read without: the book's own pages, styles, scripts, the search."""
    own: Mapping[Ref, tuple[str, ...]]
    """What each record takes beside the core."""


def ways_in(files: Iterable[bytes]) -> frozenset[str]:
    """Return the paths of the records' pages that these files lead to.

    A page shows more than its record names: what its steps work out, by which methods a seam is joined.
    """
    return frozenset(way.decode() for data in files for way in _WAY.findall(data))


def grouped(files_of: Mapping[Ref, tuple[str, ...]], apart: frozenset[str], paths: Iterable[str]) -> Groups:
    """Part a book's paths."""
    of_records = {path for ref, files in files_of.items() if ref.kind not in ALWAYS for path in files}
    core = frozenset(path for path in paths if path not in of_records and path not in apart)
    return Groups(core, {ref: tuple(path for path in files if path not in core) for ref, files in files_of.items()})


def led_to(catalogue: Catalogue, ways: Callable[[Ref], Set[Ref]], procedure: Ref) -> set[Ref]:
    """Return the records that a procedure leads to, itself among them.

    `ways` tells of it, and of each that it relies on, the records that its own page leads to.
    """
    found = relied_on(catalogue, procedure)
    named = {one for ref in found for one in (*_named(catalogue, ref), *ways(ref))}
    first = {one for one in named if one.kind != PROCEDURE}
    second = {one for ref in first if ref.kind not in ENDS for one in _named(catalogue, ref)}
    return found | first | {one for one in second if one.kind != PROCEDURE}


def relied_on(catalogue: Catalogue, procedure: Ref) -> set[Ref]:
    """Return a procedure and all that have to be done before it."""
    found: set[Ref] = set()
    ahead = [procedure]
    while ahead:
        ref = ahead.pop()
        if ref in found:
            continue
        found.add(ref)
        relied = catalogue.summaries[ref].relations.get("relies_on", ())
        ahead += [one for one in (_living(catalogue, other) for other in relied) if one in catalogue.summaries]
    return found


def _named(catalogue: Catalogue, ref: Ref) -> set[Ref]:
    """Return the records that a record names."""
    mentions = catalogue.summaries[ref].mentions  # of a book that is whole each leads to a record or a lone subject
    return {_living(catalogue, one.ref) for one in mentions if one.ref.kind not in LONE_SUBJECTS}


def _living(catalogue: Catalogue, ref: Ref) -> Ref:
    return catalogue.moved.get(ref.record, ref.record)
