"""The statuses of all procedures -> where one that is worked from leads to one that is not."""

from __future__ import annotations

from collections.abc import Iterator

from builder.check import codes
from builder.model.links import Catalogue
from builder.model.problem import Problem
from builder.model.summary import Locate, Summary

ISSUED, WITHDRAWN = "issued", "withdrawn"


def standing_problems(catalogue: Catalogue, locate: Locate) -> Iterator[Problem]:
    """Yield a problem for each way that leads astray."""
    for ref in sorted(catalogue.summaries):
        summary = catalogue.summaries[ref]
        if summary.status == ISSUED:
            yield from _relied_on(summary, catalogue, locate)
        elif summary.status == WITHDRAWN:
            yield from _replaced(summary, catalogue, locate)


def _relied_on(summary: Summary, catalogue: Catalogue, locate: Locate) -> Iterator[Problem]:
    for at, ref in enumerate(summary.relations.get("relies_on", ())):
        other = catalogue.find(ref)
        if other is not None and other.status != ISSUED:
            yield Problem(
                codes.LEANS_ON_UNISSUED, locate(summary.ref, ("relies_on", at)),
                f'it is issued and relies on "{other.title}", {_why(other.status)}',
                "rely on another, or withdraw this one too" if other.status == WITHDRAWN else "issue that one first",
                level="error" if other.status == WITHDRAWN else "warning",
            )  # fmt: skip


def _replaced(summary: Summary, catalogue: Catalogue, locate: Locate) -> Iterator[Problem]:
    for ref in summary.relations.get("replaced_by", ()):
        other = catalogue.find(ref)
        if other is not None and other.status == WITHDRAWN:
            what = "itself" if other.ref == summary.ref else f'"{other.title}", which is withdrawn too'
            yield Problem(codes.LEANS_ON_UNISSUED, locate(summary.ref, ("replaced_by",)), f"it is replaced by {what}",
                          "name one that is worked from, or take replaced_by out")  # fmt: skip


def _why(status: str) -> str:
    return "which is withdrawn" if status == WITHDRAWN else f"which is not issued yet ({status})"
