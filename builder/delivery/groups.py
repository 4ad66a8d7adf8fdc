"""The catalogue and the files of each record -> what every phone keeps, and what it keeps for each procedure.

A procedure leads to what it and the procedures that it relies on name, and to what those records name in turn. Other
procedures are not among it, and what a term or a source names is not followed: a link or two further lies the whole
book.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Set
from typing import NamedTuple

from builder.model.links import Catalogue
from builder.model.reference import Ref

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
    procedures: Mapping[Ref, Set[Ref]]
    """The records that each procedure leads to, itself among them."""
    own: Mapping[Ref, frozenset[str]]
    """What each record takes beside the core."""
    titles: Mapping[Ref, str]


def ways_in(files: Iterable[bytes]) -> frozenset[str]:
    """Return the paths of the records' pages that these files lead to.

    A page shows more than its record names: what its steps work out, by which methods a seam is joined.
    """
    return frozenset(way.decode() for data in files for way in _WAY.findall(data))


def grouped(
    catalogue: Catalogue, files_of: Mapping[Ref, tuple[str, ...]], ways_of: Mapping[Ref, frozenset[str]],
    apart: frozenset[str], paths: Iterable[str],
) -> Groups:  # fmt: skip
    """Part a book's paths; `ways_of` tells of each procedure the pages that its own leads to."""
    of_records = {path for ref, files in files_of.items() if ref.kind not in ALWAYS for path in files}
    core = frozenset(path for path in paths if path not in of_records and path not in apart)
    by_page = {files[0]: ref for ref, files in files_of.items()}
    named = _named(catalogue)
    for ref, ways in ways_of.items():
        named[ref] = named.get(ref, frozenset()) | {by_page[way] for way in ways if way in by_page}
    own = {ref: frozenset(files) - core for ref, files in files_of.items()}
    procedures = sorted(ref for ref in catalogue.summaries if ref.kind == PROCEDURE)
    led = {ref: led_to(catalogue, named, ref) for ref in procedures}
    return Groups(core, led, own, {ref: catalogue.title(ref) for ref in procedures})


def led_to(catalogue: Catalogue, named: Mapping[Ref, frozenset[Ref]], procedure: Ref) -> set[Ref]:
    """Return the records that a procedure leads to, itself among them."""
    found = _relied_on(catalogue, procedure)
    first = {one for ref in found for one in named[ref] if one.kind != PROCEDURE}
    # By unions of whole sets: in a book of thousands of procedures this is what takes the time.
    second: set[Ref] = set().union(*(named[ref] for ref in first if ref.kind not in ENDS))
    return found | first | {one for one in second if one.kind != PROCEDURE}


def _relied_on(catalogue: Catalogue, procedure: Ref) -> set[Ref]:
    """A procedure and all that have to be done before it."""
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


def _named(catalogue: Catalogue) -> dict[Ref, frozenset[Ref]]:
    """Return the records that each record names; by who uses which, since there every pair stands once."""
    named: dict[Ref, set[Ref]] = {ref: set() for ref in catalogue.summaries}
    for ref, users in catalogue.uses.items():
        if ref in named:
            for user in users:
                named[user].add(ref)
    return {ref: frozenset(found) for ref, found in named.items()}


def _living(catalogue: Catalogue, ref: Ref) -> Ref:
    return catalogue.moved.get(ref.record, ref.record)
