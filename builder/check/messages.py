"""Breaches of rules -> problems that name both steps, quote the reason and say what to do."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from builder.check import codes
from builder.check.bound import Bound
from builder.check.brought import Brought
from builder.check.law import Law
from builder.check.order import BROUGHT, Breach, judge
from builder.check.placing import Spot, place
from builder.model.problem import Code, Problem, Related
from builder.model.reference import LONE_SUBJECTS, Ref
from builder.model.summary import Locate, Path, StepSummary, Summary

CODE_OF = {
    "needs": codes.STATE_MISSING, "forbids": codes.STATE_FORBIDDEN, "owes": codes.STATE_OWED,
    "order": codes.WRONG_ORDER, "needless": codes.NEEDLESS_EXEMPTION, "asks": codes.STEP_LACKS,
}  # fmt: skip
WORDS = 4
"""At most this many acts are named as a way to mend a breach."""
MOST_PLACED = 12
"""For so many breaches of a procedure a place is looked for: with more of them there is more to do than a step."""
TO_ADD = {
    "measure": "a reading to record (measure:)", "hold": "a hold (point: with sort: hold)",
    "photo": "a photograph (photo:)", "wait": "a wait (wait:)",
    "attended": "a wait that somebody stays for (wait: with attended: yes)",
    "keep": "the sheets that stay (keep:)", "method": "the method of joining (method:)",
    "holes": "that it makes holes (makes_holes: yes)", "two-people": "a second pair of hands (hands: 2)",
}  # fmt: skip
"""What a step may be asked to carry, and how it is written."""


def problems_of(
    procedure: Summary, law: Law, locate: Locate, brought: Brought, bound: Sequence[Bound] = ()
) -> Iterator[Problem]:
    """Judge a procedure and put every breach into words; what breaks a rule for one and the same cause is told once."""
    told: dict[tuple[object, ...], list[Breach]] = {}
    for breach in judge(law, procedure.steps, brought, procedure.passes_on, bound):
        told.setdefault(_cause(breach), []).append(breach)
    for at, (first, *more) in enumerate(told.values()):
        is_placed = at < MOST_PLACED and _may_be_placed(first)
        spot = place(law, procedure.steps, first, brought, procedure.passes_on) if is_placed else None
        yield problem_of(first, procedure, law, locate, spot, tuple(one.at for one in more))


def _cause(breach: Breach) -> tuple[object, ...]:
    """What one missing or wrong step brings about at many others."""
    own = breach.at if breach.sort not in ("needs", "forbids") else None
    return breach.sort, breach.rule_id, breach.subject, breach.state, breach.other, own


def _may_be_placed(breach: Breach) -> bool:
    return breach.at != BROUGHT and (breach.sort in ("forbids", "owes") or (breach.sort == "needs" and not breach.late))


def problem_of(
    breach: Breach, procedure: Summary, law: Law, locate: Locate, spot: Spot | None, more: Sequence[int] = ()
) -> Problem:
    """Place a breach and put it into words; the reason is the rule's own. `more`: other steps with the same fault."""
    if breach.at == BROUGHT:
        return _of_the_whole(breach, procedure, law, locate)
    step = procedure.steps[breach.at]
    field = ("except", step.exempt.index(breach.rule_id), "rule") if breach.sort == "needless" else ("act",)
    rule = breach.rule
    return Problem(
        CODE_OF[breach.sort],
        locate(procedure.ref, (*step.path, *field)),
        _message(breach, step, law),
        _place_advice(spot, procedure.steps) if spot is not None else _advice(breach, law, procedure.steps),
        why=f"{rule.title}: {rule.because}" if rule is not None and breach.sort != "needless" else None,
        see=(*_related(breach, procedure, locate), *_elsewhere(more, procedure, locate)),
        level="warning" if breach.sort == "needless" or (rule is not None and rule.level == "warning") else "error",
    )


def _of_the_whole(breach: Breach, procedure: Summary, law: Law, locate: Locate) -> Problem:
    """A breach that no step is at: something was owed before the first, or is passed on though nothing is owed."""
    rule = breach.rule
    if rule is None:
        field: Path = ("passes_on", procedure.passes_on.index(breach.rule_id), "rule")
        message = f'the rule "{breach.rule_id}" is passed on, and nothing is owed by it'
        return Problem(codes.NEEDLESS_EXEMPTION, locate(procedure.ref, field), message, "take it out of passes_on",
                       see=_related(breach, procedure, locate), level="warning")  # fmt: skip
    state, whose = law.states[breach.state].title, name_of(breach.subject, law)
    ways = _listed(law.makers.get(breach.state, ()))
    return Problem(
        codes.STATE_OWED, locate(procedure.ref, ("relies_on",)),
        f"what this relies on leaves owed: {state} ({whose}), and no step settles that",
        f"put a step that settles it: {ways}; or say under passes_on why the next procedure does",
        why=f"{rule.title}: {rule.because}", see=_related(breach, procedure, locate),
        level="warning" if rule.level == "warning" else "error",
    )  # fmt: skip


