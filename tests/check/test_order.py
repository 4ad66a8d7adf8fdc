"""The walk through a procedure's steps: fixture table, a naive model, and what relied-on procedures bring along."""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from builder.check.law import Law, make_law
from builder.check.order import BROUGHT, Breach, judge, states_at_end
from builder.model.links import Catalogue
from builder.model.records import Record
from builder.model.records.law import Act, Effect, First, Owed, Rule, State, Unless, When
from builder.model.reference import Ref
from builder.model.summary import StepSummary, Summary

FIXTURE = Path(__file__).parent / "fixture.txt"
SEAM, SEALED, CAVITY = Ref("seam", "seam"), Ref("seam", "sealed-seam"), Ref("cavity", "cavity")
SUBJECTS = {
    "seam": SEAM, "other:seam": SEAM._replace(side="other"), "sealed-seam": SEALED, "cavity": CAVITY,
    "body": Ref("body", "body"), "welder": Ref("welder", "welder"),
}  # fmt: skip


def _summary(ref: Ref, sealed: str = "no") -> Summary:
    relations = {"closes": (CAVITY,), "panels": (), "methods": ()} if ref.kind == "seam" else {}
    return Summary(ref, ref.id, (), (), (), (), ({"joint": "lap", "sealed": sealed},), relations, ())


def _act(on: str, makes: tuple[Effect, ...] = (), spoils: tuple[Effect, ...] = (), heat: tuple[str, ...] = ()) -> Act:
    return Act(
        title="x", summary="x", on=(on,), makes=makes, spoils=spoils, heat=heat, vapour=False, noisy=False,  # type: ignore[arg-type]
    )  # fmt: skip


def _rule(when: When, **consequence: object) -> Rule:
    return Rule(title="t", when=when, level="error", because="b", source="s", **consequence)  # type: ignore[arg-type]


def law() -> Law:
    """Acts on a seam, a cavity and the body, and one rule of every form."""
    acts = {
        "prime": _act("seam", (Effect(state="protected"),)),
        "drill": _act("seam", spoils=(Effect(state="protected"),)),
        "coat": _act("cavity", (Effect(state="coated"), Effect(state="vapour", of="body"))),
        "air": _act("body", spoils=(Effect(state="vapour"),)),
        "weld": _act("seam", heat=("arc",)),
        "weld-bonded": _act("seam", heat=("arc",)),
        "weld-sealed": _act("seam", spoils=(Effect(state="bead"),), heat=("arc",)),
        "close": _act("seam"),
        "bead": _act("seam", (Effect(state="bead"),)),
    }
    states = {
        "protected": ("seam",), "coated": ("cavity",), "vapour": ("body",), "bead": ("seam",),
    }  # fmt: skip
    welds = ("weld", "weld-bonded", "weld-sealed")
    rules = {
        "lap": _rule(When(act=welds, on="seam", where='joint == "lap"'), needs=Effect(state="protected"),
                     unless=Unless(act=("weld-bonded",))),
        "vapour": _rule(When(heat=("arc",)), forbids=Effect(state="vapour", of="body")),
        "bead-owed": _rule(When(act=welds, on="seam", where='sealed == "yes"'),
                           owes=Owed(state="bead", by="close-out")),
        "bead-last": _rule(When(act=("bead",), on="seam"), if_both_first=First(act=welds)),
        "inside": _rule(When(act=("close",), on="seam"), needs=Effect(state="coated", of="closes")),
    }  # fmt: skip
    shelf: dict[Ref, Record] = {
        **{Ref("act", name): act for name, act in acts.items()},
        **{Ref("state", name): State(title=name, of=of, means="x") for name, of in states.items()},  # type: ignore[arg-type]
        **{Ref("rule", name): rule for name, rule in rules.items()},
    }
    summaries = {SEAM: _summary(SEAM), SEALED: _summary(SEALED, "yes"), CAVITY: _summary(CAVITY)}
    return make_law(shelf, Catalogue(summaries, frozenset(), {}, {}, frozenset({SEAM, CAVITY})))


LAW = law()


def steps_of(lines: list[str]) -> list[StepSummary]:
    found = []
    for at, line in enumerate(lines, 1):
        act, subject = line.split()
        found.append(StepSummary(f"s{at}", ("steps", at), act, (SUBJECTS[subject],), "", (), ()))
    return found


def told(breach: Breach) -> str:
    """Write a breach as the fixture does."""
    name = next(name for name, ref in SUBJECTS.items() if ref == breach.subject)
    words = [breach.sort, breach.state, name, "at", str(breach.at + 1)]
    text = " ".join(word for word in words if word)
    if breach.other is None:
        return text
    link = "later" if breach.late or breach.sort == "order" else "since" if breach.sort == "forbids" else "spoiled"
    return f"{text}, {link} {breach.other + 1}"


