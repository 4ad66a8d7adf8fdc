"""A content folder -> what all its pages say, as the index takes it, with no page drawn."""

from __future__ import annotations

from pathlib import Path
from typing import NamedTuple

from builder import publish, view, work
from builder.drawing import Drawing
from builder.model.files import Layer
from builder.model.reference import Ref
from builder.model.views import Page
from builder.order import Order
from builder.passes import Way, unpack


class Views(NamedTuple):
    """Pages in the order in which the index numbers them."""

    records: dict[Ref, Page]
    others: tuple[Page, ...]
    """Those that show no record, which come after."""
    names: tuple[tuple[str, ...], ...]
    quiet: tuple[str, ...]


def drawing_of(order: Order) -> Drawing:
    """Read, link and judge a book, and get ready to draw whichever of its records is asked for; nothing is put down."""
    way = Way(order)
    gathered = way.gather(way.discover())
    catalogue = way.connect(gathered)
    programs = way.judge(gathered, catalogue)
    never = order.layers[0].path / "never"
    return Drawing(way, gathered, catalogue, programs, publish.Desk(never, never), way.keeper)


def views_of(content: Path) -> Views:
    """Read, link and judge a library and make the view of every page."""
    drawing = drawing_of(Order((Layer(content, "content"),)))
    way, gathered, catalogue = drawing.way, drawing.gathered, drawing.catalogue
    records = {}
    for ref in sorted(gathered.summaries, key=drawing.book.links.path):
        record = unpack(ref, gathered)
        records[ref] = view.view(drawing.book, ref, record, work.work(ref, record, catalogue, drawing.shop)[0])
    assert not way.has_failed(), way.problems[:3]
    others = tuple(page for own in drawing.own_pages() for page in own.pages())
    return Views(records, others, tuple(drawing.names()), tuple(drawing.own.quiet))
