"""Procedures by the stage of the whole job at which they stand -> the groups of the first page and of the lists."""

from __future__ import annotations

from collections.abc import Iterable

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


def groups_of(here: Here, links: Iterable[tuple[Ref, Link]]) -> tuple[Group, ...]:
    """Head the procedures of each stage with its words; stages that have none are left out."""
    scale = here.book.shelf.get(Ref("scale", STAGE))
    words = scale.words if isinstance(scale, Scale) else {}
    found: dict[str, list[Link]] = {}
    for ref, link in links:
        stage = here.book.catalogue.summaries[ref].stage
        found.setdefault(stage if stage in words else "", []).append(link)
    heads = [(id_, word.say) for id_, word in words.items() if id_ in found]
    if "" in found:
        heads.append(("", AT_NONE if heads else ""))
    return tuple(Group(say, tuple(parts.by_title(found[id_]))) for id_, say in heads)
