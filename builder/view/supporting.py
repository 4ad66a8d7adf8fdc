"""Tables, supplies, tools, hazards, terms, sources and scales -> their pages."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from builder.model.records.supporting import Calibrated, Fact, Hazard, Scale, Source, Supply, Term, Tool
from builder.model.records.table import Column, Key, Table
from builder.model.reference import Ref
from builder.model.said import Said, said
from builder.model.signs import sign
from builder.model.standing import SORT
from builder.model.views import Block, Facts, Grid, Html, Items, Links, Page, Prose, Row, Warnings
from builder.view.bought import bought_blocks
from builder.view.figure import pictures_block
from builder.view.here import Here
from builder.view.page import page, passage
from builder.view.resting import values_block
from builder.view.used import used_by
from builder.view.warnings import warnings


def _facts(here: Here, facts: Iterable[Fact]) -> Facts:
    rows = tuple(
        here.row(fact.say, here.shown(fact.value), here.book.catalogue.title(Ref("source", fact.source)))
        for fact in facts
    )  # fmt: skip
    return Facts("Figures", rows, "facts")


def table_page(here: Here, ref: Ref, table: Table) -> Page:
    """Make a table's page: the rows as the source prints them."""
    columns: dict[str, Key | Column] = {**table.keys, **table.columns}
    head = [_heading(here, column) for column in columns.values()]
    rows = tuple(
        tuple(_cell(here, row.get(name, "-"), column) for name, column in columns.items()) for row in table.rows
    )
    main: tuple[Block, ...] = (
        Grid("The table", tuple(one.text for one in head), rows, _note(here, table, columns.values()), "table",
             numeric=(True,) * len(head), other_head=tuple(one.other for one in head)),
        Links("Sources", here.links("source", table.sources), "None.", "sources"),
    )
    return page(
        here, ref, table.title, "Table", here.paragraphs(table.about), main, aliases=table.was,
        texts=(passage("", table.title, table.about),),
    )  # fmt: skip


def _cell(here: Here, text: str, column: Key | Column) -> Html:
    return here.both(here.book.units.number(text, column.unit or ""))


def _heading(here: Here, column: Key | Column) -> Said:
    return said(column.say, ", ", here.book.units.name(column.unit)) if column.unit else Said(column.say)


def _note(here: Here, table: Table, columns: Iterable[Key | Column]) -> Html:
    """Beside the table's own note, in which units its source prints what a reader may see converted."""
    printed = dict.fromkeys(sign(column.unit) for column in columns if column.unit in here.book.units.pairs)
    parts = [here.line(table.note)] if table.note else []
    if printed:
        parts.append(here.text(f"The source prints {' and '.join(printed)}; figures in other units are converted."))
    return Html(" ".join(parts))


def supply_page(here: Here, ref: Ref, supply: Supply) -> Page:
    """Make a consumable's page."""
    film = (Facts("As used", (here.row("Dry film", here.shown(supply.film)),)),) if supply.film else ()
    main: tuple[Block, ...] = (
        *film,
        *((_facts(here, supply.facts),) if supply.facts else ()),
        *bought_blocks(here, supply),
        Items("Take care", here.lines(supply.cautions), "Nothing beside its data sheet.", "cautions"),
    )
    return page(
        here, ref, supply.title, "Supply", here.paragraphs(supply.summary), main, aliases=supply.was,
        texts=(passage("", supply.title, supply.summary, *supply.cautions),),
    )  # fmt: skip


def tool_page(here: Here, ref: Ref, tool: Tool) -> Page:
    """Make a tool's page."""
    main: tuple[Block, ...] = (
        *pictures_block(here, tool.figures),
        Items("Before it is used", here.lines(tool.checks), "Nothing.", "checks", tick=True),
        *((_facts(here, tool.facts),) if tool.facts else ()),
        *((_calibration(here, tool.calibrated),) if tool.calibrated else ()),
    )
    return page(
        here, ref, tool.title, "Tool", here.paragraphs(tool.summary), main, aliases=tool.was,
        texts=(passage("", tool.title, tool.summary, *tool.checks),),
    )  # fmt: skip


def _calibration(here: Here, calibrated: Calibrated) -> Facts:
    source = here.book.catalogue.title(Ref("source", calibrated.source))
    return Facts("Calibration", (here.row("Every", here.shown(calibrated.every), source),), "calibrated")


def hazard_page(here: Here, ref: Ref, hazard: Hazard) -> Page:
    """Make a danger's page."""
    main: tuple[Block, ...] = (
        Warnings("", tuple(one._replace(href="") for one in warnings(here, (ref.id,)))),
        Items("What protects", here.lines(hazard.protect), "Nothing but keeping away.", "protect"),
        Items("Safety signs", here.lines(hazard.signs), "None.", "signs"),
        Items("What outranks this page", (here.line(hazard.defer),), anchor="defer"),
        *pictures_block(here, hazard.figures),
        Links("Source", here.links("source", (hazard.source,)), anchor="sources"),
    )
    return page(
        here, ref, hazard.title, "Hazard", Html(""), main, aliases=hazard.was,
        texts=(passage("", hazard.title, hazard.danger, hazard.avoid, hazard.consequence),),
    )  # fmt: skip


def term_page(here: Here, ref: Ref, term: Term) -> Page:
    """Make a word's page."""
    main: tuple[Block, ...] = (
        Items("Also called", tuple(here.text(word) for word in term.synonyms), "Nothing else.", "synonyms"),
        Links("See also", here.links("term", term.see), "Nothing.", "see"),
    )
    return page(
        here, ref, term.title, "Term", here.paragraphs(term.means), main, aliases=(*term.was, *term.synonyms),
        texts=(passage("", term.title, term.means),),
    )  # fmt: skip


def source_page(here: Here, ref: Ref, source: Source) -> Page:
    """Make a citation's page, with all that rests on it."""
    said = {
        "Sort": here.book.word(SORT, source.sort), "Publisher": source.publisher, "Number": source.number,
        "Issued": source.issued,
    }  # fmt: skip
    rows = [here.row(label, text) for label, text in said.items() if text]
    rows.append(Row("Seen", here.line(source.seen)))
    main: tuple[Block, ...] = (
        Facts("This source", tuple(rows), "source"),
        *((Prose("About it", here.paragraphs(source.about), "about"),) if source.about else ()),
        *values_block(here, ref),
        used_by(here, ref, "Records that name it", "rests"),
    )
    made = page(
        here, ref, source.title, "Source", Html(""), main, aliases=source.was,
        texts=(passage("", source.title, source.publisher, source.number, source.about),),
    )  # fmt: skip
    return replace(made, aside=())  # who uses it is told above


def scale_page(here: Here, ref: Ref, scale: Scale) -> Page:
    """Make a scale's page: its words in order."""
    rows = tuple(
        (here.text(word.say), here.line(word.means),
         here.anchor(here.link("source", word.source)) if word.source else Html(""))
        for word in scale.words.values()
    )  # fmt: skip
    main = (Grid("Its words, mildest first", ("Word", "Means", "Source"), rows, anchor="words"),)
    return page(
        here, ref, scale.title, "Scale", here.paragraphs(scale.summary), main, aliases=scale.was,
        texts=(passage("", scale.title, scale.summary, *(word.say for word in scale.words.values())),),
    )  # fmt: skip
