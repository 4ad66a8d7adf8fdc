"""A procedure -> what its revisions say that cannot be so: who approved, numbers and dates, steps it does not have."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise
from typing import NamedTuple

from builder.model.near import listed, offer
from builder.model.problem import Code, Problem
from builder.model.records.procedure import Earlier, Procedure, Revision
from builder.model.summary import KEY, Path
from builder.model.tree import Mapping, follow, span_of
from builder.shape import codes

SOLO, NONE = "solo", "none"
"""In place of an approver: one person alone, and nobody yet."""
APPROVED = ("issued", "withdrawn")
"""The statuses that somebody has put their name to."""


class _Wrong(NamedTuple):
    code: Code
    path: Path
    message: str
    do: str


def revision_problems(record: Procedure, tree: Mapping, file: str) -> Iterator[Problem]:
    """Yield every problem at its place."""
    for wrong in _wrong(record):
        is_key = wrong.path[-1] == KEY
        node, key = follow(tree, wrong.path[:-1] if is_key else wrong.path)
        span = span_of(key if is_key and key is not None else node, file)
        yield Problem(wrong.code, span, wrong.message, wrong.do)


def are_sound(record: Procedure) -> bool:
    """Whether there is nothing to say."""
    return next(_wrong(record), None) is None


def _wrong(record: Procedure) -> Iterator[_Wrong]:
    yield from _approval(record)
    yield from _order(record.revision)
    yield from _strangers(record)
    if record.replaced_by is not None and record.status != "withdrawn":
        yield _Wrong(codes.WRONGLY_REPLACED, ("replaced_by",), f"it is {record.status} and says what takes its place",
                     "write status: withdrawn, or take replaced_by out")  # fmt: skip


def _all(revision: Revision) -> Iterator[tuple[Path, Revision | Earlier]]:
    yield ("revision",), revision
    for at, one in enumerate(revision.earlier):
        yield ("revision", "earlier", at), one


def _approval(record: Procedure) -> Iterator[_Wrong]:
    for path, one in _all(record.revision):
        where = (*path, "approver")
        if _plain(one.author) == _plain(one.approver):
            yield _Wrong(codes.NOT_APPROVED, where, f"{one.author} approves what {one.author} wrote",
                         "name another person; in a shop of one write solo")  # fmt: skip
        elif one.approver == NONE and (len(path) > 1 or record.status in APPROVED):
            what = "an earlier revision was followed" if len(path) > 1 else f"it is {record.status}"
            yield _Wrong(codes.NOT_APPROVED, where, f"{what}, and nobody approved it",
                         "name who approved it; in a shop of one write solo")  # fmt: skip


def _plain(name: str) -> str:
    return " ".join(name.split()).casefold()


def _order(revision: Revision) -> Iterator[_Wrong]:
    for (_, later), (path, one) in pairwise(_all(revision)):
        if one.number != later.number - 1:
            do = f"write {later.number - 1}" if later.number > 1 else "take it out: nothing comes before revision 1"
            yield _Wrong(codes.REVISIONS_OUT_OF_ORDER, (*path, "number"),
                         f"revision {one.number} stands behind revision {later.number}", do)  # fmt: skip
        if one.date > later.date:
            yield _Wrong(codes.REVISIONS_OUT_OF_ORDER, (*path, "date"),
                         f"revision {one.number} is dated after revision {later.number}, {later.date}",
                         "mend the one of the two that is wrong")  # fmt: skip


def _strangers(record: Procedure) -> Iterator[_Wrong]:
    """Only of this revision: a step changed in an earlier one may have gone since."""
    known = tuple(step.key for phase in record.phases for step in phase.steps)
    for key in record.revision.steps:
        if key not in known:
            yield _Wrong(codes.REVISED_STRANGER, ("revision", "steps", key, KEY), f'no step is called "{key}"',
                         offer(key, known, f"name one of: {listed(known)}; of a step that has gone tell it in reason"),
                         )  # fmt: skip
