"""Ways to spoil a procedure -> mutants, each one change away from it; which are dangerous is for the trade's table.

The first four know nothing: they delete, move, swap and duplicate any step. The others aim at a guard or a debt.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import NamedTuple

from builder.model.reference import BODY, LONE_SUBJECTS, WELDER, Ref
from builder.model.summary import StepSummary
from tests.mutation.body import Body, Steps
from tests.mutation.dangers import Link
from tests.mutation.debts import CARRIES, Debt
from tests.mutation.guards import Guard

Links = list[Link]
FAR = 12
"""So many steps apart two steps are swapped, and so far one is moved, at random."""


def without(steps: Steps, at: int) -> Steps:
    return steps[:at] + steps[at + 1:]


def put(steps: Steps, at: int, *new: StepSummary) -> Steps:
    return (*steps[:at], *new, *steps[at:])


def moved(steps: Steps, at: int, to: int) -> Steps:
    """Take a step out and put it where another stands now; that one gives way."""
    return put(without(steps, at), to, steps[at])


def changed(steps: Steps, at: int, step: StepSummary) -> Steps:
    return (*steps[:at], step, *steps[at + 1:])


def of_guards(links: Links) -> Iterator[tuple[Guard, Link]]:
    """Links to a step that gives a guard."""
    return ((link.about, link) for link in links if isinstance(link.about, Guard) and link.giver >= 0)


def of_debts(links: Links) -> Iterator[tuple[Debt, Link]]:
    return ((link.about, link) for link in links if isinstance(link.about, Debt))


def deleted(_: Body, steps: Steps, _links: Links) -> Iterator[Steps]:
    return (without(steps, at) for at in range(len(steps)))


def moved_anywhere(_: Body, steps: Steps, _links: Links) -> Iterator[Steps]:
    for at in range(len(steps)):
        for to in range(max(0, at - FAR), min(len(steps), at + FAR)):
            yield moved(steps, at, to)


def swapped(_: Body, steps: Steps, _links: Links) -> Iterator[Steps]:
    for at in range(len(steps)):
        for to in range(at + 1, min(len(steps), at + FAR)):
            yield changed(changed(steps, at, steps[to]), to, steps[at])


def duplicated(_: Body, steps: Steps, _links: Links) -> Iterator[Steps]:
    for at in range(len(steps)):
        for to in range(len(steps) + 1):
            yield put(steps, to, steps[at])


def guard_too_late(_: Body, steps: Steps, links: Links) -> Iterator[Steps]:
    return (moved(steps, link.giver, link.act) for _guard, link in of_guards(links))


def act_too_early(_: Body, steps: Steps, links: Links) -> Iterator[Steps]:
    return (moved(steps, link.act, link.giver) for _guard, link in of_guards(links))


def guard_and_act_swapped(_: Body, steps: Steps, links: Links) -> Iterator[Steps]:
    for _guard, link in of_guards(links):
        yield changed(changed(steps, link.act, steps[link.giver]), link.giver, steps[link.act])


def spoiled_between(body: Body, steps: Steps, links: Links) -> Iterator[Steps]:
    """Something is done that takes the guard away again, just before the act."""
    for guard, link in of_guards(links):
        for _, takes in guard.ways:
            for act in takes.split():
                yield from (put(steps, link.act, step) for step in _doing(body, steps, act, link.target))


def danger_brought_in(body: Body, steps: Steps, links: Links) -> Iterator[Steps]:
    """What must not be about when the act is done is brought about before it."""
    for link in links:
        if isinstance(link.about, Guard) and link.about.at_first and link.giver < 0:
            for act in link.about.ways[0][1].split():
                yield from (put(steps, link.act, step) for step in _doing(body, steps, act, link.target))


def on_one_less(_: Body, steps: Steps, links: Links) -> Iterator[Steps]:
    """The guard is forgotten on one of several seams."""
    for link in links:
        if link.giver >= 0 and link.target in (step := steps[link.giver]).subjects and len(step.subjects) > 1:
            fewer = tuple(ref for ref in step.subjects if ref != link.target)
            yield changed(steps, link.giver, step._replace(subjects=fewer))


def on_the_twin(body: Body, steps: Steps, links: Links) -> Iterator[Steps]:
    """The guard is given on the wrong side of the car."""
    for link in links:
        twin = body.across(link.target)
        if link.giver >= 0 and twin is not None:
            yield from _instead(steps, link, twin)


def on_the_wrong_one(body: Body, steps: Steps, links: Links) -> Iterator[Steps]:
    """The guard is given to another seam, panel, box or opening."""
    for link in links:
        for other in body.alike.get(link.target.kind, ())[::3]:
            if link.giver >= 0 and other != link.target.record:
                yield from _instead(steps, link, other)


def in_name_only(_: Body, steps: Steps, links: Links) -> Iterator[Steps]:
    """Somebody looks, and nobody does it."""
    for link in links:
        step = steps[link.giver]
        if link.giver >= 0 and not any(ref.kind == WELDER for ref in step.subjects):
            yield changed(steps, link.giver, step._replace(act="inspect", method="", works_out=()))


def debt_paid_too_early(_: Body, steps: Steps, links: Links) -> Iterator[Steps]:
    return (moved(steps, link.giver, link.act) for _debt, link in of_debts(links))


def payment_spoiled(body: Body, steps: Steps, links: Links) -> Iterator[Steps]:
    """After the debt was paid comes what undoes it."""
    for debt, link in of_debts(links):
        for act in f"{debt.acts} {debt.spoilers}".split():
            yield from (put(steps, len(steps), step) for step in _doing(body, steps, act, link.target))


def proof_left_out(_: Body, steps: Steps, _links: Links) -> Iterator[Steps]:
    """A step loses the reading, the hold, the picture, the wait or the method that makes it worth anything."""
    for at, step in enumerate(steps):
        for part in CARRIES.get(step.act, ("", ""))[0].split():
            bare = step._replace(carries=step.carries - {part})
            yield changed(steps, at, bare._replace(method="") if part == "method" else bare)


def holds_left_out(_: Body, steps: Steps, _links: Links) -> Iterator[Steps]:
    """From some step on nobody stops to look at what was read."""
    for at in range(len(steps)):
        yield (*steps[:at], *(step._replace(carries=step.carries - {"hold"}) for step in steps[at:]))


def joined_another_way(body: Body, steps: Steps, _links: Links) -> Iterator[Steps]:
    """The seam is welded by a way whose coupon was never opened."""
    for at, step in enumerate(steps):
        if step.act == "weld-final":
            for method in ("resistance-spot", "mag-plug", "mag-seam"):
                if method != step.method:
                    yield changed(steps, at, step._replace(method=method))


def both_sides_opened(body: Body, steps: Steps, _links: Links) -> Iterator[Steps]:
    """The other side is cut or freed as well, while this one stands open."""
    for at, step in enumerate(steps):
        across = tuple(other for ref in step.subjects if (other := body.across(ref)) is not None)
        if step.act in ("cut-out", "section-cut", "free-welds") and len(across) == len(step.subjects):
            yield put(steps, at + 1, step._replace(subjects=across))


def _instead(steps: Steps, link: Link, other: Ref) -> Iterator[Steps]:
    step = steps[link.giver]
    if link.target in step.subjects:
        refs = tuple(dict.fromkeys(other if ref == link.target else ref for ref in step.subjects))
        yield changed(steps, link.giver, step._replace(subjects=refs))


ON = {
    "seam": "clean-bare drill-plug-holes straighten-flange free-welds dress fill-holes relieve-layer bond seal-lap "
            "weld-tack weld-final weld-coupon prime-epoxy prime-etch encapsulate planish heat-metal degrease "
            "wash-chlorinated prime-weld-through bead coat-back weld-inner-pair deburr",
    "panel": "hang unclamp trim lift-off work-metal pull cut-out section-cut paint prime-part stone-guard bake "
             "heat-metal",
    "cavity": "coat-inside wax-cavity place-inside encapsulate",
    "opening": "brace unbrace",
    "body": "reconnect-battery refit close-fuel open-fuel new-day raise-car rig-pull take-off-jig level-car "
            "support-car set-on-jig",
    "welder": "change-setup",
}  # fmt: skip
"""What an act that is put in is done on."""


ALL_CARRIED = frozenset({"measure", "hold", "photo", "wait", "attended", "keep"})


def _doing(body: Body, steps: Steps, act: str, target: Ref) -> Iterator[StepSummary]:
    """Steps that do an act where it is felt at the target: the procedure's own, else new ones on what lies there."""
    act, holes = act.rstrip("!"), act.endswith("!")
    own = [step for step in steps if step.act == act and any(body.reaches(ref, target) for ref in step.subjects)]
    for step in own:
        yield step._replace(key=f"again-{step.key}", exempt=())
    if not own:
        for ref in _there(body, steps, act, target):
            carries = ALL_CARRIED | {"holes"} if holes else ALL_CARRIED
            yield StepSummary("put-in", (), act, (ref,), "", (), (), (), carries)


