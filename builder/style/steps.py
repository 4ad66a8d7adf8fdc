"""One step -> what the house style objects to in its words and lists."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator

from builder.formula import Fault
from builder.model.records.procedure import Step
from builder.style import codes
from builder.style.manner import Manner

READ = ("do", "key_point", "why", "expect")
_CLAUSE = re.compile(r"(?:[.;:]|, then|,? and then|,? and|,) +([A-Za-z]+) +([A-Za-z]+)")
"""Where a sentence goes on, and two words it goes on with: a second action begins with its verb and its object."""


def matches(text: str, phrases: Iterable[str], pattern: re.Pattern[str] | None) -> Iterable[re.Match[str]]:
    """Where a text says one of the phrases, which `pattern` finds as whole words.

    Nearly no text says any, and that is settled ten times quicker by looking for each in small letters.
    """
    lowered = text.lower()
    return pattern.finditer(text) if pattern and any(phrase in lowered for phrase in phrases) else ()


def hedges(step: Step, manner: Manner) -> Iterator[Fault]:
    """Words that leave open what is to be done."""
    for field in READ:
        text = getattr(step, field)
        for found in matches(text, manner.instead, manner.hedges) if text else ():
            message = f'"{found[0]}" leaves open what is to be done'
            do = manner.instead[found[0].lower()]
            yield Fault(codes.HEDGE, message, do, found.start(), found.end(), (field,), "warning")


def second_actions(step: Step, manner: Manner) -> Iterator[Fault]:
    """Verbs in what is to be done that are of other acts than the step's."""
    for found in _CLAUSE.finditer(step.do):
        acts = manner.verbs.get(found[1].lower())
        if acts is not None and step.act not in acts and found[2].lower() in manner.objects:
            message = f'"{found[1]}" is a second action in a step of the act {step.act}'
            do = "make it a step of its own, or say it as part of the first"
            yield Fault(codes.TWO_ACTIONS, message, do, found.start(1), found.end(1), ("do",), "warning")


def not_listed(step: Step, manner: Manner) -> Iterator[Fault]:
    """Tools and supplies that the step says to use and does not list."""
    if step.act in manner.takes_away:
        return
    listed = {("tool", id_) for id_ in step.tools} | {("supply", id_) for id_ in step.supplies}
    for found in matches(step.do, manner.named, manner.titles):
        ref = manner.named[found[0].lower()]
        if (ref.kind, ref.id) not in listed:
            group = "tools" if ref.kind == "tool" else "supplies"
            message = f'"{found[0]}" is not among the {group} of this step'
            yield Fault(codes.NOT_TAKEN_UP, message, f"add {ref.id} to {group}", found.start(), found.end(), ("do",),
                        "warning")  # fmt: skip
