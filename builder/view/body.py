"""Panels, cavities and openings -> their pages."""

from __future__ import annotations

from builder.model.decided import Decided
from builder.model.records.body import Cavity, Dimension, Entry, Hole, Opening, Panel, Station
from builder.model.reference import Ref
from builder.model.signs import NO_BREAK
from builder.model.views import Block, Facts, Grid, Html, Items, Links, Page, Prose, Row
from builder.view.choosing import choosing_blocks
from builder.view.figure import pictures_block
from builder.view.here import Here
from builder.view.page import page, passage
from builder.view.used import users

WITHIN = f"±{NO_BREAK}"
YES_NO = {True: "yes", False: "no"}
PARTS = {"made": "still made", "donor": "from a donor car only", "none": "not to be had", "unknown": "not looked up"}


def _notes(here: Here, notes: str | None) -> tuple[Block, ...]:
    return (Prose("Notes", here.paragraphs(notes), "notes"),) if notes else ()


def panel_page(here: Here, ref: Ref, panel: Panel, decided: tuple[Decided, ...] = ()) -> Page:
    """Make a panel's page."""
    zones = tuple(Html(f"{here.line(zone.where)} {here.line(zone.because)}") for zone in panel.may_section)
    main: tuple[Block, ...] = (
        Facts("This panel", (
            here.row("Strength", here.book.word("strength", panel.strength)),
            here.row("Carries load", YES_NO[panel.load_bearing]),
            *((here.row("Outer skin", YES_NO[panel.skin]),) if panel.skin is not None else ()),
            here.row("New part", PARTS[panel.part]),
            here.row("Left and right", YES_NO[panel.handed]),
            *((here.row("On one side alone", panel.only),) if panel.only else ()),
            *((here.row("One face", here.shown(panel.face.area),
                       here.book.catalogue.title(Ref("source", panel.face.source))),)
              if panel.face is not None else ()),
        ), wide=True),
        Links("Seams", users(here, ref, "seam"), "No seams.", "seams"),
        Items("Hidden layers", here.lines(panel.hidden_layers), "None.", "hidden-layers"),
        Items("May be cut and joined", zones, "At its factory seams only.", "sections"),
        Items("Drains", here.lines(panel.drains), "None.", "drains"),
        *_carried(here, panel),
        Items("The part as bought", here.lines(panel.service_part), "Nothing is missing or wrong.", "service-part"),
        *choosing_blocks(here, decided),
        *pictures_block(here, panel.figures),
        *_notes(here, panel.notes),
        Links("Sources", here.links("source", panel.sources), "None.", "sources"),
    )  # fmt: skip
    aside = (
        Links("Bounds", here.links("opening", panel.bounds), "No opening."),
        Links("Neighbours", here.links("panel", panel.neighbours), "None."),
    )
    return page(
        here, ref, panel.title, "Panel", here.paragraphs(panel.summary), main, aside, aliases=panel.was,
        texts=(passage("", panel.title, panel.summary, panel.notes, *panel.hidden_layers),),
    )  # fmt: skip


def _carried(here: Here, panel: Panel) -> tuple[Block, ...]:
    """What must come over to a new part; of a panel that nobody has looked at for it that is said."""
    if panel.carries is None:
        unseen = "Nobody has written down what is fixed to it. Look before it comes off."
        return (Items("Carries", (), unseen, "carries"),)
    return (Items("Carries, to come over to a new part", here.lines(panel.carries), "Nothing.", "carries"),)


def _holes(here: Here, holes: tuple[Hole, ...]) -> tuple[Html, ...]:
    return tuple(
        Html(f"{hole.count}{NO_BREAK}× {here.line(hole.where)}{size}")
        for hole in holes
        for size in (f", {here.quantity(hole.size)}" if hole.size else "",)
    )  # fmt: skip


def _entries(here: Here, entries: tuple[Entry, ...]) -> tuple[Html, ...]:
    return tuple(Html(f"{here.line(entry.where)}, probe reach {here.quantity(entry.reach)}") for entry in entries)


def cavity_page(here: Here, ref: Ref, cavity: Cavity) -> Page:
    """Make a cavity's page."""
    known = cavity.coating not in ("none", "unknown")
    coating = here.book.catalogue.title(Ref("supply", cavity.coating)) if known else cavity.coating
    main: tuple[Block, ...] = (
        Facts("This cavity", (
            here.row("Coating", coating),
            here.row("Reachable when closed", cavity.reachable_after_closing),
            *_size(here, cavity),
        ), wide=True),
        Items("Drains", _holes(here, cavity.drains), "None.", "drains"),
        Items("Vents", _holes(here, cavity.vents), "None.", "vents"),
        Items("Wax goes in at", _entries(here, cavity.wax_entries), "Nowhere.", "wax"),
        Items("Lives inside", here.lines(cavity.lives_inside), "Nothing.", "inside"),
        *_notes(here, cavity.notes),
        Links("Sources", here.links("source", cavity.sources), "None.", "sources"),
    )  # fmt: skip
    aside = (Links("Closed by", users(here, ref, "seam"), "No seam."),)
    return page(
        here, ref, cavity.title, "Cavity", here.paragraphs(cavity.summary), main, aside, aliases=cavity.was,
        texts=(passage("", cavity.title, cavity.summary, cavity.notes, *cavity.lives_inside),),
    )  # fmt: skip


def _size(here: Here, cavity: Cavity) -> tuple[Row, ...]:
    if cavity.inside is None:
        return ()
    inside = cavity.inside
    return (Row("Inside", here.quantity(inside.length), "long"), Row("Once round", here.quantity(inside.girth)))


def opening_page(here: Here, ref: Ref, opening: Opening) -> Page:
    """Make an opening's page."""
    main: tuple[Block, ...] = (
        Grid("Check dimensions", ("What", "From and to", "Size", "Within", "Source"),
             tuple(_dimension(here, check) for check in opening.checks), anchor="checks",
             numeric=(False, False, True, True, False)),
        Grid("Gap stations", ("Where", "Gap", "Within", "Source"),
             tuple(_station(here, station) for station in opening.stations), anchor="stations",
             numeric=(False, True, True, False)),
        *pictures_block(here, opening.figures),
        *_notes(here, opening.notes),
        Links("Sources", here.links("source", opening.sources), "None.", "sources"),
    )  # fmt: skip
    aside = (Links("Bounded by", users(here, ref, "panel"), "No panel."),)
    return page(
        here, ref, opening.title, "Opening", here.paragraphs(opening.summary), main, aside, aliases=opening.was,
        texts=(passage("", opening.title, opening.summary, opening.notes),),
    )  # fmt: skip


def _dimension(here: Here, check: Dimension) -> tuple[Html, ...]:
    source = here.anchor(here.link("source", check.source))
    size, within = here.quantity(check.size), here.quantity(check.tolerance, before=WITHIN)
    return here.text(check.name), here.line(check.between), size, within, source


def _station(here: Here, station: Station) -> tuple[Html, ...]:
    source = here.anchor(here.link("source", station.source))
    return here.text(station.name), here.quantity(station.gap), here.quantity(station.tolerance, before=WITHIN), source
