"""A procedure -> its page, in the order it is read: what for, who says so, what you need, dangers, steps, close-out."""

from __future__ import annotations

from collections.abc import Iterator

from builder.model.records.procedure import Measure, Phase, Procedure, Step
from builder.model.reference import LONE_SUBJECTS, Ref, parse_reference
from builder.model.said import said
from builder.model.signs import NO_BREAK
from builder.model.views import Block, Facts, Html, Items, Link, Links, Page, Passage, Row, Steps, Warnings
from builder.model.views import Phase as PhaseView
from builder.model.views import Step as StepView
from builder.model.work import StepsDecided, StepValues
from builder.view.bay_way import way_to_bay
from builder.view.choosing import choosing_blocks
from builder.view.defect import defects_of
from builder.view.figure import pictures
from builder.view.here import NOTHING, Here, minutes_shown
from builder.view.page import OTHERS_USED, page, passage, uses
from builder.view.review import review_row
from builder.view.revised import approver, revisions
from builder.view.shared import shared
from builder.view.stages import PROCEDURE, goes_on_in
from builder.view.status import BANNER, STATUS, standing
from builder.view.training import way_to_breakdown
from builder.view.units import minutes
from builder.view.used import some_users
from builder.view.warnings import gathered, told_once, warnings
from builder.view.worked import worked_blocks

NONE_DECIDED: StepsDecided = {}
SCRIPTS = shared("procedure")
# Ids of the page's own parts hold an underscore, which a step's key cannot: so no key clashes with them.
COMES_FROM = {
    "maker": "from the vehicle maker", "reproduction": "reproduction", "donor": "from a donor car",
    "fabricated": "made in the shop",
}  # fmt: skip


def procedure_page(
    here: Here, ref: Ref, procedure: Procedure, values: StepValues, decided: StepsDecided = NONE_DECIDED
) -> Page:
    """Make the page; `values` holds the answers worked out for each step, by its key; `decided` its decisions."""
    steps = [step for phase in procedure.phases for step in phase.steps]
    main: tuple[Block, ...] = (
        *_instead(here, procedure),
        Items("Not for", here.lines(procedure.limits), "It has no limits of its own.", "part_not_for"),
        _title_block(here, procedure, steps),
        way_to_bay(here, f"procedure={ref.id}"),
        *_needs(here, procedure),
        Warnings("Dangers", gathered(here, procedure), "No dangers are recorded.", "part_dangers"),
        Steps("Steps", tuple(_phases(here, procedure, values, decided)), "part_steps"),
        *_passed_on(here, procedure),
        *_goes_on(here, ref),
        Items("Close-out", here.lines(procedure.close_out), "Nothing beside the steps.", "part_close_out", tick=True),
        Links("To teach it", (way_to_breakdown(here, ref),), anchor="part_teach"),
        Links("Sources", here.links("source", procedure.sources), "None.", "part_sources"),
        revisions(here, procedure),
    )
    aside = _aside(here, procedure)
    main = (*main, uses(here, ref, "part_uses", (*main, *aside)))
    return page(
        here, ref, procedure.title, "Procedure", here.paragraphs(procedure.purpose), main, aside,
        texts=tuple(_passages(here, procedure)), aliases=procedure.was,
        banner=BANNER.get(procedure.status, ""), standing=standing(procedure.status),
        scripts=SCRIPTS,
        edition=f"Revision {procedure.revision.number}, {procedure.revision.date}, {STATUS[procedure.status].lower()}",
    )  # fmt: skip


def _instead(here: Here, procedure: Procedure) -> Iterator[Links]:
    """What to work from in place of a withdrawn procedure."""
    if procedure.replaced_by is not None:
        yield Links("Work from this instead", (here.link("procedure", procedure.replaced_by),), anchor="part_instead")


def _title_block(here: Here, procedure: Procedure, steps: list[Step]) -> Facts:
    revision = procedure.revision
    holds = sum(step.point is not None and step.point.sort == "hold" for step in steps)
    waits = [step.wait for step in steps if step.wait is not None]
    rows = (
        Row("Revision", Html(f"{revision.number} · {revision.date}")),
        Row("Status", Html(STATUS[procedure.status])),
        *review_row(here, procedure),
        Row("Hands on", Html(minutes_shown(sum(step.minutes or 0 for step in steps)))),
        Row("Waiting", Html(minutes_shown(sum(minutes(wait.least) for wait in waits)))),
        Row("Steps", Html(f"{len(steps)}, {holds} hold{'s' if holds != 1 else ''}")),
        here.row("Written by", revision.author),
        here.row("Approved by", approver(revision.approver)),
        here.row("Reason", revision.reason),
    )
    return Facts("Revision and status", rows, "part_revision", wide=True)


def _needs(here: Here, procedure: Procedure) -> Iterator[Block]:
    needs = procedure.needs
    people = tuple(f"{person.count} × {person.who}" for person in needs.people)
    parts = tuple(
        f"{part.name}, {COMES_FROM[part.comes_from]}" + (f": {part.note}" if part.note else "") for part in needs.parts
    )  # fmt: skip
    if procedure.relies_on:
        yield Links("Done before it", here.links("procedure", procedure.relies_on), anchor="part_before")
    yield Items("Before you start", here.lines(needs.conditions), "No conditions.", "part_conditions", tick=True)
    yield Items("People", here.lines(people), "Nobody beside the technician.", "part_people")
    yield Items("Parts", here.lines(parts), "No parts.", "part_parts", tick=True)
    yield Links("Tools", here.links("tool", needs.tools), "No tools.", "part_tools")
    yield Links("Supplies", here.links("supply", needs.supplies), "No supplies.", "part_supplies")


