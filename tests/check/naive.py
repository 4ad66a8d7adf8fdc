"""The law told again as plainly as can be: for every question all steps are looked at again, and nothing is kept.

Written from the words of the records, not from builder/check: it holds no state between steps, knows the little body by
tables of its own, and takes rules and acts as the plain mappings they are in YAML.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any, NamedTuple

Subject = str
"""`a`, `other:a`, `body`, `welder`."""
Law = dict[str, dict[str, Any]]
KINDS = {"a": "seam", "b": "seam", "u": "seam", "p": "panel", "q": "panel", "o": "opening", "k": "cavity",
         "body": "body", "welder": "welder"}  # fmt: skip
CLOSES, PANELS = {"a": "k", "b": "k"}, {"a": "pq", "b": "pq", "u": "q"}
BOUNDS, NEIGHBOURS = {"p": "o"}, {"p": "q", "q": "p"}
BOUNDED, JOINTS = {"o": "p"}, {"p": "ab", "q": "abu", "k": "ab", "o": "ab", "a": "a", "b": "b", "u": "u"}
TWICE = "abpok"
"""What a car has on either side: panel p says so, and the rest touches it. Panel q and the seam u do not."""


class Step(NamedTuple):
    act: str
    on: tuple[Subject, ...]
    method: str = ""
    exempt: tuple[str, ...] = ()
    carries: frozenset[str] = frozenset()


def kind(subject: Subject) -> str:
    return KINDS[subject.removeprefix("other:")]


def whose(step: Step, subject: Subject, of: str) -> set[Subject]:
    name, other = subject.removeprefix("other:"), subject.startswith("other:")
    panels = {name} if KINDS[name] == "panel" else set(PANELS.get(name, "") + BOUNDED.get(name, ""))
    found = {
        "same": {name}, "closes": set(CLOSES.get(name, "")), "panels": panels,
        "openings": {opening for panel in panels for opening in BOUNDS.get(panel, "")},
        "neighbours": {next_ for panel in panels for next_ in NEIGHBOURS.get(panel, "")},
        "joints": set(JOINTS.get(name, "")),
    }  # fmt: skip
    if of in ("body", "welder"):
        return {of}
    if of == "seams":
        return {one for one in step.on if kind(one) == "seam"}
    if of == "same" or (of == "panels" and KINDS[name] == "panel"):
        return {subject}
    return {f"other:{one}" if other and one in TWICE else one for one in found[of]}


def touched(law: Law, step: Step, effects: Sequence[dict[str, str]]) -> set[tuple[str, Subject]]:
    return {
        (effect["state"], one)
        for effect in effects for subject in step.on for one in whose(step, subject, effect.get("of", "same"))
        if kind(one) in law["states"][effect["state"]]
    }  # fmt: skip


def since(law: Law, steps: Sequence[Step], end: int, state: str, subject: Subject) -> int | None:
    """Look back from a step for the one since which a state holds; None where it does not hold."""
    for at in reversed(range(end)):
        act = law["acts"][steps[at].act]
        if (state, subject) in touched(law, steps[at], act["makes"]):
            return at
        if (state, subject) in touched(law, steps[at], act["spoils"]):
            return None
    return None


def lost(law: Law, steps: Sequence[Step], end: int, state: str, subject: Subject) -> int | None:
    """Look back for the last step that found a state holding and left it not holding."""
    for at in reversed(range(end)):
        spoils = (state, subject) in touched(law, steps[at], law["acts"][steps[at].act]["spoils"])
        if spoils and since(law, steps, at, state, subject) is not None:
            return at
    return None


def speaks(rule: dict[str, Any], step: Step, law: Law) -> bool:
    when = rule["when"]
    named = step.act in when["act"] if "act" in when else bool(set(law["acts"][step.act]["heat"]) & set(when["heat"]))
    return named and step.act not in rule.get("unless", {}).get("act", ())


def breaches(law: Law, steps: Sequence[Step]) -> Iterator[tuple[Any, ...]]:
    """Yield (step, rule, state, subject, other step, whether that one comes too late)."""
    for at, step in enumerate(steps):
        for name, rule in law["rules"].items():
            if not speaks(rule, step, law):
                continue
            found = set(broken(law, steps, at, name, rule))
            if name not in step.exempt:
                yield from found
        for name in step.exempt:
            rule = law["rules"][name]
            if not speaks(rule, step, law) or ("owes" not in rule and not set(broken(law, steps, at, name, rule))):
                yield at, name, "needless", step.on[0], None, False


def broken(law: Law, steps: Sequence[Step], at: int, name: str, rule: dict[str, Any]) -> Iterator[tuple[Any, ...]]:
    step, on = steps[at], rule["when"].get("on")
    for subject in (one for one in step.on if on in (None, kind(one))):
        if "if-both-first" in rule:
            first = rule["if-both-first"]
            meant = whose(step, subject, first.get("of", "same"))
            later = [n for n in range(at + 1, len(steps)) if steps[n].act in first["act"] and meant & set(steps[n].on)]
            if later:
                yield at, name, "", subject, later[0], False
            continue
        form = next(form for form in ("needs", "forbids", "owes") if form in rule)
        state = rule[form]["state"]
        for one in whose(step, subject, rule[form].get("of", "same")):
            if kind(one) not in law["states"][state]:
                continue
            begun = since(law, steps, at, state, one)
            if form == "needs" and begun is None:
                spoiler = lost(law, steps, at, state, one)
                later = [n for n in range(at, len(steps))
                         if (state, one) in touched(law, steps[n], law["acts"][steps[n].act]["makes"])]  # fmt: skip
                late = spoiler is None and bool(later)
                yield at, name, state, one, later[0] if late else spoiler, late
            elif form == "forbids" and begun is not None:
                yield at, name, state, one, begun, False
            elif form == "owes" and not settled(law, steps, at, name, rule, state, one):
                spoiler = lost(law, steps, len(steps), state, one)
                yield at, name, state, one, spoiler if spoiler is not None and spoiler > at else None, False


def settled(
    law: Law, steps: Sequence[Step], at: int, name: str, rule: dict[str, Any], state: str, one: Subject
) -> bool:
    """Whether a debt is paid by the end, or taken over by a later step that owes the same again."""
    end = since(law, steps, len(steps), state, one)
    if end is not None and end >= at:
        return True
    return any(
        speaks(rule, later, law) and name not in later.exempt
        and any(one in whose(later, subject, rule["owes"].get("of", "same"))
                for subject in later.on if rule["when"].get("on") in (None, kind(subject)))
        for later in steps[at + 1:]
    )  # fmt: skip
