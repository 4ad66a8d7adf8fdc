"""Small calculators made up for tests, laid over the tiny book: what they rest on and when they are wanted."""

from __future__ import annotations

from pathlib import Path

from tests.books.laying import TINY, lay

_CALCULATOR = """\
title: {title}
asks: What is twice {title}?
{moment}inputs:
  size: {{ask: Size, unit: mm, start: 3, from: 1, to: 10}}
fixed:
  times: {{value: 3, source: {fixed}}}
{tables}work:
  result: {work}
outputs:
  result: {{say: Result, unit: mm, digits: 1}}
warnings: none
sources: [{sources}]
proofs:
  - given: {{size: 2 mm}}
    expect: {{result: {expected} mm}}
    source: {proof}
"""
_TABLE = """\
title: Steps
sources: [{source}]
keys: {{sheet: {{say: Sheet, unit: mm, match: down}}}}
columns: {{step: {{say: Step, unit: mm}}}}
rows:
  - {{sheet: 1, step: 1}}
"""


def calculator(
    title: str, sources: str, fixed: str, *, table: bool = False, moment: str = "", proof: str = "bench-trial"
) -> str:
    """A calculator's YAML: three times a length, and with a table one millimetre more."""
    return _CALCULATOR.format(
        title=title, sources=sources, fixed=fixed, proof=proof, moment=f"moment: {moment}\n" if moment else "",
        tables="tables: {steps: steps}\n" if table else "", expected=7 if table else 6,
        work="size * times + table(steps, step, size)" if table else "size * times",
    )  # fmt: skip


def table(source: str) -> str:
    """The table such a calculator reads, as YAML."""
    return _TABLE.format(source=source)


def book(folder: Path, records: dict[str, str]) -> Path:
    """The tiny book with records over it, by their path from the layer."""
    content = lay(folder, TINY)
    for path, text in records.items():
        (content / path).write_text(text, "utf-8")
    return content