def _there(body: Body, steps: Steps, act: str, target: Ref) -> list[Ref]:
    """One subject that the act may be done on, near the target."""
    kinds = [kind for kind, acts in ON.items() if act in acts.split()]
    worked_on = [ref for step in steps for ref in step.subjects]
    near = [target, *worked_on, *body.panels(target)]
    lone = [Ref(kind, kind) for kind in kinds if kind in LONE_SUBJECTS]
    felt = [ref for ref in near if ref.kind in kinds and (target.kind == BODY or body.reaches(ref, target))]
    return [*felt, *lone][:1]


class Kind(NamedTuple):
    """One way to spoil a procedure, and why it is one that happens and hurts."""

    make: Callable[[Body, Steps, Links], Iterator[Steps]]
    defence: str


KINDS = {
    "safeguard or payment deleted": Kind(deleted, "A line is skipped; what it kept away happens."),
    "any step moved": Kind(moved_anywhere, "The sheet is read in another order, since something was not ready."),
    "any two steps swapped": Kind(swapped, "Two jobs change places, since one tool is in use."),
    "any step done again elsewhere": Kind(duplicated, "Something is done once more and undoes other work."),
    "safeguard after what it guards": Kind(guard_too_late, "It is made good afterwards, with nothing left to guard."),
    "act before its safeguard": Kind(act_too_early, "Somebody goes ahead while another still makes safe."),
    "safeguard and act swapped": Kind(guard_and_act_swapped, "The list is ticked from the wrong end."),
    "safeguard taken away again": Kind(spoiled_between, "It was done and undone; the list still says done."),
    "danger brought in": Kind(danger_brought_in, "A rag, a coat or a load comes in just before the act."),
    "forgotten on one of several": Kind(on_one_less, "Four seams, three prepared. The fourth looks like the others."),
    "done on the wrong side": Kind(on_the_twin, "Left and right were mixed up; the side that is welded stays bare."),
    "done on the wrong one": Kind(on_the_wrong_one, "The neighbour was prepared. What is worked on was not."),
    "done in name only": Kind(in_name_only, "Somebody looked, ticked and went on."),
    "debt paid too early": Kind(debt_paid_too_early, "Sealed, waxed or measured before the weld that spoils it."),
    "payment undone": Kind(payment_spoiled, "Hot work or a cut after everything was closed, coated and proven."),
    "proof left out": Kind(proof_left_out, "A watch that nobody kept, a reading unwritten, a wait cut short."),
    "holds left out": Kind(holds_left_out, "Readings were taken and nobody looked at them."),
    "joined another way": Kind(joined_another_way, "Welded by what stood nearer; no coupon speaks for it."),
    "both sides opened": Kind(both_sides_opened, "To save a day both sides are opened, and the body folds."),
}
