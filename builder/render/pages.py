"""Page views in, HTML out: templates are read and compiled once, and asked for nothing but to be filled."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path
from typing import Any, Protocol, TypeVar

from jinja2 import Environment, FileSystemLoader, StrictUndefined, Template

from builder.model.views import Block, Figure, Html, Page, Site, Warning, Worked
from builder.render.drawings import draw

_PAGE = "pages/page.html"
V = TypeVar("V", contravariant=True)


class Part(Protocol[V]):
    """A part of a page as the templates call it."""

    def __call__(self, view: V, /) -> str:
        """Return the part's mark-up."""


@dataclass(frozen=True, slots=True)
class Renderer:
    """The templates of one folder, ready to be filled; made by `open_renderer`."""

    page: Template
    message: Part[Warning]
    """A safety message: the same few stand before many steps."""
    values: Part[Worked]
    """Answers worked out: the same stand in a step and on its seam's page."""

    def render(self, page: Page, site: Site) -> bytes:
        """One page as UTF-8. What is no `Html` in the view is escaped."""
        drawings = _drawings((*page.main, *page.aside))
        made = self.page.render(
            page=page, site=site, drawings=drawings, message=self.message, values=self.values
        )
        return made.encode()


def open_renderer(templates: Path) -> Renderer:
    """Read and compile the templates; a mistake in one is raised here or at the first page."""
    environment = Environment(
        loader=FileSystemLoader(templates),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        auto_reload=False,
        cache_size=-1,
    )
    # A view has every attribute a template names and is no mapping, so Jinja's search for items beside attributes
    # would only cost time: a tenth of a page's.
    environment.getattr = getattr  # type: ignore[method-assign, assignment]
    return Renderer(
        environment.get_template(_PAGE),
        _part(environment, "parts/warning.html", "message"),
        _part(environment, "parts/worked_values.html", "values"),
    )


def _part(environment: Environment, template: str, macro: str) -> Part[Any]:
    """Return a template's macro that keeps what it made: the same view gives the same mark-up."""
    return lru_cache(maxsize=8192)(getattr(environment.get_template(template).module, macro))


def _drawings(blocks: Iterable[Block]) -> dict[str, Html]:
    """Every drawing of the page, by its id."""
    return {block.drawing.id: draw(block) for block in blocks if isinstance(block, Figure)}
