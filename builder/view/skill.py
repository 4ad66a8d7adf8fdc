"""A skill -> its page: what it stands on, which lessons teach it, and what each level means."""

from __future__ import annotations

from builder.model.records.skill import Skill
from builder.model.reference import Ref, parse_reference
from builder.model.views import Block, Grid, Link, Links, Page
from builder.view.here import Here
from builder.view.page import page, passage


def skill_page(here: Here, ref: Ref, skill: Skill) -> Page:
    """Make the page."""
    lessons = tuple(here.link_to(other) for other in here.book.users(ref).get("lesson", ()))
    main: tuple[Block, ...] = (
        Links("Taught by", lessons, "No lesson yet.", "taught"),
        Links("Stands on", tuple(_stood_on(here, text) for text in skill.stands_on), anchor="stands-on"),
        *_levels(here),
        Links("Sources", here.links("source", skill.sources), "None.", "sources"),
    )
    return page(
        here, ref, skill.title, "Skill", here.line(skill.summary), main, aliases=skill.was,
        texts=(passage("", skill.title, skill.summary),),
    )  # fmt: skip


def _stood_on(here: Here, text: str) -> Link:
    """A record with its revision, since a later one opens the skill again."""
    ref = parse_reference(text)
    assert ref is not None
    found = here.book.catalogue.find(ref)
    return here.link_to(ref, f"revision {found.issues[0].number}" if found is not None and found.issues else "")


def _levels(here: Here) -> tuple[Block, ...]:
    said = here.book.training
    if said is None:
        return ()
    rows = tuple((here.text(one.say), here.line(one.means)) for one in said.levels.values())
    return (Grid("How well somebody has it", ("Level", "Means"), rows, anchor="levels"),)
