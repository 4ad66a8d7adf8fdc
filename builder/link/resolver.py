"""Summaries -> the catalogue with every reference resolved, and the references that lead nowhere.

`resolve` is the entry point. Everything has been read by now, so one pass is enough.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping

from builder.link import codes
from builder.model.links import Catalogue
from builder.model.near import a, offer
from builder.model.problem import Code, Level, Problem, Related
from builder.model.records import KIND
from builder.model.reference import LONE_SUBJECTS, Mention, Ref
from builder.model.summary import Locate, PlacesOf, Summary

Finding = tuple[Code, str, str, Level]

PARTS = ("panels", "closes", "bounds")
"""Relations that hand on whether a car has two of a thing."""


def resolve(
    summaries: Mapping[Ref, Summary], broken: frozenset[Ref], places_of: PlacesOf, locate: Locate
) -> tuple[Catalogue, tuple[Problem, ...]]:
    """Resolve every mention. A reference to a broken record is no second problem."""
    moved, problems = _moved(summaries, broken, locate)
    handed = _handed(summaries, moved)
    # Of a broken panel it is not known whether it is handed, nor of what it is part of: no second problem then.
    sure = not any(ref.kind in ("panel", "seam") for ref in broken) and all(
        moved.get(other, other) in summaries
        for ref, found in summaries.items() if ref.kind in ("panel", "seam")
        for name in PARTS for other in found.relations.get(name, ())
    )  # fmt: skip
    uses: dict[Ref, list[Ref]] = defaultdict(list)
    judged: dict[tuple[Ref, tuple[str, ...]], Finding | None] = {}
    for ref in sorted(summaries):
        for mention in summaries[ref].mentions:
            target = mention.ref.record
            users = uses[moved.get(target, target) if moved else target]
            if not users or users[-1] is not ref:  # records come in order, so each is its list's last or not in it
                users.append(ref)
            key = (mention.ref, mention.kinds)
            if key not in judged:
                judged[key] = _judge(mention, summaries, broken, moved, handed if sure else None)
            finding = judged[key]
            if finding is not None:
                code, message, do, level = finding
                problems.extend(
                    Problem(code, span, message, do, level=level) for span in places_of(ref, mention)
                )
    known = {ref: tuple(found) for ref, found in uses.items()}
    return Catalogue(summaries, broken, moved, known, handed), tuple(problems)


def _moved(
    summaries: Mapping[Ref, Summary], broken: frozenset[Ref], locate: Locate
) -> tuple[dict[Ref, Ref], list[Problem]]:
    moved: dict[Ref, Ref] = {}
    problems: list[Problem] = []
    for ref in sorted(summaries):
        for at, name in enumerate(summaries[ref].was):
            old = Ref(ref.kind, name)
            if old in summaries or old in broken:
                place = Related(locate(old, ("title",)), f"{old} itself")
                problems.append(Problem(
                    codes.TWO_CLAIMS, locate(ref, ("was", at)), f'"{name}" is the name of a living record',
                    "take it out of was, or rename the other record", see=(place,),
                ))  # fmt: skip
            elif old in moved:
                place = Related(locate(moved[old], ("was",)), f"{moved[old]} claims it too")
                problems.append(Problem(
                    codes.TWO_CLAIMS, locate(ref, ("was", at)), f'the old name "{name}" is claimed twice',
                    "keep it in one record", see=(place,),
                ))  # fmt: skip
            else:
                moved[old] = ref
    return moved, problems


def _judge(
    mention: Mention, summaries: Mapping[Ref, Summary], broken: frozenset[Ref], moved: Mapping[Ref, Ref],
    handed: frozenset[Ref] | None,
) -> Finding | None:
    ref = mention.ref
    if mention.kinds and ref.kind not in mention.kinds:
        wanted = _either(mention.kinds)
        return codes.WRONG_KIND, f'"{ref}" is no {wanted}', f"name {a(wanted)}", "error"
    if ref.kind in LONE_SUBJECTS:
        return None
    if ref.kind not in KIND:
        return (
            codes.UNKNOWN_REFERENCE, f'there is no kind of record called "{ref.kind}"',
            offer(ref.kind, KIND, "write one of the record kinds"), "error",
        )  # fmt: skip
    target = moved.get(ref.record, ref.record)
    if target in broken:
        return None
    summary = summaries.get(target)
    if summary is None:
        return codes.UNKNOWN_REFERENCE, f'no {ref.kind} is called "{ref.id}"', _advice(ref, summaries), "error"
    if ref.anchor and ref.anchor not in summary.anchors:
        return _unknown_anchor(ref, summary)
    if target != ref.record:
        return codes.MOVED_REFERENCE, f'"{ref.id}" is now called "{target.id}"', f"write {target.id}", "warning"
    if ref.side == "other" and handed is not None and target not in handed:
        return codes.NOT_HANDED, f"a car has only one {target}", "leave out other:", "error"
    return None


def _either(kinds: tuple[str, ...]) -> str:
    return " or ".join(part for part in (", ".join(kinds[:-1]), kinds[-1]) if part)


def _unknown_anchor(ref: Ref, summary: Summary) -> Finding:
    words = {"page": "heading"}.get(ref.kind, "step")
    message = f'{ref.record} has no {words} "{ref.anchor}"'
    if ref.kind == "scale":
        message = f'"{ref.anchor}" is no word of the scale "{ref.id}"'
    return codes.UNKNOWN_ANCHOR, message, offer(ref.anchor, summary.anchors, _one_of(summary.anchors)), "error"


def _one_of(names: Iterable[str]) -> str:
    return f"write one of: {', '.join(names)}"


def _advice(ref: Ref, summaries: Mapping[Ref, Summary]) -> str:
    kind = KIND[ref.kind]
    names = [other.id for other in summaries if other.kind == ref.kind]
    return offer(ref.id, names, f"write content/{kind.folder}/{ref.id}{kind.ending}, or name one that exists")


def _handed(summaries: Mapping[Ref, Summary], moved: Mapping[Ref, Ref]) -> frozenset[Ref]:
    """A panel says so itself; a seam or opening is handed if one of its panels is, a cavity if one of its seams is."""
    panels = {ref for ref, summary in summaries.items() if summary.handed}
    found = set(panels)
    for ref, summary in summaries.items():
        related = {name: {moved.get(other, other) for other in refs} for name, refs in summary.relations.items()}
        if ref.kind == "seam" and panels & related["panels"]:
            found.add(ref)
            found |= related["closes"]
        elif ref in panels:
            found |= related["bounds"]
    return frozenset(found)
