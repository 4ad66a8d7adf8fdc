"""A figure -> its page; and the ids of figures -> their pictures with captions, for any other page."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from builder.model.pictures import Picture, Pictures, WebFile
from builder.model.records.figure import Figure
from builder.model.reference import Ref
from builder.model.views import Block, Facts, Links, Page
from builder.view.here import NOTHING, Here
from builder.view.page import page, passage

SORTS = {"photo": "Photo", "drawing": "Drawing"}
CREDIT = {"photo": "Photo by", "drawing": "Drawn by"}


def figure_page(here: Here, ref: Ref, figure: Figure) -> Page:
    """Make the page: the picture as large as it goes, which leads to the picture alone; then what is told of it."""
    main: tuple[Block, ...] = (
        Pictures("", (_own_picture(here, ref, figure),), "picture"),
        Facts("This figure", (
            here.row("Sort", SORTS[figure.sort]), here.row(CREDIT[figure.sort], figure.by),
            here.row("What is seen", figure.alt),
        ), "about"),
        Links("Sources", here.links("source", figure.sources), "None.", "sources"),
    )  # fmt: skip
    return page(
        here, ref, figure.title, "Figure", NOTHING, main, aliases=figure.was,
        texts=(passage("", figure.title, figure.caption, figure.alt),),
    )  # fmt: skip


def pictures(here: Here, ids: Iterable[str]) -> tuple[Picture, ...]:
    """Return the pictures of these figures, each leading to its figure's page."""
    return tuple(_picture(here, id_) for id_ in ids)


def pictures_block(here: Here, ids: tuple[str, ...]) -> Iterator[Block]:
    """Make a page's block of pictures, where it has any."""
    if ids:
        yield Pictures("Pictures", pictures(here, ids), "pictures")


def _picture(here: Here, id_: str) -> Picture:
    ref = here.book.catalogue.moved.get(Ref("figure", id_), Ref("figure", id_))
    figure = here.book.shelf[ref]
    assert isinstance(figure, Figure)
    return _shown(here, ref, figure)._replace(href=here.href(ref))


def _own_picture(here: Here, ref: Ref, figure: Figure) -> Picture:
    return _shown(here, ref, figure)._replace(first=True)


def _shown(here: Here, ref: Ref, figure: Figure) -> Picture:
    web = here.book.pictures[ref.id]
    files = [web.small, web.full] if web.small else []
    return Picture(
        src=_path(here, web.small or web.full), width=web.full.width, height=web.full.height,
        srcset=", ".join(f"{_path(here, file)} {file.width}w" for file in files),
        alt=figure.alt, title=figure.title, caption=here.line(figure.caption),
        by=f"{CREDIT[figure.sort]} {figure.by}", href=_path(here, web.full), drawn=figure.sort == "drawing",
    )  # fmt: skip


def _path(here: Here, file: WebFile) -> str:
    return f"{here.root}{file.path}"