def cases() -> list[tuple[int, list[str], list[str]]]:
    found: list[tuple[int, list[str], list[str]]] = []
    for number, line in enumerate(FIXTURE.read_text("utf-8").splitlines(), 1):
        if line.startswith("= "):
            found.append((number, [], []))
        elif line.startswith("> "):
            found[-1][2].append(line[2:])
        elif line and not line.startswith("#"):
            found[-1][1].append(line)
    return found


@pytest.mark.parametrize(("steps", "expected"), [case[1:] for case in cases()], ids=[f"line {c[0]}" for c in cases()])
def test_a_procedure_is_judged_as_the_table_says(steps: list[str], expected: list[str]) -> None:
    assert sorted(told(breach) for breach in judge(LAW, steps_of(steps))) == sorted(expected)


_steps = st.lists(
    st.sampled_from([
        "prime seam", "prime other:seam", "drill seam", "drill other:seam", "coat cavity", "air body", "weld seam",
        "weld other:seam", "weld-bonded seam", "weld-sealed sealed-seam", "prime sealed-seam", "bead sealed-seam",
        "close seam",
    ]),
    max_size=9,
)  # fmt: skip
MAKES = {"prime": "protected", "bead": "bead", "coat": "coated"}
SPOILS = {"drill": "protected", "weld-sealed": "bead"}


def _holds(lines: list[str], before: int, state: str, subject: str) -> bool:
    """Look back from a step to the last one that made or spoiled the state: this file's law, told again plainly."""
    for line in reversed(lines[:before]):
        act, on = line.split()
        if state == "vapour":
            if act == "air":
                return False
            if act == "coat":
                return True
        elif on == subject and MAKES.get(act) == state:
            return True
        elif on == subject and SPOILS.get(act) == state:
            return False
    return False


def _naive(lines: list[str]) -> list[tuple[str, int]]:
    found: list[tuple[str, int]] = []
    for at, line in enumerate(lines):
        act, on = line.split()
        welds = act.startswith("weld")
        if welds and act != "weld-bonded" and not _holds(lines, at, "protected", on):
            found.append(("needs", at))
        if act == "close" and not _holds(lines, at, "coated", "cavity" if on == "seam" else "x"):
            found.append(("needs", at))
        if welds and _holds(lines, at, "vapour", "body"):
            found.append(("forbids", at))
        if act == "bead" and any(later.startswith("weld") and later.split()[1] == on for later in lines[at:]):
            found.append(("order", at))
    last = max((at for at, line in enumerate(lines) if line == "weld-sealed sealed-seam"), default=None)
    if last is not None and "bead sealed-seam" not in lines[last:]:
        found.append(("owes", last))
    return found


@settings(max_examples=600)
@given(_steps)
def test_the_walk_agrees_with_a_naive_reading_of_the_law(lines: list[str]) -> None:
    judged = [(breach.sort, breach.at) for breach in judge(LAW, steps_of(lines))]
    assert sorted(judged) == sorted(_naive(lines))


@given(_steps, _steps)
def test_what_is_relied_on_counts_as_done(first: list[str], second: list[str]) -> None:
    brought = states_at_end(LAW, steps_of(first))
    alone = {(breach.sort, breach.state, breach.at) for breach in judge(LAW, steps_of(second), brought)}
    together = {
        (breach.sort, breach.state, breach.at - len(first))
        for breach in judge(LAW, steps_of(first + second)) if breach.at >= len(first)
    }  # fmt: skip
    assert alone == together


def test_a_state_that_was_brought_along_is_not_placed_in_this_procedure() -> None:
    breach, = judge(LAW, steps_of(["weld-bonded seam"]), [("vapour", SUBJECTS["body"])])
    assert breach.other == BROUGHT


def test_an_exemption_lifts_its_rule_and_a_needless_one_is_told() -> None:
    weld = steps_of(["weld seam"])[0]._replace(exempt=("lap",))
    assert judge(LAW, [weld]) == ()
    primed = [*steps_of(["prime seam"]), weld]
    assert [breach.sort for breach in judge(LAW, primed)] == ["needless"]


def test_a_rule_whose_condition_cannot_be_told_binds() -> None:
    """Unknown is never looser than known."""
    summary = _summary(SEAM)._replace(facts=({"joint": None, "sealed": "no"},))
    catalogue = Catalogue({SEAM: summary}, frozenset(), {}, {}, frozenset())
    shelf: dict[Ref, Record] = {
        Ref("act", "weld"): LAW.acts["weld"], Ref("state", "protected"): LAW.states["protected"],
        Ref("rule", "lap"): dict(LAW.rules["weld"])["lap"],
    }  # fmt: skip
    assert [breach.sort for breach in judge(make_law(shelf, catalogue), steps_of(["weld seam"]))] == ["needs"]
