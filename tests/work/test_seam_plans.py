"""Seam plans of the supplied library against sums done by hand."""

from __future__ import annotations

from pathlib import Path

import pytest

from builder.model.files import Layer
from builder.model.reference import Ref
from builder.model.work import SeamPlan, Worked
from builder.order import Order
from builder.passes import Way, unpack
from builder.work import Shop, work

CONTENT = Path(__file__).resolve().parents[2] / "content"


class Library:
    """The supplied library, gathered once."""

    def __init__(self) -> None:
        way = Way(Order((Layer(CONTENT, "content"),)))
        self.gathered = way.gather(way.discover())
        self.catalogue = way.connect(self.gathered)
        self.programs = way.judge(self.gathered, self.catalogue)
        self.problems = way.outcome_problems()

    def work(self, ref: Ref) -> Worked:
        shop = Shop(self.gathered.shelf, self.programs, self.gathered.scales)
        worked, faults = work(ref, unpack(ref, self.gathered), self.catalogue, shop)
        assert faults == ()
        return worked


@pytest.fixture(scope="module")
def library() -> Library:
    found = Library()
    assert found.problems == ()
    return found


def _fact(plan: SeamPlan, segment: int, say: str) -> str:
    return next(value.text for value in plan[segment].facts if value.say == say)


def test_the_lower_flange_is_governed_as_aws_d8_1m_says(library: Library) -> None:
    """AWS D8.1M:2013 clause 3, read in a reprint: the thinner of two sheets, the second thickest of three."""
    plan = library.work(Ref("seam", "rocker-lower")).seam
    assert _fact(plan, 0, "Governing sheet") == "0.8"  # 0.8 and 1.2
    assert _fact(plan, 1, "Governing sheet") == "1"  # 0.8, 1.0 and 1.2
    assert _fact(plan, 1, "Whole stack") == "3"
    assert _fact(plan, 1, "Thickest to thinnest") == "1.50"


def test_the_drawn_nugget_is_four_times_the_root_of_the_governing_sheet(library: Library) -> None:
    """4 x sqrt(0.8) = 3.578 and 4 x sqrt(1.0) = 4.0 mm, worked out by hand from the rule."""
    plan = library.work(Ref("seam", "rocker-lower")).seam
    widths = [next(m.mark_width for m in part.methods if m.method == "resistance-spot") for part in plan]
    assert widths == pytest.approx([3.578, 4.0], abs=0.001)


def test_spots_are_never_fewer_than_the_factory_put_in(library: Library) -> None:
    looked_at = 0
    for ref in sorted(ref for ref in library.gathered.summaries if ref.kind == "seam"):
        facts = library.catalogue.summaries[ref].facts
        for segment, known in zip(library.work(ref).seam, facts, strict=True):
            factory = known["factory_count"]
            if not isinstance(factory, float):
                continue
            for method in segment.methods:
                for worked in method.worked:
                    for name, value in zip(worked.names, worked.answers, strict=True):
                        if name == "count":
                            looked_at += 1
                            assert int(value.text) >= factory, (ref, method.method)
    assert looked_at >= 20


def test_a_face_that_cannot_be_reached_stops_spots_and_not_plugs(library: Library) -> None:
    plan = library.work(Ref("seam", "rocker-to-hinge-pillar")).seam
    assert [method.method for method in plan[0].methods] == ["mag-plug"]
    assert not [r for part in plan for m in part.methods for r in m.remarks if r.level == "stop"]


def test_every_step_value_has_an_answer_or_says_why(library: Library) -> None:
    values = library.work(Ref("procedure", "renew-rocker-outer")).steps
    assert len(values) >= 4
    for worked in (one for found in values.values() for one in found):
        assert worked.fragment.startswith("in=")
        assert worked.answers
        assert all(bool(value.text) != bool(value.why) for value in worked.answers)
