"""A skill: what somebody of the shop can do, and the records it stands on."""

from typing import Annotated

from builder.model.records.fields import Id, Line, Name, Points, SourceId, Stated, record

SkillId = Annotated[Id, Points(("skill",))]
STOOD_ON = ("procedure", "rule", "calculator", "method", "table", "hazard", "decision")
"""The kinds a skill may stand on."""
StoodOn = Annotated[str, Points(STOOD_ON)]


@record
class Skill:
    """What somebody can do; how well is one of the levels in `training.yaml`."""

    title: Name
    was: tuple[Id, ...] = ()
    summary: Line
    """What whoever has it does alone."""
    stands_on: tuple[StoodOn, ...]
    """When one of these is revised or changed, the skill is looked at again in everybody who has it."""
    sources: Stated[SourceId]
