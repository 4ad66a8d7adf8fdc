"""Procedures in a line each -> steps on the supplied body, and cases that show what a rule refuses.

A file of `cases/` holds blocks. The first line of a block is a rule's id. Then follow, each on a line of its own,
procedures that keep the rule (`keeps`), that break it and where (`breaks`), and that it has nothing to say to
(`spares`). A step is `act subject[,subject]`, then `by METHOD`, `with PART[,PART]`, `answers CALCULATOR` and
`but RULE`; ` > ` stands between steps. What is broken is written as `STEP STATE of SUBJECT`,
`STEP of SUBJECT before STEP` or `STEP lacks PART`, with steps counted from 1.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from pathlib import Path
from typing import NamedTuple

from builder.check.order import Breach
from builder.model.reference import LONE_SUBJECTS, Ref
from builder.model.summary import StepSummary

CASES = Path(__file__).parent / "cases"
WORDS = ("keeps", "breaks", "spares")
Find = Callable[[str], Ref]
"""Takes a subject's id, gives the record."""


class Case(NamedTuple):
    """One procedure and what a rule has to say to it."""

    file: str
    line: int
    rule: str
    word: str
    steps: tuple[str, ...]
    expected: frozenset[str]
    kept: tuple[str, ...]
    """Of a procedure that breaks the rule: the steps of the one above it that keeps it."""
    broken: tuple[str, ...]
    """Of a procedure that is spared: the steps of the one above it that breaks the rule."""

    @property
    def place(self) -> str:
        """Return the line that it stands on."""
        return f"{self.file}:{self.line}"


def cases() -> list[Case]:
    """Read all files of `cases/`."""
    return [case for path in sorted(CASES.glob("*.txt")) for case in _cases_of(path)]


def _cases_of(path: Path) -> Iterator[Case]:
    rule, last = "", dict[str, tuple[str, ...]]()
    for at, line in enumerate(path.read_text("utf-8").splitlines(), 1):
        if not line.strip() or line.startswith("#"):
            continue
        if not line.startswith(" "):
            rule, last = line.strip(), {}
            continue
        word, _, rest = line.strip().partition(" ")
        text, _, told = rest.partition("|")
        steps = tuple(step.strip() for step in text.split(" > "))
        expected = frozenset(part.strip() for part in told.split(";") if part.strip())
        assert word in WORDS, f"{path.name}:{at}"
        assert bool(expected) == (word == "breaks"), f"{path.name}:{at}"
        yield Case(path.name, at, rule, word, steps, expected, last.get("keeps", ()), last.get("breaks", ()))
        last[word] = steps


def steps_of(steps: tuple[str, ...], find: Find) -> tuple[StepSummary, ...]:
    """Read steps."""
    return tuple(_step(at, text, find) for at, text in enumerate(steps))


def _step(at: int, text: str, find: Find) -> StepSummary:
    act, subjects, *rest = text.split()
    said = dict(zip(rest[::2], rest[1::2], strict=True))
    assert set(said) <= {"by", "with", "answers", "but"}, text
    carries = {part for part in said.get("with", "").split(",") if part}
    implied = {"method"} if "by" in said else set()
    return StepSummary(
        f"s{at + 1}", ("phases", 0, "steps", at), act, tuple(subject(name, find) for name in subjects.split(",")),
        said.get("by", ""), (), (said["but"],) if "but" in said else (), (),
        frozenset(carries | implied | ({"wait"} if "attended" in carries else set())),
        (said["answers"],) if "answers" in said else (),
    )  # fmt: skip


def subject(text: str, find: Find) -> Ref:
    """Read `rocker-lower`, `other:rocker-lower`, `body` or `welder`."""
    if text in LONE_SUBJECTS:
        return Ref(text, text)
    ref = find(text.removeprefix("other:"))
    return ref._replace(side="other") if text.startswith("other:") else ref


def written(breach: Breach) -> str:
    """Write a breach as cases write it."""
    at = breach.at + 1
    whose = breach.subject.id if breach.subject.side == "this" else f"other:{breach.subject.id}"
    if breach.sort == "asks":
        return f"{at} lacks {breach.state.removeprefix('calculator:')}"
    if breach.sort == "order":
        return f"{at} of {whose} before {(breach.other or 0) + 1}"
    return f"{at} {breach.state} of {whose}"


def edits(one: tuple[str, ...], other: tuple[str, ...]) -> int:
    """Return how far two procedures lie apart: 1 where one step is added, taken out or moved, or one word changed."""
    if one == other:
        return 0
    is_one = _is_longer_by_one(one, other) or _is_longer_by_one(other, one) or _is_moved(one, other)
    return 1 if is_one or _has_one_word_changed(one, other) else 2


def _is_longer_by_one(longer: tuple[str, ...], shorter: tuple[str, ...]) -> bool:
    return any(longer[:at] + longer[at + 1:] == shorter for at in range(len(longer)))


def _is_moved(one: tuple[str, ...], other: tuple[str, ...]) -> bool:
    return sorted(one) == sorted(other) and any(
        one[:at] + one[at + 1:] == other[:to] + other[to + 1:] for at in range(len(one)) for to in range(len(other))
    )


def _has_one_word_changed(one: tuple[str, ...], other: tuple[str, ...]) -> bool:
    apart = [(a, b) for a, b in zip(one, other, strict=False) if a != b]
    if len(one) != len(other) or len(apart) != 1:
        return False
    before, after = (_fields(text) for text in apart[0])
    return sum(before.get(field) != after.get(field) for field in before.keys() | after.keys()) == 1


def _fields(text: str) -> dict[str, str]:
    act, subjects, *rest = text.split()
    return {"act": act, "on": subjects, **dict(zip(rest[::2], rest[1::2], strict=True))}
