"""A vehicle -> its page: what it is, where its data is, and where it differs from the book's records."""

from __future__ import annotations

from builder.model.records.vehicle import Difference, Vehicle
from builder.model.reference import Ref, parse_reference
from builder.model.views import Block, Card, Cards, Facts, Html, Items, Links, Page, Row
from builder.view.here import Here
from builder.view.page import page, passage

DIFFERS = "Where it differs"
SIDES = {"left": "left side", "right": "right side", "both": "both sides"}


def vehicle_page(here: Here, ref: Ref, vehicle: Vehicle) -> Page:
    """Make the page."""
    facts = (Row("Body", here.line(vehicle.body)), Row("Maker's data", here.line(vehicle.data)))
    main: tuple[Block, ...] = (
        Facts("This vehicle", facts, "vehicle"),
        Items("Take care", here.lines(vehicle.cautions), "Nothing of its own.", "cautions"),
        Items("Held up at", here.lines(vehicle.support), "Nothing is recorded: ask the vehicle maker.", "support"),
        _differences(here, vehicle.differs),
        Links("Panels", here.links("panel", vehicle.panels), "None of this book's.", "panels"),
        Links("Procedures proven on it", here.links("procedure", vehicle.procedures), "None yet.", "procedures"),
        Links("Sources", here.links("source", vehicle.sources), "None.", "sources"),
    )
    said = [text for one in vehicle.differs for text in (one.is_, one.do)]
    return page(
        here, ref, vehicle.title, "Vehicle", here.paragraphs(vehicle.summary), main, aliases=vehicle.was,
        texts=(passage("", vehicle.title, vehicle.summary, vehicle.body), passage("differs", DIFFERS, *said)),
    )  # fmt: skip


def _differences(here: Here, differs: tuple[Difference, ...]) -> Block:
    if not differs:
        return Items(DIFFERS, (), "Nowhere that this shop has found.", "differs")
    return Cards(DIFFERS, tuple(_difference(here, one) for one in differs), "differs")


def _difference(here: Here, one: Difference) -> Card:
    ref = parse_reference(one.on)
    of = here.anchor(here.link_to(ref)) if ref is not None else here.text(one.on)
    source = here.anchor(here.link("source", one.source))
    rows = (Row("It is", here.line(one.is_)), Row("So", here.line(one.do)), Row("Source", source))
    return Card(Html(f"{of}, {SIDES[one.side]}"), rows)
