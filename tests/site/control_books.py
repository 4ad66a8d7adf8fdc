"""The tiny book in several standings: revised, drafted, withdrawn; small enough to be built for one test."""

from __future__ import annotations

from pathlib import Path

from tests.books.laying import TINY, build, edit, lay, shown

COVER = "procedures/weld-cover.yaml"
REVISED = ("prime-edge", "clean-edge")
"""Steps that revision 3 of the cover's procedure changes."""
LOOK = """\
title: {title}
purpose: Says whether the cover stays.
limits: none
status: {status}
{more}revision: {{number: 1, date: "{date}", author: Ada Quill, approver: {approver}, reason: First issue.}}
applies_to: [Any car with such a box]
panels: [cover]
needs: {{conditions: none, people: [{{who: Technician, count: 1}}], tools: none, supplies: none, parts: none}}
hazards: none
phases:
  - title: Look
    steps:
      - {{key: look, act: measure, on: opening:hatch, do: Measure the diagonal of the hatch., minutes: 5}}
close_out: none
sources: none
"""


def tiny(folder: Path) -> Path:
    """Lay the tiny book down and return its content."""
    return lay(folder / "content", TINY)


def look(
    content: Path, id_: str, title: str, status: str, *,
    date: str = "2026-01-12", approver: str = "solo", more: str = "",
) -> None:
    """Add a small procedure in a standing of its own."""
    text = LOOK.format(title=title, status=status, date=date, approver=approver, more=more)
    (content / "procedures" / f"{id_}.yaml").write_text(text, "utf-8")


def revise(content: Path) -> None:
    """Make revision 3 of the cover's procedure, which changes two of its steps."""
    changed = ", ".join(f"{key}: The {key} is done in another way." for key in REVISED)
    edit(
        content, COVER,
        ('  number: 2\n  date: "2026-02-03"\n', '  number: 3\n  date: "2026-03-01"\n'),
        ("  steps: {air-car:", f"  steps: {{{changed}}}\n  #"),
        ("  earlier: [", '  earlier: [{number: 2, date: "2026-02-03", author: Ada Quill, approver: Bo Marsh, '
                         "reason: Aired first., steps: {air-car: The car is aired.}}, "),
    )  # fmt: skip


def published(content: Path, target: Path) -> Path:
    """Build it; fails the test where the book does not compile."""
    outcome = build(content, target)
    assert outcome.published is not None, shown(outcome)
    return target
