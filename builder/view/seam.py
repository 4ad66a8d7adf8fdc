"""A seam -> its page: the section of each segment, its run, what each allowed method comes to, what it closes."""

from __future__ import annotations

from collections.abc import Sequence

from builder.formula.numbers import fixed, plain
from builder.model.choosing import Choosing
from builder.model.decided import Decided
from builder.model.drawings import DrawnSheet, DrawnWeld, Run, RunSegment, Section
from builder.model.plan_views import PlannedSegment
from builder.model.quantity import Quantity
from builder.model.records.body import Seal, Seam, Segment, Sheet
from builder.model.records.law import Method
from builder.model.reference import Ref
from builder.model.said import Said, joined, said
from builder.model.views import Block, Facts, Figure, Grid, Html, Link, Links, Page, Prose, Row
from builder.model.work import MethodPlan, SeamPlan, SegmentPlan
from builder.view.choosing import choosing_blocks
from builder.view.figure import pictures_block
from builder.view.here import Here
from builder.view.layout import SCRIPTS, called, is_stopped, layouts
from builder.view.page import page, passage
from builder.view.plan import FACES, planned
from builder.view.shared import shared
from builder.view.units import millimetres

THICKNESS_SCALE = 5.0
WIDTH_SCALE = 2.0
"""A drawing's scales: paper mm to one mm of sheet and of flange; both are printed under the drawing."""
NOT_SAID = Said("")
SEGMENTS = "Segments"


def seam_page(here: Here, ref: Ref, seam: Seam, plan: SeamPlan, decided: tuple[Decided, ...] = ()) -> Page:
    """Make the page; `plan` holds the answers worked out for each segment, in order."""
    main: list[Block] = []
    for at, (segment, worked) in enumerate(zip(seam.segments, plan, strict=True), 1):
        main.append(_section(here, seam, segment, worked, at))
    main += [*layouts(here, ref, seam, plan)] or [_run(here, seam)]
    main += choosing_blocks(here, decided)
    main.append(_segments(here, seam))
    blocks = tuple(
        planned(here, ref.id, segment, worked, at, len(plan))
        for at, (segment, worked) in enumerate(zip(seam.segments, plan, strict=True), 1)
    )
    main += blocks
    main += pictures_block(here, seam.figures)
    if seam.notes:
        main.append(Prose("Notes", here.paragraphs(seam.notes), "notes"))
    main.append(Links("Sources", here.links("source", seam.sources), "None.", "sources"))
    main.insert(0, _contents(here, ref, main))
    return page(
        here, ref, seam.title, "Seam", here.paragraphs(seam.summary), tuple(main), _aside(here, seam),
        texts=(passage("", seam.title, seam.summary, seam.notes),),
        aliases=seam.was, scripts=tuple(dict.fromkeys((*_scripts(ref, plan, blocks), *SCRIPTS))),
    )  # fmt: skip


def _contents(here: Here, ref: Ref, main: Sequence[Block]) -> Links:
    """The ways past the drawings: with a plan for each segment and method the page is long on a phone."""
    named = [(block.title, block.anchor) for block in main if isinstance(block, Choosing | PlannedSegment | Prose)]
    ways = tuple(Link(title, here.href(ref._replace(anchor=anchor))) for title, anchor in named if title and anchor)
    return Links("On this page", ways, anchor="on-this-page", in_a_row=True)


def _scripts(ref: Ref, plan: SeamPlan, blocks: tuple[PlannedSegment, ...]) -> tuple[str, ...]:
    """What works the plans out again for another length: calculators and methods as they are, and the seam's own."""
    if not any(block.ask for block in blocks):
        return ()
    methods = dict.fromkeys(method.method for segment in plan for method in segment.methods)
    calculators = dict.fromkeys(id_ for segment in plan for method in segment.methods for id_ in method.calculators)
    return (
        *shared("numbers", "working", "entering"),
        *(f"assets/calc/{id_}.js" for id_ in calculators), *(f"assets/method/{id_}.js" for id_ in methods),
        f"assets/seam/{ref.id}.js", *shared("plan"),
    )  # fmt: skip


def _section(here: Here, seam: Seam, segment: Segment, plan: SegmentPlan, at: int) -> Figure:
    section = Section(
        id=f"section-{at}",
        flange=millimetres(segment.flange) or 0.0,
        sheets=tuple(_drawn_sheet(here, sheet) for sheet in segment.sheets),
        weld=_drawn_weld(here, plan),
        film=here.book.catalogue.title(Ref("supply", seam.film)) if seam.film != "none" else "",
        flange_said=here.shown(segment.flange),
        seal=_seal_text(here, seam.seal) if isinstance(seam.seal, Seal) else NOT_SAID,
        seal_profile=seam.seal.profile if isinstance(seam.seal, Seal) else "",
        seal_size=(millimetres(seam.seal.size) or 0.0) if isinstance(seam.seal, Seal) else 0.0,
        thickness_scale=THICKNESS_SCALE,
        width_scale=WIDTH_SCALE,
        is_staggered=any(method.is_staggered for method in _drawn_methods(here, plan)[:1]),
    )
    title = f"Section: {called(seam, segment, at)}"
    return Figure(title, section, _in_words(here, seam, segment, section), anchor=f"section-{at}-figure")


