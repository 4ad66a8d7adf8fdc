"""Procedures by the stage of the whole job at which they stand -> the groups of the first page and of the lists."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

from builder.model.records.supporting import Scale
from builder.model.reference import Ref
from builder.model.views import Group, Link
from builder.view import parts
from builder.view.here import Here

PROCEDURE = "procedure"
STAGE = "stage"
"""The scale of the stages of a job, in the order in which they come."""
AT_NONE = "At any stage"
"""Heads those that name none, where others do."""
RELIES_ON = "relies_on"
GOES_ON = "goes on from the one above"


def groups_of(here: Here, links: Iterable[tuple[Ref, Link]]) -> tuple[Group, ...]:
    """Head the procedures of each stage with its words; stages that have none are left out."""
    scale = here.book.shelf.get(Ref("scale", STAGE))
    words = scale.words if isinstance(scale, Scale) else {}
    found: dict[str, dict[Ref, Link]] = {}
    for ref, link in links:
        stage = here.book.catalogue.summaries[ref].stage
        found.setdefault(stage if stage in words else "", {})[ref] = link
    heads = [(id_, word.say) for id_, word in words.items() if id_ in found]
    if "" in found:
        heads.append(("", AT_NONE if heads else ""))
    return tuple(Group(say, tuple(_in_turn(here, found[id_]))) for id_, say in heads)


def goes_on_in(here: Here, ref: Ref) -> tuple[Ref, ...]:
    """Return the procedures that begin where this one leaves the car."""
    summaries = here.book.catalogue.summaries
    return tuple(
        other for other in here.book.users(ref).get(PROCEDURE, ())
        if ref in summaries[other].relations.get(RELIES_ON, ())
    )  # fmt: skip


def _in_turn(here: Here, links: Mapping[Ref, Link]) -> Iterator[Link]:
    """By title, but what goes on from one alone stands behind it: two work cards of one job lie together."""
    summaries = here.book.catalogue.summaries
    behind: dict[Ref, list[Ref]] = {}
    first: list[Ref] = []
    for ref in links:
        before = summaries[ref].relations.get(RELIES_ON, ())
        (behind.setdefault(before[0], []) if len(before) == 1 and before[0] in links else first).append(ref)
    todo = [(ref, "") for ref in _backwards(first, links)]
    while todo:
        ref, told = todo.pop()
        yield links[ref]._replace(note=", ".join(filter(None, (links[ref].note, told))))
        todo += [(other, GOES_ON) for other in _backwards(behind.get(ref, ()), links)]


def _backwards(refs: Iterable[Ref], links: Mapping[Ref, Link]) -> list[Ref]:
    return sorted(refs, key=lambda ref: parts.as_looked_for(links[ref]), reverse=True)
