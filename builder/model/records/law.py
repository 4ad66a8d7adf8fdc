"""The kinds that say what may follow what: act, state and rule; and the method, with its limits."""

from dataclasses import field
from typing import Annotated, Literal

from pydantic import Field

from builder.model.records.calculator import Fixed
from builder.model.records.fields import (
    ActId,
    CalculatorId,
    Expression,
    Id,
    Line,
    Many,
    MethodId,
    Name,
    Prose,
    SourceId,
    Stated,
    StateId,
    Variable,
    Word,
    YesNo,
    record,
)
from builder.model.records.working import Working

SubjectKind = Literal["seam", "panel", "cavity", "opening", "body", "welder"]
Whose = Literal["same", "closes", "panels", "openings", "neighbours", "seams", "joints", "body", "welder"]
"""Whose state is meant, seen from the step's subject: itself; the cavities a seam closes; the panels of a seam or round
an opening; the openings its panels bound; a panel's neighbours; the seams among the step's own subjects; the seams a
panel is a sheet of, or that close a cavity; the one body; the welder."""
Anyones = Literal["any"]
"""Whoever has it."""
Across = Literal["other-side"]
"""Whoever has it on the side of the car that the subject is not on."""
StepPart = Literal["measure", "hold", "photo", "wait", "attended", "keep", "method", "holes", "two-people"]
"""What a step may carry: readings to record; a hold; a photograph; a wait, also one that somebody stays for; the sheets
that stay; the method of joining; holes made in what stays; more than one pair of hands."""


@record
class Effect:
    """A state made, and whose."""

    state: StateId
    of: Whose = "same"
    method: Many[MethodId] = ()
    """Only by a step that joins by one of these."""
    holes: YesNo = False
    """Only by a step that says it makes holes."""


@record
class Spoil:
    """A state spoiled, and whose. A step that does not say by which method it joins spoils as by any."""

    state: StateId
    of: Whose | Anyones = "same"
    method: Many[MethodId] = ()
    holes: YesNo = False


@record
class Act:
    """One trade verb."""

    title: Name
    was: tuple[Id, ...] = ()
    summary: Prose
    on: Many[SubjectKind]
    makes: Stated[Effect]
    spoils: Stated[Spoil]
    heat: Stated[Annotated[Id, Word("heat")]]
    """Arc, spark, flame: what could light something."""
    vapour: YesNo
    """Wet with something that gives off vapour which burns."""
    noisy: YesNo


@record
class State:
    """A condition of a seam, cavity, panel, opening, body or welder."""

    title: Name
    was: tuple[Id, ...] = ()
    of: Many[SubjectKind]
    lasts: Literal["job", "day"] = "job"
    """What holds for its own day alone is not brought along by a procedure that another relies on."""
    means: Prose


@record
class When:
    """The steps a rule speaks of."""

    act: Many[ActId] = ()
    heat: Many[Annotated[Id, Word("heat")]] = ()
    """Any act that gives off one of these, in place of naming acts."""
    vapour: YesNo = False
    """Any act that is wet with something that gives off vapour which burns."""
    method: Many[MethodId] = ()
    """Where the step joins by one of these, or does not say by what."""
    carries: Many[StepPart] = ()
    """Where the step carries all of these."""
    on: SubjectKind | None = None
    where: Expression | None = None
    """Over the subject's facts; of a seam it holds where it holds for any segment."""


@record
class Need:
    """A state that must hold when the step begins."""

    state: StateId
    of: Whose = "same"
    where: Expression | None = None
    """Over the facts of whoever must have it."""


@record
class Ban:
    """A state that must not hold when the step begins."""

    state: StateId
    of: Whose | Anyones | Across = "same"
    where: Expression | None = None


@record
class Owed:
    """A state that must hold at the end."""

    state: StateId
    of: Whose = "same"
    where: Expression | None = None
    by: Literal["close-out", "end-of-day"]


@record
class First:
    """Where the procedure has both acts, this one comes before."""

    act: Many[ActId]
    of: Whose | Anyones = "same"


@record
class Asked:
    """What the step itself must carry."""

    step: Many[StepPart] = ()
    works_out: Many[CalculatorId] = ()
    """One of these calculators, among the step's values."""
    later: YesNo = False
    """A later step may carry it in its place."""


@record
class Unless:
    """Where a rule does not bind."""

    method: Many[MethodId] = ()
    act: Many[ActId] = ()
    state: Need | None = None
    """While this holds."""


@record
class Rule:
    """One `when`, one consequence and its reason."""

    title: Name
    was: tuple[Id, ...] = ()
    when: When
    needs: Need | None = None
    """This state must hold when the step begins."""
    owes: Owed | None = None
    """This state must hold by the end."""
    forbids: Ban | None = None
    """This state must not hold when the step begins."""
    if_both_first: Annotated[First | None, Field(alias="if-both-first")] = None
    asks: Asked | None = None
    """The step must carry this."""
    unless: Unless | None = None
    level: Literal["error", "warning"]
    because: Line
    source: SourceId


@record
class Limit:
    """Where a method must not be used, or only with care; over a segment's facts."""

    if_: Expression
    level: Literal["stop", "care", "note"]
    say: Line
    because: Line
    source: SourceId


@record
class Mark:
    """The weld as the section draws it."""

    say: Name
    """What its width is, such as the least nugget."""
    width: Expression
    """A length, over a segment's facts and the fixed values."""
    fixed: dict[Variable, Fixed] = field(default_factory=dict)
    stepped: Expression | None = None
    """Where this holds over a segment's facts, the holes of a plug get smaller from sheet to sheet."""
    staggered: Expression | None = None
    """Where this holds, the edges of the inner sheets are drawn set back, each pair with a strip of its own."""


@record
class WeldPlaces:
    """Where the welds of a segment stand, over its facts and what its plan has worked out."""

    count: Expression
    first: Expression
    """From the segment's front end to the first weld's middle."""
    spacing: Expression
    order: Expression | None = None
    """The named answer that says in which order the welds are made, such as `1, 5; 3; 2, 4`."""


@record
class Method:
    """A way of joining."""

    title: Name
    was: tuple[Id, ...] = ()
    summary: Prose
    draws: Literal["spot", "plug", "seam", "bond"]
    """How the joint is drawn in the section: nuggets between sheets, a filled hole, a bead, or a bond line."""
    mark: Mark | None = None
    fixed: dict[Variable, Fixed] = field(default_factory=dict)
    """Settings of the shop and figures of a source, for the plan, the limits and the places."""
    headings: tuple[Name, ...] = ()
    """The headings of its plan in the order they are read; others follow as they are worked out."""
    limits: Stated[Limit]
    """Over the facts, the fixed values and the named answers of the plan."""
    plan: Stated[Working]
    """Calculators worked out one after the other; each may use the named answers of those before it."""
    places: WeldPlaces | None = None
    """Of a method that makes single welds."""
    notes: Prose | None = None
    sources: Stated[SourceId]
