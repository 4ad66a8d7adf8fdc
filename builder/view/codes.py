"""The codes of problems -> the page that says what each means, the same that `seambook explain` prints."""

from __future__ import annotations

from collections.abc import Iterable
from html import escape

from builder.model.problem import Code
from builder.model.reference import Ref
from builder.model.views import Block, Card, Cards, Html, Page
from builder.view.here import Book, Here
from builder.view.lists import CODES, plain_page

STAGES = {
    "R": "Reading the files", "S": "The form of a record", "L": "References", "C": "The order of work",
    "F": "Formulas, units and tables", "W": "Working things out",
    "P": "Pictures",
    "H": "The style of the house",
}  # fmt: skip
"""By the first letter of their codes, in the order of the way through."""


def codes_page(book: Book, codes: Iterable[Code]) -> Page:
    """Make the page, one part a stage."""
    here = Here(book, CODES)
    by_stage: dict[str, list[Code]] = {}
    for code in codes:
        by_stage.setdefault(code.id[0], []).append(code)
    order = [*STAGES, *sorted(by_stage.keys() - STAGES.keys())]
    blocks: tuple[Block, ...] = tuple(
        Cards(STAGES.get(stage, stage), tuple(_card(code) for code in by_stage[stage]), f"stage_{stage.lower()}")
        for stage in order if stage in by_stage
    )  # fmt: skip
    lead = (
        "A book with a mistake in it is not published. Each mistake is told with its place, what to do, and one of "
        "these codes. `seambook explain` prints the same."
    )
    return plain_page(here, Ref("page", "codes"), "What a problem means", here.paragraphs(lead), blocks, is_found=True)


def _card(code: Code) -> Card:
    said = Html(escape(" ".join(code.explanation.split())))
    return Card(Html(f"{code.id} {code.name.replace('_', ' ')}"), text=said, anchor=f"code_{code.id.lower()}")