def _passed_on(here: Here, procedure: Procedure) -> Iterator[Items]:
    """What is left open for the procedure that goes on from here; nothing where all is settled."""
    if procedure.passes_on:
        left = tuple(
            Html(f"{here.anchor(here.link('rule', one.rule))}<br>{here.line(one.because)}")
            for one in procedure.passes_on
        )
        yield Items("Left open, for the work that goes on from here", left, anchor="part_passed_on")


def _goes_on(here: Here, ref: Ref) -> Iterator[Links]:
    """What comes next: the procedures that begin where this one leaves the car."""
    if links := some_users(here, ref, PROCEDURE, goes_on_in(here, ref)):
        yield Links("It goes on in", links, anchor="part_onward")


def _phases(here: Here, procedure: Procedure, values: StepValues, decided: StepsDecided) -> Iterator[PhaseView]:
    number = 0
    told: set[str] = set()
    for at, phase in enumerate(procedure.phases, 1):
        steps = []
        for step in phase.steps:
            number += 1
            choosing = choosing_blocks(here, decided[step.key], is_folded=True) if step.key in decided else ()
            shown = _step(here, step, number, values)
            steps.append(shown._replace(choosing=choosing, warnings=told_once(shown.warnings, told)))
        yield PhaseView(at, phase.title, f"phase_{at}", tuple(steps))


def _step(here: Here, step: Step, number: int, values: StepValues) -> StepView:
    point = step.point
    return StepView(
        number=number,
        key=step.key,
        warnings=warnings(here, step.hazards),
        do=here.line(step.do),
        key_point=here.line(step.key_point),
        why=here.line(step.why),
        expect=here.line(step.expect),
        subjects=_subjects(here, step),
        supplies=here.links("supply", step.supplies),
        tools=here.links("tool", step.tools),
        defects=defects_of(here, step),
        timing=tuple(_timing(here, step)),
        measures=tuple([_measure(here, measure) for measure in step.measure]),
        hold=here.line(point.proof) if point else NOTHING,
        hold_sort=point.sort if point else "",
        hold_by=point.releases if point else "",
        photo=here.line(step.photo),
        choices=tuple([Row(choice.if_, here.line(choice.do)) for choice in step.choices]),
        worked=worked_blocks(here, values.get(step.key, ())),
        exemptions=tuple([
            Row(here.book.catalogue.title(Ref("rule", exemption.rule)), here.line(exemption.because))
            for exemption in step.except_
        ]),
        pictures=pictures(here, step.figure) if step.figure else (),
    )  # fmt: skip


def _subjects(here: Here, step: Step) -> tuple[Link, ...]:
    refs = [parse_reference(text) for text in step.on]
    return tuple([here.link_to(ref) for ref in refs if ref is not None and ref.kind not in LONE_SUBJECTS])


def _timing(here: Here, step: Step) -> Iterator[Row]:
    if step.minutes is not None:
        hands = f"{step.hands} people" if step.hands > 1 else ""
        yield Row("Time", Html(minutes_shown(step.minutes)), hands)
    if step.needs_place:
        yield here.row("Place", step.needs_place)
    wait = step.wait
    if wait is not None:
        at = (" at ", here.shown(wait.at)) if wait.at else ()
        most = (", at most ", here.shown(wait.most)) if wait.most else ()
        lasts = said(here.shown(wait.least), *at, *most)
        yield here.row(f"Wait: {wait.for_}", lasts, "stay with it" if wait.attended else "")


def _measure(here: Here, measure: Measure) -> Row:
    low, high = measure.low, measure.high
    if low is not None and high is not None:
        limits = said(here.shown(low), " to ", here.shown(high))
    elif low is not None:
        limits = said(here.shown(low), " or more")
    elif high is not None:
        limits = said(here.shown(high), " or less")
    else:
        limits = said(f"record in{NO_BREAK}", here.book.units.name(measure.unit))
    return here.row(measure.name, limits, here.book.catalogue.title(Ref("source", measure.source)))


def _aside(here: Here, procedure: Procedure) -> tuple[Block, ...]:
    phases = tuple(Link(f"{at} {phase.title}", f"#phase_{at}") for at, phase in enumerate(procedure.phases, 1))
    rest = (Link("Close-out", "#part_close_out"), Link(OTHERS_USED, "#part_uses"))
    blocks: list[Block] = [Links("On this page", (*phases, *rest))]
    blocks.append(Links("Works on", here.links("panel", procedure.panels)))
    if procedure.applies_to:
        blocks.append(Items("Applies to", here.lines(procedure.applies_to)))
    blocks.append(Links("Seams", tuple(_used_seams(here, procedure))))
    return tuple(blocks)


def _used_seams(here: Here, procedure: Procedure) -> Iterator[Link]:
    texts = (text for phase in procedure.phases for step in phase.steps for text in step.on)
    for ref in dict.fromkeys(parse_reference(text) for text in texts):
        if ref is not None and ref.kind == "seam":
            yield here.link_to(ref)


def _passages(here: Here, procedure: Procedure) -> Iterator[Passage]:
    yield passage("", procedure.title, procedure.purpose)
    for at, phase in enumerate(procedure.phases, 1):
        yield from _phase_passages(here, at, phase)


def _phase_passages(here: Here, at: int, phase: Phase) -> Iterator[Passage]:
    yield passage(f"phase_{at}", phase.title, phase.title)
    for step in phase.steps:
        # The key and the act say in a word or two what the step is about, as nothing on the page does.
        name = f"{step.key.replace('-', ' ')} {here.book.catalogue.title(Ref('act', step.act))}"
        yield passage(step.key, step.do, step.do, step.key_point, step.why, step.expect, name=name)
