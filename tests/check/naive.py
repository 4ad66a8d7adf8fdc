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
Told = dict[str, Any]
Found = Iterator[tuple[str, Subject, int | None, bool]]
"""State or part, whose it is, the other step, whether that one comes too late."""
KINDS = {"a": "seam", "b": "seam", "u": "seam", "v": "seam", "p": "panel", "q": "panel", "o": "opening", "k": "cavity",
         "m": "cavity", "body": "body", "welder": "welder"}  # fmt: skip
CLOSES, PANELS = {"a": "k", "b": "k", "v": "m"}, {"a": "pq", "b": "pq", "u": "q", "v": "q"}
BOUNDS, NEIGHBOURS = {"p": "o"}, {"p": "q", "q": "p"}
BOUNDED = {"o": "p"}
AT = {"b": "", "v": "o"}
"""Seams that say themselves at which openings they are."""
JOINTS = {"p": "ab", "q": "abuv", "k": "ab", "m": "v", "o": "av", "a": "a", "b": "b", "u": "u", "v": "v"}
TWICE = "abpok"
"""What a car has on either side: panel p says so, and the rest touches it. Panel q, its seams u and v and m do not."""
MEANT = {'joint == "lap"': "au", 'load_bearing == "yes"': "p", "drains > 0": "k"}
"""Of whom a condition holds. Nobody knows the joint of u: what cannot be told binds."""


class Step(NamedTuple):
    act: str
    on: tuple[Subject, ...]
    method: str = ""
    exempt: tuple[str, ...] = ()
    carries: frozenset[str] = frozenset()
    answers: tuple[str, ...] = ()


def name(subject: Subject) -> str:
    return subject.removeprefix("other:")


def kind(subject: Subject) -> str:
    return KINDS[name(subject)]


def whose(step: Step, subject: Subject, of: str) -> set[Subject]:
    own, other = name(subject), subject.startswith("other:")
    panels = {own} if KINDS[own] == "panel" else set(PANELS.get(own, "") + BOUNDED.get(own, ""))
    found = {
        "same": {own}, "closes": set(CLOSES.get(own, "")), "panels": panels,
        "openings": set(AT[own] if own in AT else "".join(BOUNDS.get(panel, "") for panel in panels)),
        "neighbours": {next_ for panel in panels for next_ in NEIGHBOURS.get(panel, "")},
        "joints": set(JOINTS.get(own, "")),
    }  # fmt: skip
    if of in ("body", "welder"):
        return {of}
    if of == "seams":
        return {one for one in step.on if kind(one) == "seam"}
    if of == "same" or (of == "panels" and KINDS[own] == "panel"):
        return {subject}
    return {f"other:{one}" if other and one in TWICE else one for one in found[of]}


def held_by(law: Law, step: Step, subject: Subject, told: dict[str, Any]) -> set[Subject]:
    """Whose state is meant: whoever can have it, where it says which of them."""
    return {
        one for one in whose(step, subject, told.get("of", "same"))
        if kind(one) in law["states"][told["state"]] and ("where" not in told or name(one) in MEANT[told["where"]])
    }  # fmt: skip


def does(law: Law, step: Step, effects: str, state: str, one: Subject) -> bool:
    """Whether a step makes or spoils this."""
    for effect in law["acts"][step.act][effects]:
        untold = effects == "spoils" and not step.method
        by_method = not effect.get("method") or step.method in effect["method"] or untold
        with_holes = not effect.get("holes") or "holes" in step.carries
        of = effect.get("of", "same")
        is_meant = effect["state"] == state and (of == "any" or any(one in whose(step, on, of) for on in step.on))
        if is_meant and by_method and with_holes and kind(one) in law["states"][state]:
            return True
    return False


def since(law: Law, steps: Sequence[Step], end: int, state: str, one: Subject) -> int | None:
    """Look back from a step for the one since which a state holds; None where it does not hold."""
    for at in reversed(range(end)):
        if does(law, steps[at], "makes", state, one):
            return at
        if does(law, steps[at], "spoils", state, one):
            return None
    return None


def lost(law: Law, steps: Sequence[Step], end: int, state: str, one: Subject) -> int | None:
    """Look back for the last step that found a state holding and spoiled it."""
    for at in reversed(range(end)):
        if does(law, steps[at], "spoils", state, one) and since(law, steps, at, state, one) is not None:
            return at
    return None


def speaks(rule: dict[str, Any], step: Step, law: Law) -> bool:
    """Whether a rule is about such a step, whatever it is done on."""
    when, unless, act = rule["when"], rule.get("unless", {}), law["acts"][step.act]
    if "act" in when and step.act not in when["act"]:
        return False
    if "heat" in when and not set(act["heat"]) & set(when["heat"]):
        return False
    if when.get("vapour") and not act["vapour"]:
        return False
    if "method" in when and step.method and step.method not in when["method"]:
        return False
    if not set(when.get("carries", ())) <= step.carries:
        return False
    return step.act not in unless.get("act", ()) and step.method not in unless.get("method", ())


