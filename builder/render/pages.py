"""Page views in, HTML out: templates are read and compiled once, and asked for nothing but to be filled."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import lru_cache
from hashlib import sha256
from pathlib import Path
from typing import TYPE_CHECKING, Any, cast, get_args

from markupsafe import escape

from builder.model.bay_procedure import BayProcedure
from builder.model.views import Block, Page, Site
from builder.model.whole import Whole
from builder.render.bay import bay_parts
from builder.render.drawings import code, draw, draw_view, lay, plot, strip_sheets
from builder.render.whole import section_of

if TYPE_CHECKING:
    from jinja2 import Environment, Template

_PAGE, _WHOLE, _RECORD = "pages/page.html", "pages/print.html", "parts/record.html"
EDITION_MARK = "\ue000edition\ue000"
"""Stands for the page's edition while a template is filled; no record holds these two characters of nobody's."""
FORMS = tuple(block.form for block in get_args(Block))
"""Each form of block has a template part of its name."""


@dataclass(frozen=True, slots=True)
class Renderer:
    """The templates of one folder, ready to be filled; made by `open_renderer`."""

    page: Template
    whole: Template
    record: Template
    told: Callable[..., str]
    beside: Callable[..., str]
    message: Callable[..., str]

    def bay(self, procedure: BayProcedure) -> dict[str, Any]:
        """A procedure's steps in pieces, as the page that shows them one at a time puts them together."""
        return bay_parts(procedure, self.told, self.beside, self.message)

    def render(self, page: Page, site: Site) -> bytes:
        """One page as UTF-8. What is no `Html` in the view is escaped."""
        return with_edition(_light(self.page.render(page=page, site=site))).encode()

    def render_whole(self, whole: Whole, site: Site) -> bytes:
        """A document of many records as UTF-8; each is filled in when its turn comes."""
        sections = ((page, section_of(self.record.render(page=page), page.path, page.title)) for page in whole.pages)
        return _light(self.whole.render(whole=whole, site=site, sections=sections)).encode()


def open_renderer(templates: Path) -> Renderer:
    """Read and compile the templates; a mistake in one is raised here or at the first page."""
    from builder.render.environment import open_environment

    environment = open_environment(templates)
    environment.filters["e"] = lru_cache(maxsize=16384)(_escaped)
    message = lru_cache(maxsize=4096)(_macro(environment, "parts/warning.html", "message"))
    # The same safety messages stand before many steps, the same answers in a step and on its seam's page.
    environment.globals.update(
        code=lru_cache(maxsize=256)(code),
        edition_mark=EDITION_MARK,
        draw=draw,
        draw_view=draw_view,
        lay=lay,
        strip_sheets=strip_sheets,
        plot=plot,
        message=message,
        chosen=lru_cache(maxsize=4096)(_macro(environment, "parts/choosing.html", "in_step")),
        values=lru_cache(maxsize=4096)(_macro(environment, "parts/worked_values.html", "values")),
    )
    parts = {form: _macro(environment, f"parts/{form}.html", "part") for form in FORMS}
    environment.globals["part"] = lambda block: parts[block.form](block)
    whole, record = environment.get_template(_WHOLE), environment.get_template(_RECORD)
    told, beside = (_macro(environment, "parts/step.html", name) for name in ("told", "beside"))
    return Renderer(environment.get_template(_PAGE), whole, record, told, beside, message)


def with_edition(page: str) -> str:
    """Put a page's edition where it is said: what stands between head and foot, as eight digits.

    A sheet of paper and the page on a phone say the same one as long as nothing of it has changed. The book's own
    fingerprint would change with every record, and every page of the book with it.
    """
    said = page[page.find("<main") : page.rfind("</main>")]
    return page.replace(EDITION_MARK, sha256(said.encode()).hexdigest()[:8])


def _light(page: str) -> str:
    """Write apostrophes as they are: no attribute of a page stands between two."""
    return page.replace("&#39;", "'")


def _escaped(text: str) -> str:
    """Escape for the busy parts, which write what they are given."""
    return str(escape(text))


def _macro(environment: Environment, template: str, name: str) -> Callable[..., str]:
    """Return a template's macro: a part of a page that costs no context of its own."""
    return cast("Callable[..., str]", getattr(environment.get_template(template).module, name))