def _drawn_sheet(here: Here, sheet: Sheet) -> DrawnSheet:
    note = f"{here.book.word('strength', sheet.strength)}, {here.book.word('coating', sheet.coating)}"
    thickness = here.shown(sheet.thickness) if sheet.thickness is not None else said("? ", here.book.units.name("mm"))
    title = here.book.catalogue.title(Ref("panel", sheet.panel))
    return DrawnSheet(title, millimetres(sheet.thickness), thickness, note)


def _drawn_weld(here: Here, plan: SegmentPlan) -> DrawnWeld | None:
    for method in _drawn_methods(here, plan)[:1]:
        record = here.book.shelf.get(Ref("method", method.method))
        if isinstance(record, Method):
            label = said(method.mark_say or record.title)
            if method.mark_width is not None:
                width = here.book.units.answer(fixed(method.mark_width, 1), "mm", method.mark_width)
                label = said(label, " ", width)
            return DrawnWeld(record.draws, label, method.mark_width, method.has_stepped_holes)
    return None


def _drawn_methods(here: Here, plan: SegmentPlan) -> tuple[MethodPlan, ...]:
    """The section shows the best method that no limit stops; else the first of the list."""
    free = (method for method in plan.methods if not is_stopped(method))
    known = (*free, *plan.methods)
    return tuple(method for method in known if isinstance(here.book.shelf.get(Ref("method", method.method)), Method))


def _seal_text(here: Here, seal: Seal) -> Said:
    return said(f"sealer, {here.book.word('bead-profile', seal.profile).lower()} ", here.shown(seal.size))


def _in_words(here: Here, seam: Seam, segment: Segment, section: Section) -> Said:
    sheets = joined("; ", [
        said(f"{sheet.label} ", here.shown(given.thickness), f", {sheet.note}")
        for sheet, given in zip(section.sheets, segment.sheets, strict=True)
    ])  # fmt: skip
    parts: list[str | Said] = [
        said(f"{len(section.sheets)} sheets, outermost first: ", sheets), said("flange ", section.flange_said),
    ]  # fmt: skip
    if section.weld is not None:
        parts.append(section.weld.label)
    if section.film:
        parts.append(f"{section.film} on every mating face")
    if section.seal.text:
        parts.append(said(section.seal, " along the edge"))
    parts.append(f"joint: {here.book.word('joint', seam.joint).lower()}")
    return said(joined("; ", parts), ".")


def _run(here: Here, seam: Seam) -> Figure:
    segments = tuple(
        RunSegment(
            called(seam, segment, at), millimetres(segment.length) or 0.0, here.shown(segment.length),
            len(segment.sheets), segment.factory_count,
        )
        for at, segment in enumerate(seam.segments, 1)
    )  # fmt: skip
    words = joined("; ", [
        said(f"{part.label}: ", part.length_said, f", {part.layers} sheets",
             f", {part.welds} factory welds" if part.welds is not None else "")
        for part in segments
    ])  # fmt: skip
    run = Run("run", segments, _whole_length(here, seam))
    return Figure("Along the seam, from the front", run, said(words, "."), anchor="run-figure")


def _segments(here: Here, seam: Seam) -> Grid:
    head = ("Segment", "Length", "Flange", "Sheets, outermost first", "Factory joint", "Reach")
    rows = tuple(
        (
            here.text(called(seam, segment, at)),
            here.quantity(segment.length), here.quantity(segment.flange),
            Html("<br>".join(_sheet_cell(here, sheet) for sheet in segment.sheets)), _factory_cell(here, segment),
            Html(f"{FACES[segment.reach.sides]}, {here.quantity(segment.reach.depth)}"),
        )
        for at, segment in enumerate(seam.segments, 1)
    )  # fmt: skip
    return Grid(SEGMENTS, head, rows, anchor="segments", numeric=(False, True, True, False, False, False))


def _sheet_cell(here: Here, sheet: Sheet) -> str:
    return f"{here.anchor(here.link('panel', sheet.panel))} {here.quantity(sheet.thickness)}"


def _factory_cell(here: Here, segment: Segment) -> Html:
    if segment.factory == "none":
        return here.text("none")
    count = f", {segment.factory.count}" if segment.factory.count is not None else ""
    return Html(here.anchor(here.link("method", segment.factory.method)) + count)


def _aside(here: Here, seam: Seam) -> tuple[Block, ...]:
    panels = dict.fromkeys(sheet.panel for segment in seam.segments for sheet in segment.sheets)
    film = (here.link("supply", seam.film),) if seam.film != "none" else ()
    seal = (here.row("Bead", _seal_text(here, seam.seal)),) if isinstance(seam.seal, Seal) else ()
    return (
        Facts("This seam", (here.row("Joint", here.book.word("joint", seam.joint)), _total(here, seam), *seal)),
        Links("Allowed, best first", here.links("method", seam.methods), "None: ask the vehicle maker."),
        Links("Panels", here.links("panel", panels)),
        Links("Closes", here.links("cavity", seam.closes), "No cavity."),
        *_openings(here, seam),
        Links("On the mating faces", film, "No film."),
    )


def _openings(here: Here, seam: Seam) -> tuple[Links, ...]:
    """Nothing where its panels tell."""
    return () if seam.openings is None else (Links("At", here.links("opening", seam.openings), "No opening."),)


def _total(here: Here, seam: Seam) -> Row:
    return here.row("Length", _whole_length(here, seam))


def _whole_length(here: Here, seam: Seam) -> Said:
    total = sum(millimetres(segment.length) or 0.0 for segment in seam.segments)
    return here.shown(Quantity(plain(total), "mm"))