def _message(breach: Breach, step: StepSummary, law: Law) -> str:
    if breach.sort == "asks":
        return f'step "{step.key}" lacks {_part(breach.state)}'
    state = law.states[breach.state].title if breach.state else ""
    whose = name_of(breach.subject, law)
    if breach.sort == "needless":
        return f'step "{step.key}" sets aside the rule "{breach.rule_id}", which it does not break'
    if breach.sort == "forbids":
        return f'step "{step.key}" is refused while this holds: {state} ({whose})'
    if breach.sort == "order":
        return f'step "{step.key}" comes too early on {whose}'
    if breach.sort == "owes":
        ending = "and a later step spoils it again" if breach.other is not None else "and nothing after it settles that"
        return f'step "{step.key}" leaves this owed: {state} ({whose}), {ending}'
    happened = "which no step before it makes"
    if breach.other is not None:
        happened = "which is made only after it" if breach.late else "which a step before it spoiled"
    return f'step "{step.key}" needs this first: {state} ({whose}), {happened}'


def _part(part: str) -> str:
    return TO_ADD.get(part, f"an answer of {part.removeprefix('calculator:')} among its values")


def _place_advice(spot: Spot, steps: Sequence[StepSummary]) -> str:
    """Say which act belongs between which two steps."""
    after = f'after "{steps[spot.at - 1].key}"' if spot.at else ""
    before = f'before "{steps[spot.at].key}"' if spot.at < len(steps) else ""
    where = " and ".join(part for part in (after, before) if part)
    return f'put a step "{spot.act}" {where}'


def _advice(breach: Breach, law: Law, steps: Sequence[StepSummary]) -> str:
    if breach.sort == "needless":
        return "take it out of except"
    other = f'"{steps[breach.other].key}"' if breach.other is not None and breach.other != BROUGHT else ""
    step = f'"{steps[breach.at].key}"'
    if breach.sort == "order" or breach.late:
        return f"put {other} before {step}"
    if breach.sort == "asks":
        is_late = breach.rule is not None and breach.rule.asks is not None and breach.rule.asks.later
        return f"add {_part(breach.state)} to {step}{' or to a step after it' if is_late else ''}"
    ways = _listed(law.makers.get(breach.state, ()))
    if breach.sort == "forbids":
        enders = _listed(tuple(name for name, act in sorted(law.acts.items())
                               if any(effect.state == breach.state for effect in act.spoils)))  # fmt: skip
        return f"put a step before {step} that ends it: {enders}"
    if breach.sort == "owes":
        return f"put a step after {step} that settles it: {ways}"
    if other:
        return f"put a step between {other} and {step} that makes it again: {ways}"
    return f"put a step before {step} that makes it: {ways}"


def _listed(names: tuple[str, ...]) -> str:
    return " or ".join(names[:WORDS]) if names else "no act of the book does; write one"


def _related(breach: Breach, procedure: Summary, locate: Locate) -> tuple[Related, ...]:
    rule = Related(locate(Ref("rule", breach.rule_id), ("title",)), "the rule")
    if breach.other is None or breach.other == BROUGHT:
        return (rule,)
    step = procedure.steps[breach.other]
    label = {
        "needs": "it is made here, too late" if breach.late else "it was spoiled here",
        "forbids": "it holds since this step",
        "owes": "it is spoiled here",
        "order": "this step comes first",
    }[breach.sort]
    return (Related(locate(procedure.ref, (*step.path, "act")), label), rule)


def _elsewhere(more: Sequence[int], procedure: Summary, locate: Locate) -> Iterator[Related]:
    for at in dict.fromkeys(more):
        yield Related(locate(procedure.ref, (*procedure.steps[at].path, "act")), "the same is missing or wrong here")


def name_of(ref: Ref, law: Law) -> str:
    """Return a subject as a reader calls it."""
    if ref.kind in LONE_SUBJECTS:
        return ref.kind
    side = "other side, " if ref.side == "other" else ""
    return f"{side}{law.catalogue.title(ref)}"


def also(code: Code, procedure: Summary, step: StepSummary, field: Path, locate: Locate, *words: str) -> Problem:
    """Make a problem of one step that is no breach of a rule: message and what to do."""
    message, do = words
    return Problem(code, locate(procedure.ref, (*step.path, *field)), message, do)
