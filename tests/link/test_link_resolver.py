"""Records by hand -> what the resolver knows of them: backlinks, old names, sides, and what leads nowhere."""

from __future__ import annotations

from collections.abc import Mapping

import pytest

from builder.link import resolve
from builder.model.links import Catalogue
from builder.model.near import near_names, offer
from builder.model.place import Span
from builder.model.problem import Problem
from builder.model.reference import Mention, Ref
from builder.model.summary import Path, Summary

PANEL, SEAM, CAVITY, OPENING, TERM = (Ref(kind, "x") for kind in ("panel", "seam", "cavity", "opening", "term"))


def summary(
    ref: Ref, *mentions: Mention, was: tuple[str, ...] = (), handed: bool | None = None, anchors: tuple[str, ...] = (),
    **relations: tuple[Ref, ...],
) -> Summary:  # fmt: skip
    own = {"seam": ("closes", "panels", "methods"), "panel": ("bounds", "neighbours")}.get(ref.kind, ())
    return Summary(ref, ref.id, (), was, anchors, mentions, (), {name: relations.get(name, ()) for name in own}, (),
                   handed)  # fmt: skip


def find(*summaries: Summary, broken: frozenset[Ref] = frozenset()) -> tuple[Catalogue, list[Problem]]:
    """Resolve; a mention's place is its field."""

    def places_of(ref: Ref, mention: Mention) -> tuple[Span, ...]:
        return (Span(f"{ref}/{mention.field}", 1, 1, 2),)

    def locate(ref: Ref, path: Path, start: int | None = None, end: int | None = None) -> Span:
        return Span(f"{ref}/{'/'.join(map(str, path))}", 1, 1, 2)

    by_ref: Mapping[Ref, Summary] = {one.ref: one for one in summaries}
    catalogue, problems = resolve(by_ref, broken, places_of, locate)
    return catalogue, list(problems)


def to(text: str, *kinds: str, field: str = "f") -> Mention:
    kind, _, rest = text.removeprefix("other:").partition(":")
    id_, _, anchor = rest.partition("#")
    return Mention(Ref(kind, id_, anchor, "other" if text.startswith("other:") else "this"), kinds, field)


def test_who_uses_a_record_is_known_once_and_sorted() -> None:
    catalogue, problems = find(
        summary(SEAM, to("panel:x", field="sheets"), to("panel:x", field="notes")),
        summary(TERM, to("panel:x", field="means")), summary(PANEL, handed=False),
    )  # fmt: skip
    assert problems == []
    assert catalogue.uses == {PANEL: (SEAM, TERM)}


def test_an_old_name_leads_on_and_counts_for_the_new_one() -> None:
    old = Ref("panel", "old")
    catalogue, problems = find(summary(TERM, to("panel:old")), summary(PANEL, was=("old", "older"), handed=False))
    assert catalogue.moved == {old: PANEL, Ref("panel", "older"): PANEL}
    assert catalogue.uses == {PANEL: (TERM,)}
    found = catalogue.find(old)
    assert found is not None
    assert found.ref == PANEL
    assert [(problem.code.id, problem.level, problem.do) for problem in problems] == [("L204", "warning", "write x")]


def test_old_names_belong_to_their_kind() -> None:
    catalogue, problems = find(summary(TERM, was=("old",)), summary(PANEL, was=("old",), handed=False))
    assert problems == []
    assert catalogue.moved == {Ref("term", "old"): TERM, Ref("panel", "old"): PANEL}


def test_two_claims_on_one_name_show_both_places() -> None:
    _, problems = find(summary(TERM, was=("old",)), summary(Ref("term", "y"), was=("new", "old")))
    (problem,) = problems
    assert (problem.code.id, problem.span.file) == ("L205", "term:y/was/1")
    assert problem.see[0].span.file == "term:x/was"


@pytest.mark.parametrize("is_broken", [False, True])
def test_a_living_name_is_no_old_one(is_broken: bool) -> None:
    living = Ref("term", "y")
    claims = summary(TERM, was=("y",))
    _, problems = find(claims, broken=frozenset({living})) if is_broken else find(claims, summary(living))
    assert [problem.code.id for problem in problems] == ["L205"]


@pytest.mark.parametrize(("mention", "code", "do"), [
    (to("panel:y", "panel"), "L203", "write x, the nearest name"),
    (to("panel:zebra", "panel"), "L203", "write content/panels/zebra.yaml, or name one that exists"),
    (to("pannel:x"), "L203", "write panel, the nearest name"),
    (to("term:x", "panel", "seam"), "L201", "name a panel or seam"),
    (to("procedure:x#prim"), "L202", "write prime, the nearest name"),
    (to("procedure:x#zebra"), "L202", "write one of: prime, weld"),
    (to("scale:x#milde"), "L202", "write mild, the nearest name"),
    (to("other:panel:x"), "L206", "leave out other:"),
])  # fmt: skip
def test_what_leads_nowhere(mention: Mention, code: str, do: str) -> None:
    if do.startswith("write x,"):
        mention = to("panel:xx", "panel")
    named = Ref("panel", "xxx") if mention.ref.id == "xx" else PANEL
    _, problems = find(
        summary(TERM, mention), summary(named, handed=False), summary(Ref("procedure", "x"), anchors=("prime", "weld")),
        summary(Ref("scale", "x"), anchors=("mild", "hard")),
    )  # fmt: skip
    assert [(problem.code.id, problem.span.file) for problem in problems] == [(code, "term:x/f")]
    assert problems[0].do == do.replace("write x,", "write xxx,")


def test_a_broken_record_is_no_second_problem() -> None:
    seam = Ref("seam", "y")
    _, problems = find(
        summary(TERM, to("panel:x", "panel"), to("procedure:p#any"), to("other:seam:y")), summary(seam),
        broken=frozenset({PANEL, Ref("procedure", "p")}),
    )  # fmt: skip
    assert problems == []


def test_what_touches_a_handed_panel_is_handed() -> None:
    middle, plain_seam = Ref("panel", "middle"), Ref("seam", "plain")
    catalogue, _ = find(
        summary(PANEL, handed=True, bounds=(OPENING,)), summary(middle, handed=False, bounds=(Ref("opening", "roof"),)),
        summary(SEAM, panels=(PANEL, middle), closes=(CAVITY,)),
        summary(plain_seam, panels=(middle,), closes=(Ref("cavity", "tunnel"),)),
        summary(OPENING), summary(CAVITY), summary(Ref("opening", "roof")), summary(Ref("cavity", "tunnel")),
    )  # fmt: skip
    assert catalogue.handed == {PANEL, OPENING, SEAM, CAVITY}


@pytest.mark.parametrize(("word", "names", "near"), [
    ("rocker-botom", ["rocker-bottom", "rocker-top", "floor"], ["rocker-bottom", "rocker-top"]),
    ("prime", ["paint", "weld"], []),
    ("x" * 5000, ["xxxx"], []),
    ("seam-a", ["seam-b", "seam-c", "seam-d", "seam-e"], 3),
    ("", ["a"], []),
])  # fmt: skip
def test_near_names_are_few_and_near(word: str, names: list[str], near: list[str] | int) -> None:
    found = near_names(word, names)
    assert len(found) == near if isinstance(near, int) else list(found) == near
    assert offer(word, names, "otherwise") == "otherwise" if not found else "nearest name" in offer(word, names, "")


def test_a_record_without_an_unhanded_side() -> None:
    """A record may say `other:` of what a car has twice."""
    _, problems = find(summary(TERM, to("other:panel:x")), summary(PANEL, handed=True))
    assert problems == []
