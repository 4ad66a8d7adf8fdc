"""A procedure's revisions -> the table of them on its page: what changed, why, in which steps, and by whom.

seen.js reads the table, so that steps changed since a device last followed the procedure are marked there.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from builder.model.records.procedure import Earlier, Procedure, Revision
from builder.model.views import Grid, Html
from builder.view.here import Here

TITLE, ANCHOR = "Revisions", "part_revisions"
HEAD = ("Revision", "Why, and what changed", "By")
SOLO = "solo"
PEOPLE = {SOLO: "one person alone", "none": "nobody yet"}
"""What stands in a record in place of an approver."""


def revisions(here: Here, procedure: Procedure) -> Grid:
    """Make the table, newest first."""
    now = procedure.revision
    every: tuple[Revision | Earlier, ...] = (now, *now.earlier)
    numbers = {step.key: at for at, step in enumerate((one for phase in procedure.phases for one in phase.steps), 1)}
    rows = tuple(
        (Html(f'<span data-issue="{one.number}">{one.number} · {one.date}</span>'),
         Html(f"{here.line(one.reason)}{steps(here, one.number, one.steps.items(), numbers)}"),
         here.text(by(one.author, one.approver)))
        for one in every
    )  # fmt: skip
    return Grid(TITLE, HEAD, rows, here.text(_untold(every[-1].number)), ANCHOR)


def steps(
    here: Here, revision: int, changed: Iterable[tuple[str, str]], numbers: Mapping[str, int], page: str = ""
) -> Html:
    """List the steps that a revision changed, each with the way to it; `page` is the procedure's, from elsewhere."""
    told = []
    for key, what in changed:
        if key in numbers:
            way = f'<a href="{page}#{key}">Step {numbers[key]}</a>: {here.line(what)}'
            told.append(f'<li data-step="{key}" data-revision="{revision}">{way}</li>')
        else:
            told.append(f"<li>A step that has gone: {here.line(what)}</li>")
    return Html(f'<ul class="changed-steps">{"".join(told)}</ul>' if told else "")


def approver(name: str) -> str:
    """Return who approved as a reader calls them."""
    return PEOPLE.get(name, name)


def by(author: str, approved: str) -> str:
    """Say who stands behind a revision."""
    return f"{author}, alone" if approved == SOLO else f"{author}, approved by {approver(approved)}"


def _untold(first: int) -> str:
    """Say which revisions lie before the first that the record tells."""
    if first == 1:
        return ""
    return f"{'Revision 1 is' if first == 2 else f'Revisions 1 to {first - 1} are'} not told in this book."
