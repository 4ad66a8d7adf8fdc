"""A decision -> its page: where it is shown, what answers it with which facts, what is left open, what outranks it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from builder.model.records.calculator import Calculator, Input
from builder.model.records.decision import Decision
from builder.model.reference import Ref
from builder.model.views import Block, Facts, Html, Items, Links, Page, Row
from builder.view.here import Here
from builder.view.page import page, passage

ON = {"seam": "On the page of each seam, for each segment", "panel": "On the page of each panel"}


def decision_page(here: Here, ref: Ref, decision: Decision) -> Page:
    """Make the page."""
    calculator = here.book.shelf.get(Ref("calculator", decision.works.calculator))
    inputs = calculator.inputs if isinstance(calculator, Calculator) else {}
    main: tuple[Block, ...] = (
        Facts("This decision", (
            Row("Shown", _shown(here, decision)),
            Row("Answered by", here.anchor(here.link("calculator", decision.works.calculator))),
        ), "decision", wide=True),
        Items("What comes before its answer", (here.line(decision.outranks),), anchor="outranks"),
        Facts("What is told of it", tuple(_given(here, decision, inputs)), "told"),
        Items("What is open", tuple(_open(here, decision, inputs)), "Nothing.", "open"),
        Links("Source", here.links("source", (decision.source,)), anchor="sources"),
    )  # fmt: skip
    return page(
        here, ref, decision.title, "Decision", here.paragraphs(decision.summary), main, aliases=decision.was,
        texts=(passage("", decision.title, decision.summary, decision.outranks),),
    )  # fmt: skip


def _shown(here: Here, decision: Decision) -> Html:
    if decision.when.on is not None:
        return here.text(ON[decision.when.on])
    return Html(f"With each step that does it: {here.anchors(here.links('act', decision.when.act))}")


def _given(here: Here, decision: Decision, inputs: Mapping[str, Input]) -> Iterator[Row]:
    for name, asked in inputs.items():
        text = decision.works.with_.get(name)
        if text is not None:
            label = (asked.choose or {}).get(text)
            yield Row(asked.ask, here.text(label) if label else _code(here, text))


def _open(here: Here, decision: Decision, inputs: Mapping[str, Input]) -> Iterator[Html]:
    for name, asked in inputs.items():
        if name in decision.works.with_:
            continue
        labels = asked.choose or {}
        cases = "; ".join(
            f"<b>{here.text(labels.get(id_, id_))}</b>: only where {_code(here, text)}"
            for id_, text in decision.works.possible.get(name, {}).items()
        )
        yield Html(f"{here.text(asked.ask)}{f'. {cases}.' if cases else ''}")


def _code(here: Here, text: str) -> Html:
    return Html(f"<code>{here.text(text)}</code>")