def bound(law: Law, steps: Sequence[Step], at: int, rule: dict[str, Any]) -> Iterator[Subject]:
    """Yield the subjects for which a rule binds a step: those it is about, where nothing excuses."""
    step, when, excuse = steps[at], rule["when"], rule.get("unless", {}).get("state")
    if not speaks(rule, step, law):
        return
    for subject in step.on:
        if when.get("on") not in (None, kind(subject)):
            continue
        if "where" in when and name(subject) not in MEANT[when["where"]]:
            continue
        holders = held_by(law, step, subject, excuse) if excuse else set()
        if not holders or any(since(law, steps, at, excuse["state"], one) is None for one in holders):
            yield subject


def breaches(law: Law, steps: Sequence[Step]) -> Iterator[tuple[Any, ...]]:
    """Yield (step, rule, state or part, subject, other step, whether that one comes too late)."""
    for at, step in enumerate(steps):
        for id_ in law["rules"]:
            if id_ not in step.exempt:
                yield from broken(law, steps, at, id_)
        for id_ in step.exempt:
            rule = law["rules"][id_]
            if not speaks(rule, step, law) or ("owes" not in rule and not set(broken(law, steps, at, id_))):
                yield at, id_, "needless", step.on[0], None, False


def broken(law: Law, steps: Sequence[Step], at: int, id_: str) -> Iterator[tuple[Any, ...]]:
    rule = law["rules"][id_]
    form = next(form for form in ("needs", "forbids", "owes", "if-both-first", "asks") if form in rule)
    for subject in bound(law, steps, at, rule):
        for found in FORMS[form](law, steps, at, id_, subject, rule[form]):
            yield at, id_, *found


def missing(law: Law, steps: Sequence[Step], at: int, id_: str, subject: Subject, told: Told) -> Found:
    state = told["state"]
    for one in held_by(law, steps[at], subject, told):
        if since(law, steps, at, state, one) is None:
            spoiler = lost(law, steps, at, state, one)
            later = [n for n in range(at, len(steps)) if does(law, steps[n], "makes", state, one)]
            late = spoiler is None and bool(later)
            yield state, one, later[0] if late else spoiler, late


def forbidden(law: Law, steps: Sequence[Step], at: int, id_: str, subject: Subject, told: Told) -> Found:
    state, of = told["state"], told.get("of", "same")
    everyone = [*KINDS, *(f"other:{one}" for one in TWICE)]
    across = [
        one for one in everyone
        if {name(one), name(subject)} <= set(TWICE) and one.startswith("other:") != subject.startswith("other:")
    ]  # fmt: skip
    if of in ("any", "other-side"):
        meant = {
            one for one in (everyone if of == "any" else across)
            if kind(one) in law["states"][state] and ("where" not in told or name(one) in MEANT[told["where"]])
        }  # fmt: skip
    else:
        meant = held_by(law, steps[at], subject, told)
    for one in meant:
        begun = since(law, steps, at, state, one)
        if begun is not None:
            yield state, one, begun, False


def unpaid(law: Law, steps: Sequence[Step], at: int, id_: str, subject: Subject, told: Told) -> Found:
    """Yield debts that are not paid by the end, nor taken over by a later step that owes the same."""
    state, rule = told["state"], law["rules"][id_]
    for one in held_by(law, steps[at], subject, told):
        end = since(law, steps, len(steps), state, one)
        taken_over = any(
            id_ not in steps[n].exempt and one in held_by(law, steps[n], other, told)
            for n in range(at + 1, len(steps)) for other in bound(law, steps, n, rule)
        )
        if (end is None or end < at) and not taken_over:
            spoiler = lost(law, steps, len(steps), state, one)
            yield state, one, spoiler if spoiler is not None and spoiler > at else None, False


def too_early(law: Law, steps: Sequence[Step], at: int, id_: str, subject: Subject, told: Told) -> Found:
    of = told.get("of", "same")
    later = [
        n for n in range(at + 1, len(steps))
        if steps[n].act in told["act"] and (of == "any" or whose(steps[at], subject, of) & set(steps[n].on))
    ]  # fmt: skip
    if later:
        yield "", subject, later[0], False


def lacking(law: Law, steps: Sequence[Step], at: int, id_: str, subject: Subject, told: Told) -> Found:
    carriers = steps[at:] if told.get("later") else [steps[at]]
    for part in told.get("step", ()):
        if not any(part in step.carries for step in carriers):
            yield part, subject, None, False
    wanted = told.get("works_out", ())
    if wanted and not any(set(wanted) & set(step.answers) for step in carriers):
        yield f"calculator:{wanted[0]}", subject, None, False


FORMS = {"needs": missing, "forbids": forbidden, "owes": unpaid, "if-both-first": too_early, "asks": lacking}
