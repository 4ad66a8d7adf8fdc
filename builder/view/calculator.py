"""A calculator -> its page: the question, the live form with printed answers, the formulas, proofs and sources."""

from __future__ import annotations

from collections.abc import Iterator

from builder.model.records.calculator import Calculator, Input, Proof
from builder.model.records.calculator import Row as DecisionRow
from builder.model.reference import Ref
from builder.model.said import Said, said
from builder.model.views import Ask, Block, Form, Grid, Html, Items, Links, Option, Page, Prose
from builder.model.work import WorkedOut
from builder.view.here import Here
from builder.view.page import page, passage
from builder.view.points import point_entry, point_limits, point_results, proof_points, scripts
from builder.view.worked import cautions, value_row


def calculator_page(here: Here, ref: Ref, calculator: Calculator, started: WorkedOut | None) -> Page:
    """Make the page; `started` is the calculator worked out for its starting values."""
    main: list[Block] = [
        *point_entry(here, calculator, started),
        Form(
            id=ref.id,
            asks=tuple(_ask(here, name, ask) for name, ask in calculator.inputs.items()),
            answers=tuple(value_row(here, value) for value in (started.answers if started else ())),
            answer_ids=tuple(calculator.outputs),
            answer_signs=tuple(here.book.units.behind(output.unit or "") for output in calculator.outputs.values()),
            cautions=cautions(here, started.remarks if started else ()),
            title="Work it out",
        ),
        *point_results(here, calculator, started),
    ]
    if calculator.about:
        main.append(Prose("How to read it", here.paragraphs(calculator.about), "about"))
    main.append(Grid("Formulas", ("Name", "Worked out as"), tuple(_formulas(here, calculator)), anchor="formulas"))
    if calculator.fixed or calculator.points:
        main.append(Grid("Fixed values", ("Name", "Value", "Source"), tuple(_fixed(here, calculator)), anchor="fixed"))
    warned = tuple(here.line(warning.say) for warning in calculator.warnings)
    main.append(Items("It warns", warned, "Of nothing.", "warns"))
    main.append(Items("Proofs", tuple(_proof(here, calculator, proof) for proof in calculator.proofs), anchor="proofs"))
    main.append(Links("Sources", here.links("source", calculator.sources), "None.", "sources"))
    return page(
        here, ref, calculator.title, "Calculator", here.line(calculator.asks), tuple(main), _aside(here, calculator),
        texts=(
            passage("", calculator.title, calculator.asks, calculator.about),
            *(passage("also", phrase) for phrase in calculator.also),
        ), aliases=calculator.was,
        scripts=(
            "assets/js/numbers.js", "assets/js/formula.js", "assets/js/answers.js", "assets/js/entries.js",
            f"assets/calc/{ref.id}.js", *scripts(calculator), "assets/js/calculator.js",
        ),
    )  # fmt: skip


def _aside(here: Here, calculator: Calculator) -> tuple[Block, ...]:
    tables = dict.fromkeys(calculator.tables.values())
    return (Links("Reads", here.links("table", tables)),) if tables else ()


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
        limits=here.both(_limits(here, ask)), help=here.line(ask.help),
        options=options, optional=ask.default is not None,
    )  # fmt: skip


def _limits(here: Here, ask: Input) -> Said:
    whole = "whole numbers, " if ask.whole else ""
    units, unit = here.book.units, ask.unit or ""
    low = units.limit(ask.from_, unit, is_lower=True) if ask.from_ else Said("")
    high = units.limit(ask.to, unit, is_lower=False) if ask.to else Said("")
    if ask.from_ and ask.to:
        return said(whole, low, " to ", high, units.behind(unit))
    if ask.from_:
        return said(whole, low, units.behind(unit), " or more")
    if ask.to:
        return said(whole, high, units.behind(unit), " or less")
    return Said(whole.rstrip(", "))


def _formulas(here: Here, calculator: Calculator) -> Iterator[tuple[Html, Html]]:
    for name, text in calculator.work.items():
        yield Html(f"<code>{name}</code>"), Html(f"<code>{here.text(text)}</code>")
    for name, rows in calculator.decide.items():
        said = "".join(f"<li>{_decision(here, row)}</li>" for row in rows)
        yield Html(f"<code>{name}</code>"), Html(f"<ol>{said}</ol>")


def _decision(here: Here, row: DecisionRow) -> str:
    condition = f"if <code>{here.text(row.if_)}</code>: " if row.if_ else "otherwise: "
    return f"{condition}{here.line(row.say)} {here.line(row.because)}"


def _fixed(here: Here, calculator: Calculator) -> Iterator[tuple[Html, Html, Html]]:
    for name, fixed in calculator.fixed.items():
        value = here.both(here.book.units.value(fixed.value, fixed.unit or ""))
        note = f" {here.line(fixed.note)}" if fixed.note else ""
        source = here.anchor(here.link("source", fixed.source))
        yield Html(f"<code>{name}</code>"), value, Html(f"{source}{note}")
    yield from point_limits(here, calculator)


def _proof(here: Here, calculator: Calculator, proof: Proof) -> Html:
    units = here.book.units
    given = ", ".join(f"{here.text(ask.ask)} {here.both(units.value(text, ask.unit or ''))}"
                      for name, text in proof.given.items() if (ask := calculator.inputs.get(name)))  # fmt: skip
    expect = ", ".join(f"{here.text(output.say)} {here.both(units.value(text, output.unit or ''))}"
                       for name, text in proof.expect.items() if (output := calculator.outputs.get(name)))  # fmt: skip
    note = f" {here.line(proof.note)}" if proof.note else ""
    return Html(
        f"{given}: {expect}. {here.anchor(here.link('source', proof.source))}.{note}{proof_points(here, proof)}"
    )  # fmt: skip
