"""Methods, acts, states and rules -> their pages, and what scripts are told of rules about whoever it may be."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Any

from builder.model.job_law import AnyonesRule
from builder.model.records.law import Act, Asked, Ban, Effect, Method, Need, Owed, Rule, Spoil, State, StepPart
from builder.model.reference import Ref
from builder.model.shelf import of_kind
from builder.model.views import Block, Facts, Grid, Html, Items, Links, Page, Prose, Row
from builder.view.here import Here
from builder.view.mathml import readable
from builder.view.page import page, passage
from builder.view.set_aside import set_aside_block
from builder.view.used import users

WHOSE = {
    "same": "", "closes": "of the cavities it closes", "panels": "of its panels", "openings": "of its openings",
    "neighbours": "of its neighbours", "seams": "of the step's seams", "joints": "of the seams it is part of",
    "body": "of the body", "welder": "of the welder", "any": "of whatever has it",
    "other-side": "of anything on the other side of the car",
}  # fmt: skip
LEVELS = {"stop": "Stop", "care": "Care", "note": "Note"}


PARTS: dict[StepPart, str] = {
    "measure": "readings to record", "hold": "a hold", "photo": "a photograph", "wait": "a wait",
    "attended": "a wait that somebody stays for", "keep": "the sheets that stay", "method": "the method of joining",
    "holes": "holes made in what stays", "two-people": "two people",
}  # fmt: skip


def _effects(here: Here, effects: Iterable[Effect | Spoil]) -> tuple[Html, ...]:
    return tuple(_effect(here, effect) for effect in effects)


def _effect(here: Here, effect: Effect | Spoil) -> Html:
    methods = here.anchors(here.links("method", effect.method))
    by = f", by {methods}" if methods else ""
    holes = ", where the step makes holes" if effect.holes else ""
    return Html(f"{_state(here, effect)}{by}{holes}")


def _state(here: Here, stated: Effect | Spoil | Need | Ban | Owed) -> str:
    return f"{here.anchor(here.link('state', stated.state))} {WHOSE[stated.of]}".strip()


def _condition(here: Here, condition: Need | Ban | Owed) -> Html:
    where = f", where <code>{here.text(condition.where)}</code>" if condition.where else ""
    return Html(_state(here, condition) + where)


def method_page(here: Here, ref: Ref, method: Method) -> Page:
    """Make a way of joining's page: what it is, how it is done, where it must not be used, what its plan works out."""
    limits = tuple(
        Html(
            f"<strong>{LEVELS[limit.level]}</strong>: {here.line(limit.say)} {here.line(limit.because)} "
            f"{here.anchor(here.link('source', limit.source))}. Judged by <code>{here.text(limit.if_)}</code>"
        )
        for limit in method.limits
    )
    calculators = here.links("calculator", dict.fromkeys(working.calculator for working in method.plan))
    main: tuple[Block, ...] = (
        *((Prose("Notes", here.paragraphs(method.notes), "notes"),) if method.notes else ()),
        Items("Limits", limits, "None are recorded.", "limits"),
        Links("Its plan is worked out by", calculators, "Nothing."),
        *((_fixed(here, method),) if method.fixed else ()),
        Links("Sources", here.links("source", method.sources), "None.", "sources"),
    )
    return page(
        here, ref, method.title, "Method", here.paragraphs(method.summary), main, aliases=method.was,
        texts=(passage("", method.title, method.summary, method.notes),),
    )  # fmt: skip


def _fixed(here: Here, method: Method) -> Grid:
    """The settings that its plan and its limits go by."""
    units = here.book.units
    rows = tuple(
        (
            here.text(readable(name)), here.both(units.value(fixed.value, fixed.unit or "")),
            Html(f"{here.anchor(here.link('source', fixed.source))} {here.line(fixed.note)}".rstrip()),
        )
        for name, fixed in method.fixed.items()
    )  # fmt: skip
    return Grid("Settings", ("Name", "Value", "Source"), rows, anchor="fixed")


def act_page(here: Here, ref: Ref, act: Act) -> Page:
    """Make a trade verb's page: what it may be done on, what it makes and spoils."""
    heat = ", ".join(here.book.word("heat", word) for word in act.heat) or "none"
    main: tuple[Block, ...] = (
        Facts("This act", (
            here.row("Done on", ", ".join(act.on)), here.row("Heat and sparks", heat),
            here.row("Vapour that burns", "yes" if act.vapour else "no"),
            here.row("Noisy", "yes" if act.noisy else "no"),
        ), wide=True),
        Items("Makes", _effects(here, act.makes), "Nothing.", "makes"),
        Items("Spoils", _effects(here, act.spoils), "Nothing.", "spoils"),
    )  # fmt: skip
    return page(
        here, ref, act.title, "Act", here.paragraphs(act.summary), main, aliases=act.was,
        texts=(passage("", act.title, act.summary),),
    )  # fmt: skip


