"""A record -> its summary: identity, anchors, mentions, facts, relations and steps."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from functools import cache

from builder.model.records import Record
from builder.model.records.body import Panel, Seam, Segment
from builder.model.records.law import StepPart
from builder.model.records.lesson import Lesson
from builder.model.records.page import Page
from builder.model.records.path import LearningPath
from builder.model.records.procedure import Earlier, Procedure, Revision, Step
from builder.model.records.supporting import Scale, Term
from builder.model.reference import Mention, Ref, parse_reference
from builder.model.sections import sections_of
from builder.model.summary import Issue, Stack, StackedSheet, StepSummary, Summary
from builder.shape.facts import Scales, base, facts_of
from builder.shape.rests import rests_of


def summarize(ref: Ref, record: Record, mentions: tuple[Mention, ...], scales: Scales) -> Summary:
    """Return what linking and checking need of a record."""
    return Summary(
        ref=ref,
        title=record.title,
        aliases=record.synonyms if isinstance(record, Term) else (),
        was=record.was,
        anchors=_anchors(record),
        mentions=mentions,
        facts=facts_of(record, scales),
        relations=_relations(record),
        steps=tuple(_steps(record)) if isinstance(record, Procedure) else (),
        passes_on=tuple(one.rule for one in record.passes_on) if isinstance(record, Procedure) else (),
        passed_because=tuple(one.because for one in record.passes_on) if isinstance(record, Procedure) else (),
        handed=record.handed if isinstance(record, Panel) else None,
        only=(record.only or "") if isinstance(record, Panel) else "",
        status=record.status if isinstance(record, Procedure) else "",
        stage=(record.stage or "") if isinstance(record, Procedure) else "",
        issues=tuple(_issues(record.revision)) if isinstance(record, Procedure) else (),
        read_through=(record.read_through or "") if isinstance(record, Lesson) else "",
        drawn=record.drawn if isinstance(record, Panel) else (),
        rests=tuple(rests_of(record)),
        stacks=tuple(_stack(segment) for segment in record.segments) if isinstance(record, Seam) else (),
    )


def _anchors(record: Record) -> tuple[str, ...]:
    if isinstance(record, Procedure):
        return tuple(step.key for phase in record.phases for step in phase.steps)
    if isinstance(record, Scale):
        return tuple(record.words)
    if isinstance(record, Page):
        return tuple(section.anchor for section in sections_of(record.text) if section.anchor)
    return ()


def _refs(kind: str, ids: tuple[str, ...]) -> tuple[Ref, ...]:
    return tuple(Ref(kind, id_) for id_ in ids)


def _relations(record: Record) -> Mapping[str, tuple[Ref, ...]]:
    if isinstance(record, Seam):
        panels = dict.fromkeys(sheet.panel for segment in record.segments for sheet in segment.sheets)
        own = {} if record.openings is None else {"openings": _refs("opening", record.openings)}
        return {
            "closes": _refs("cavity", record.closes), "panels": _refs("panel", tuple(panels)),
            "methods": _refs("method", record.methods), **own,
        }  # fmt: skip
    if isinstance(record, Panel):
        return {"bounds": _refs("opening", record.bounds), "neighbours": _refs("panel", record.neighbours)}
    if isinstance(record, Procedure):
        instead = {"replaced_by": _refs("procedure", (record.replaced_by,))} if record.replaced_by else {}
        return {"relies_on": _refs("procedure", record.relies_on), **instead}
    if isinstance(record, Lesson):
        return {"after": _refs("lesson", record.after), "teaches": _refs("skill", record.teaches)}
    if isinstance(record, LearningPath):
        return {"lessons": _refs("lesson", record.lessons)}
    return {}


def _issues(revision: Revision) -> Iterator[Issue]:
    """This revision and those before it."""
    every: tuple[Revision | Earlier, ...] = (revision, *revision.earlier)
    return (
        Issue(one.number, one.date, one.author, one.approver, one.reason, tuple(one.steps.items())) for one in every
    )


def _stack(segment: Segment) -> Stack:
    sheets = tuple(StackedSheet(sheet.panel, base(sheet.thickness), sheet.strength) for sheet in segment.sheets)
    return Stack(sheets, "" if segment.factory == "none" else segment.factory.method)


def _steps(record: Procedure) -> Iterator[StepSummary]:
    for phase_at, phase in enumerate(record.phases):
        for at, step in enumerate(phase.steps):
            subjects = (parse_reference(text) for text in step.on)
            yield StepSummary(
                key=step.key,
                path=("phases", phase_at, "steps", at),
                act=step.act,
                subjects=tuple(ref for ref in subjects if ref is not None),
                method=step.method or "",
                keep=step.keep,
                exempt=tuple(exemption.rule for exemption in step.except_),
                reasons=tuple(exemption.because for exemption in step.except_),
                carries=_together(tuple(_carried(step))),
                works_out=tuple(working.calculator for working in step.values),
                measures=tuple(measure.name for measure in step.measure),
            )


def _carried(step: Step) -> Iterator[StepPart]:
    parts: dict[StepPart, bool] = {
        "measure": bool(step.measure), "hold": step.point is not None and step.point.sort == "hold",
        "photo": step.photo is not None, "wait": step.wait is not None,
        "attended": step.wait is not None and step.wait.attended, "keep": bool(step.keep),
        "method": step.method is not None, "holes": step.makes_holes, "two-people": step.hands > 1,
    }  # fmt: skip
    return (part for part, is_there in parts.items() if is_there)


@cache
def _together(parts: tuple[StepPart, ...]) -> frozenset[str]:
    """Return one set for all steps that carry the same: a set is large, and a book has steps by the ten thousand."""
    return frozenset(parts)
