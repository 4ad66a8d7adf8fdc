"""A seam's segment -> what its panels and the factory's method tell beside its own record, and what a step tells of it.

A fact that cannot be told has no answer; no guess stands in for it.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from builder.model.links import Catalogue
from builder.model.records import Record
from builder.model.records.law import Method
from builder.model.records.procedure import Step
from builder.model.reference import Ref
from builder.model.summary import Facts, FactValue, Stack, StackedSheet, Summary
from builder.work.workings import Shop

UNKNOWN = "unknown"


def segment_facts(seam: Summary, at: int, catalogue: Catalogue, shop: Shop) -> Facts:
    """Return what a segment tells with its panels and the factory's method."""
    stack = seam.stacks[at]
    panels = [sheet.panel for sheet in stack.sheets]
    return {
        **seam.facts[at], "factory": _factory(stack, shop.shelf.get(Ref("method", stack.factory))),
        "load_bearing": _any_of(panels, "load_bearing", catalogue), "skin": _any_of(panels, "skin", catalogue),
    }  # fmt: skip


def step_facts(step: Step, seam: Summary, at: int, catalogue: Catalogue, shop: Shop) -> Facts:
    """Return what a step tells of a segment, beside what the segment tells."""
    stack = seam.stacks[at]
    kept_panels = {_today("panel", name, catalogue) for name in step.keep}
    stays = [_today("panel", sheet.panel, catalogue) in kept_panels for sheet in stack.sheets]
    seen = _seen_from_tools(stays, seam.facts[at]["sides"], step)
    return {
        **segment_facts(seam, at, catalogue, shop), **_sheet_facts(stack, stays, shop),
        "kept_place": _place(seen), "scrap_face": None if seen is None else _yes(not seen[0]),
        "outer_stays": _yes(stays[0]) if any(stays) else None,
        "kept_skin": _any_of([sheet.panel for sheet, kept in zip(stack.sheets, stays, strict=True) if kept], "skin",
                             catalogue),
        "method": _today("method", step.method, catalogue) if step.method else None,
        "makes_holes": _yes(step.makes_holes),
    }  # fmt: skip


def _factory(stack: Stack, method: Record | None) -> FactValue:
    if not stack.factory:
        return "none"
    return method.draws if isinstance(method, Method) else None


def _any_of(panels: Iterable[str], fact: str, catalogue: Catalogue) -> FactValue:
    """Yes where one of the panels says so, no where all say no; where one does not say, it cannot be told."""
    found = [catalogue.find(Ref("panel", name)) for name in panels]
    said = {summary.facts[0].get(fact) if summary is not None and summary.facts else None for summary in found}
    return "yes" if "yes" in said else "no" if said == {"no"} else None


def _today(kind: str, name: str, catalogue: Catalogue) -> str:
    return catalogue.moved.get(Ref(kind, name), Ref(kind, name)).id


def _seen_from_tools(stays: Sequence[bool], sides: FactValue, step: Step) -> tuple[bool, ...] | None:
    """Return which sheets stay, the one that the tools reach first; None where that cannot be told.

    Where both faces can be reached, the tools come from a sheet that goes.
    """
    from_outside, from_inside = tuple(stays), tuple(reversed(stays))
    if not any(stays):
        return None
    if sides == "both":
        return from_outside if not from_outside[0] else from_inside
    if step.face is None:
        return from_outside if from_outside == from_inside else None
    return from_outside if step.face == "outer" else from_inside


def _place(seen: tuple[bool, ...] | None) -> FactValue:
    """Say in a word which sheets stay: back, front, middle or both outer ones; None where no word fits."""
    if seen is None:
        return None
    front, behind = seen[0], seen[1:]
    if all(behind):
        return "back" if not front else "both" if len(seen) == 2 else None
    if not any(behind):
        return "front" if front else None
    inner = seen[1:-1]
    if front and seen[-1]:
        return "both" if not any(inner) else None
    return "middle" if not front and not seen[-1] and all(inner) else None


def _sheet_facts(stack: Stack, stays: Sequence[bool], shop: Shop) -> Facts:
    """Of several sheets that stay the thinnest, of several that go the thickest: what is strict for those that stay."""
    kept = [sheet for sheet, is_kept in zip(stack.sheets, stays, strict=True) if is_kept]
    scrap = [sheet for sheet, is_kept in zip(stack.sheets, stays, strict=True) if not is_kept and any(stays)]
    return {
        "kept_thickness": _extreme(kept, thickest=False), "scrap_thickness": _extreme(scrap, thickest=True),
        "kept_strength": _strictest(kept, shop), "scrap_strength": _strictest(scrap, shop),
    }  # fmt: skip


def _extreme(sheets: Sequence[StackedSheet], *, thickest: bool) -> float | None:
    known = [sheet.thickness for sheet in sheets if sheet.thickness is not None]
    if len(known) < len(sheets) or not known:
        return None
    return max(known) if thickest else min(known)


def _strictest(sheets: Sequence[StackedSheet], shop: Shop) -> FactValue:
    words = [sheet.strength for sheet in sheets]
    if not words:
        return None
    ranks = {word: rank for rank, word in enumerate(shop.scales.get("strength", ()))}
    return UNKNOWN if UNKNOWN in words else max(words, key=lambda word: ranks.get(word, len(ranks)))


def _yes(claim: bool) -> str:
    return "yes" if claim else "no"
