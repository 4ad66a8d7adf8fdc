"""A calculator -> its page: the question, the live form with printed answers, the formulas, proofs and sources."""

from __future__ import annotations

import hashlib
from collections.abc import Iterator

from builder.model.calculation import Notice, Slip
from builder.model.records.calculator import NO_ANSWER, Calculator, Input, Output, Proof
from builder.model.records.table import Table
from builder.model.reference import Ref
from builder.model.said import Said
from builder.model.standing import beside, standing, table_sources
from builder.model.views import Ask, Block, Form, Grid, Html, Items, Links, Option, Page, Prose
from builder.model.work import Worked
from builder.view import plots, points
from builder.view.formulas import formulas_block
from builder.view.here import Here
from builder.view.learnt_from import fingerprint
from builder.view.lists import LISTS
from builder.view.mathml import readable
from builder.view.moments import at_its_moment
from builder.view.offered import asked_units, limits_of, shown_units
from builder.view.page import page, passage
from builder.view.shared import shared
from builder.view.worked import cautions, value_row

FINGERPRINT = 16
"""Signs of the fingerprint on a slip: enough to tell two calculators, or two strips, apart."""


def calculator_page(here: Here, ref: Ref, calculator: Calculator, worked: Worked) -> Page:
    """Make the page; it is worked out for its starting values."""
    started = worked.started
    held = standing(calculator, here.book.shelf)
    main: list[Block] = [Notice("", here.line(held.say), "rests_on")] if held.say else []
    main += [
        *points.point_entry(here, calculator, started),
        Form(
            id=ref.id,
            asks=tuple(_ask(here, name, ask) for name, ask in calculator.inputs.items()),
            answers=tuple(value_row(here, value) for value in (started.answers if started else ())),
            answer_ids=tuple(calculator.outputs),
            answer_signs=tuple(here.book.units.behind(output.unit or "") for output in calculator.outputs.values()),
            cautions=cautions(here, started.remarks if started else ()),
            title="Work it out",
            answer_units=tuple(shown_units(here.book.units, output.unit) for output in calculator.outputs.values()),
        ),
        *points.point_results(here, calculator, started),
        *plots.plots(here.book.units, calculator, worked),
    ]
    if calculator.limits:
        main.append(Items("Where it does not hold", here.lines(calculator.limits), anchor="limits"))
    main.append(_slip(here, calculator))
    if calculator.about:
        main.append(Prose("How to read it", here.paragraphs(calculator.about), "about"))
    main.append(formulas_block(here, calculator, started.steps if started else ()))
    if calculator.fixed or calculator.points:
        main.append(Grid("Fixed values", ("Name", "Value", "Source"), tuple(_fixed(here, calculator)), anchor="fixed"))
    warned = tuple(here.line(warning.say) for warning in calculator.warnings)
    main.append(Items("It warns", warned, "Of nothing.", "warns"))
    main.append(Items("Proofs", tuple(_proof(here, calculator, proof) for proof in calculator.proofs), anchor="proofs"))
    main.append(Links("Sources", here.links("source", calculator.sources), "None.", "sources"))
    return page(
        here, ref, calculator.title, "Calculator", here.line(calculator.asks), tuple(main),
        _aside(here, ref, calculator),
        texts=(
            passage("", calculator.title, calculator.asks, calculator.about),
            *(passage("also", phrase) for phrase in calculator.also),
        ), aliases=calculator.was,
        scripts=(
            *shared("numbers", "working", "entering"), *plots.scripts(calculator),
            f"assets/calc/{ref.id}.js", *points.scripts(calculator), *shared("calculator"),
        ),
    )  # fmt: skip


def _aside(here: Here, ref: Ref, calculator: Calculator) -> tuple[Block, ...]:
    tables = dict.fromkeys(calculator.tables.values())
    links = tuple(here.link("table", id_, _mark_of_table(here, id_)) for id_ in tables)
    return (*at_its_moment(here, ref, calculator, LISTS), *((Links("Reads", links),) if links else ()))


def _mark_of_table(here: Here, id_: str) -> str:
    record = here.book.shelf.get(Ref("table", id_))
    return beside(table_sources(record), here.book.shelf) if isinstance(record, Table) else ""


def _slip(here: Here, calculator: Calculator) -> Slip:
    titles = tuple(link.text for link in here.links("source", calculator.sources))
    return Slip("", titles, here.book.site.title, _fingerprint(here, calculator), "slip", here.address)


def _fingerprint(here: Here, calculator: Calculator) -> str:
    """Return what is the same as long as the calculator and the tables it reads say the same."""
    tables = (here.book.shelf.get(Ref("table", id_)) for id_ in calculator.tables.values())
    marks = "".join(fingerprint(record) for record in (calculator, *tables) if record is not None)
    return hashlib.sha256(marks.encode()).hexdigest()[:FINGERPRINT]


def _ask(here: Here, name: str, ask: Input) -> Ask:
    units = here.book.units
    options: tuple[Option, ...] = ()
    start = ask.start or ask.default or ""
    if ask.choose:
        options = tuple(Option(id_, Said(label), id_ == start) for id_, label in ask.choose.items())
    elif ask.one_of:
        options = tuple(Option(text, units.value(text, ""), text.split()[0] == start) for text in ask.one_of)
    return Ask(
        id=name, label=ask.ask, unit=units.name(ask.unit or ""), start=units.entry(start, ask.unit or ""),
        limits=here.both(limits_of(here.book.units, ask)), help=here.line(ask.help),
        options=options, optional=ask.default is not None, units=asked_units(here.book.units, ask),
    )  # fmt: skip


def _fixed(here: Here, calculator: Calculator) -> Iterator[tuple[Html, Html, Html]]:
    for name, fixed in calculator.fixed.items():
        value = here.both(here.book.units.value(fixed.value, fixed.unit or ""))
        note = f" {here.line(fixed.note)}" if fixed.note else ""
        yield here.text(readable(name)), value, Html(f"{_source(here, fixed.source)}{note}")
    yield from points.point_limits(here, calculator)


def _proof(here: Here, calculator: Calculator, proof: Proof) -> Html:
    units = here.book.units
    given = ", ".join(f"{here.text(ask.ask)} {here.both(units.value(text, ask.unit or ''))}"
                      for name, text in proof.given.items() if (ask := calculator.inputs.get(name)))  # fmt: skip
    expect = ", ".join(f"{here.text(output.say)} {_expected(here, text, output)}"
                       for name, text in proof.expect.items() if (output := calculator.outputs.get(name)))  # fmt: skip
    note = f" {here.line(proof.note)}" if proof.note else ""
    return Html(f"{given}: {expect}. {_source(here, proof.source)}.{note}{points.proof_points(here, proof)}")


def _expected(here: Here, text: str, output: Output) -> Html:
    """What a proof expects, as the answer is shown; no answer has no unit, and a number may tell a word."""
    if text == NO_ANSWER:
        return here.text(text)
    return here.both(here.book.units.value(output.tells.get(text, text), "" if output.tells else output.unit or ""))


def _source(here: Here, id_: str) -> Html:
    """A source at the thing that rests on it, with what must be seen there."""
    mark = beside((id_,), here.book.shelf)
    link = here.anchor(here.link("source", id_))
    return Html(f'{link} <strong class="mark">({here.text(mark)})</strong>') if mark else link
