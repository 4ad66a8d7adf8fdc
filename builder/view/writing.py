"""Record types and shipped records -> the writing guide: each kind's keys, what each takes, and a whole example."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from functools import lru_cache
from html import escape
from typing import NamedTuple

from builder.formula.functions import FUNCTIONS
from builder.model.forms.form import Either, Form, Items, Key, Named, Part, form_of_record
from builder.model.forms.wording import Scales, leave_out, takes
from builder.model.records import KIND, KINDS, Kind
from builder.model.reference import Ref
from builder.model.views import Block, Card, Cards, Grid, Html, Link, Links, Page, Prose, Row
from builder.view.here import Book, Here
from builder.view.lists import WRITING, plain_page
from builder.view.writing_words import FACTS, FORMULAS, GENERAL, RULES

FOLDER = "writing"


class Example(NamedTuple):
    """A record as it stands in its file."""

    ref: Ref
    text: str


Examples = Mapping[str, Example]
"""By kind."""


def writing_pages(book: Book, scales: Scales, examples: Examples) -> Iterator[Page]:
    """Make the page that begins the guide, and one for each kind."""
    yield _first_page(book)
    for kind in KINDS:
        yield _kind_page(book, kind, scales, examples.get(kind.name))


def _first_page(book: Book) -> Page:
    here = Here(book, WRITING)
    kinds = tuple(Link(kind.plural, _path(kind), f"{kind.name}:id") for kind in KINDS)
    rows = tuple((here.text(row.name), _code(row.example), here.text(row.takes())) for row in FUNCTIONS.values())
    blocks: tuple[Block, ...] = (
        Prose("Files and keys", here.paragraphs(GENERAL), "general"),
        Links("The kinds", kinds, anchor="kinds"),
        Prose("Formulas", here.paragraphs(FORMULAS), "formulas"),
        Grid("Functions", ("Name", "Written", "Takes"), rows, anchor="functions"),
        Prose("Facts", here.paragraphs(FACTS), "facts"),
        Prose("Rules", here.paragraphs(RULES), "rules"),
    )
    return plain_page(here, Ref("page", FOLDER), "How to write records", Html(""), blocks, is_found=True)


def _kind_page(book: Book, kind: Kind, scales: Scales, example: Example | None) -> Page:
    here = Here(book, _path(kind))
    part = form_of_record(kind.type)
    blocks: list[Block] = [_example(here, example)] if example is not None else []
    parts = _parts(part)
    anchors = {one.name: f"keys_{at}" for at, one in enumerate(parts)}
    blocks += [_keys(here, one, scales, anchors) for one in parts]
    blocks.append(Links("More", (Link("How to write records", f"{here.root}{WRITING}"),), anchor="more"))
    lead = Html(f"<p>{here.line(part.doc)} <code>content/{kind.folder}/</code></p>")
    title = f"Writing: {kind.plural.lower()}"
    return plain_page(here, Ref("page", f"{FOLDER}-{kind.name}"), title, lead, tuple(blocks), is_found=True)


def _example(here: Here, example: Example) -> Prose:
    link = here.anchor(here.link_to(example.ref))
    code = f'<div class="yaml" tabindex="0" role="region" aria-label="Example">{_coloured(example)}</div>'
    return Prose("A whole one", Html(f"<p>{link}</p>{code}"), "example")


def _keys(here: Here, part: Part, scales: Scales, anchors: Mapping[str, str]) -> Cards:
    anchor = anchors[part.name]
    title = "Its keys" if anchor == "keys_0" else f"The keys of: {_small(part.doc)}"
    return Cards(title, tuple(_key(here, key, scales, anchors) for key in part.keys), anchor)


def _key(here: Here, key: Key, scales: Scales, anchors: Mapping[str, str]) -> Card:
    ways = [
        f'<a href="#{anchors[part.name]}">{escape(_small(part.doc))}</a>' for part in _parts_below(key.form)
    ]  # fmt: skip
    said = takes(key.form, scales) + (": " if ways else "")
    value = Html(here.text(said[:1].upper() + said[1:]) + ", or ".join(ways))
    free = "" if key.required else f' <span class="note">{escape(leave_out(key))}</span>'
    return Card(Html(_code(key.name) + free), (Row("Takes", value),), here.line(key.doc))


def _small(doc: str) -> str:
    return f"{doc[:1].lower()}{doc[1:].rstrip('.')}"


def _parts(part: Part) -> list[Part]:
    """Return a record's form and those of all parts within it, each once, in the order they are met."""
    found = {part.name: part}
    waiting = [part]
    while waiting:
        for key in waiting.pop(0).keys:
            for below in _parts_below(key.form):
                if below.name not in found:
                    found[below.name] = below
                    waiting.append(below)
    return list(found.values())


def _parts_below(form: Form) -> list[Part]:
    """Return the parts that a value of this form is or holds at once."""
    if isinstance(form, Part):
        return [form]
    if isinstance(form, Items | Named):
        return _parts_below(form.of)
    return [part for one in form.forms for part in _parts_below(one)] if isinstance(form, Either) else []


def _path(kind: Kind) -> str:
    return f"{FOLDER}/{kind.name}.html"


def _code(text: str) -> Html:
    return Html(f"<code>{escape(text)}</code>")


@lru_cache(maxsize=64)
def _coloured(example: Example) -> str:
    """Colour an example, which seldom changes between the builds of a process that stays."""
    from pygments import highlight  # late: a book that is only checked has no page to colour
    from pygments.formatters import HtmlFormatter
    from pygments.lexers import MarkdownLexer, YamlLexer

    lexer = YamlLexer() if KIND[example.ref.kind].ending == ".yaml" else MarkdownLexer()
    return str(highlight(example.text, lexer, HtmlFormatter(classprefix="y-", cssclass="source")))