def state_page(here: Here, ref: Ref, state: State) -> Page:
    """Make a condition's page: what it means, what makes it, what spoils it, which rules ask for it."""
    acts = [*of_kind(here.book.shelf, "act", Act)]
    makers = tuple(here.link_to(other) for other, act in acts if any(effect.state == ref.id for effect in act.makes))
    spoilers = tuple(here.link_to(other) for other, act in acts if any(effect.state == ref.id for effect in act.spoils))
    main: tuple[Block, ...] = (
        Links("Made by", makers, "No act.", "made-by"),
        Links("Spoiled by", spoilers, "No act.", "spoiled-by"),
        Links("Rules about it", users(here, ref, "rule"), "None.", "rules"),
    )
    lasts = {"job": "until it is spoiled", "day": "until it is spoiled, and for its day alone"}
    aside = (Facts("This state", (here.row("Of", ", ".join(state.of)), here.row("Holds", lasts[state.lasts]))),)
    return page(
        here, ref, state.title, "State", here.paragraphs(state.means), main, aside, aliases=state.was,
        texts=(passage("", state.title, state.means),),
    )  # fmt: skip


def rule_page(here: Here, ref: Ref, rule: Rule) -> Page:
    """Make a rule's page: when it speaks, what it asks, and why."""
    main: tuple[Block, ...] = (
        Facts("This rule", (*_when(here, rule), _consequence(here, rule), *_unless(here, rule),
                            here.row("Breaking it is", "an error" if rule.level == "error" else "a warning")),
              anchor="rule"),
        *set_aside_block(here, ref),
        Links("Source", here.links("source", (rule.source,)), anchor="sources"),
    )  # fmt: skip
    return page(
        here, ref, rule.title, "Rule", here.line(rule.because), main, aliases=rule.was,
        texts=(passage("", rule.title, rule.because),),
    )  # fmt: skip


def _when(here: Here, rule: Rule) -> tuple[Row, ...]:
    when = rule.when
    acts = here.anchors(here.links("act", when.act))
    sources = [*(here.book.word("heat", word) for word in when.heat), *(["vapour that burns"] if when.vapour else [])]
    if sources:
        acts = here.text("any act that gives off " + " or ".join(sources))
    rows = [Row("When", acts or Html("any act"))]
    if when.method:
        rows.append(Row("By", here.anchors(here.links("method", when.method))))
    if when.carries:
        rows.append(here.row("With", " and ".join(PARTS[part] for part in when.carries)))
    if when.on:
        rows.append(here.row("On a", when.on))
    if when.where:
        rows.append(Row("Where", Html(f"<code>{here.text(when.where)}</code>")))
    return tuple(rows)


def _consequence(here: Here, rule: Rule) -> Row:
    if rule.needs is not None:
        return Row("Needs first", _condition(here, rule.needs))
    if rule.forbids is not None:
        return Row("Refused while", _condition(here, rule.forbids))
    if rule.owes is not None:
        return Row("Owes", _condition(here, rule.owes), f"by {rule.owes.by.replace('-', ' ')}")
    if rule.asks is not None:
        return _asked(here, rule.asks)
    first = rule.if_both_first
    return Row("Comes after", here.anchors(here.links("act", first.act)) if first else Html(""))


def _asked(here: Here, asked: Asked) -> Row:
    parts = [here.text(PARTS[part]) for part in asked.step]
    answers = here.anchors(here.links("calculator", asked.works_out))
    if answers:
        parts.append(Html(f"an answer of {answers}"))
    label = "This step or a later one carries" if asked.later else "The step carries"
    return Row(label, Html(", ".join(parts)))


def _unless(here: Here, rule: Rule) -> tuple[Row, ...]:
    if rule.unless is None:
        return ()
    links = (*here.links("method", rule.unless.method), *here.links("act", rule.unless.act))
    rows = (Row("Unless", here.anchors(links)),) if links else ()
    held = rule.unless.state
    return (*rows, Row("Unless this holds", _condition(here, held))) if held is not None else rows


def anyones_data(rules: Mapping[str, AnyonesRule]) -> dict[str, Any]:
    """Return the rules about whoever it may be, with whom each means."""
    return {id_: {"state": one.state, "other_side": one.is_other_side, "owners": one.owners}
            for id_, one in rules.items()}  # fmt: skip
