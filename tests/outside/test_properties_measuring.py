"""What must hold of openings, gaps, hinges, distances and warm steel for any input, found by hypothesis."""

import math

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from tests.outside.asking import Answer, Calc
from tests.sweeps import examples

sound = settings(max_examples=examples(100), deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])


def within(low: float, high: float, places: int = 2) -> st.SearchStrategy[float]:
    """Decimal numbers as people type them."""
    scale = 10**places
    return st.integers(math.ceil(low * scale), math.floor(high * scale)).map(lambda whole: whole / scale)


def two(each: st.SearchStrategy[float]) -> st.SearchStrategy[list[float]]:
    """Two of them, the smaller first."""
    return st.lists(each, min_size=2, max_size=2).map(sorted)


def four(each: st.SearchStrategy[float]) -> st.SearchStrategy[list[float]]:
    """Four of them."""
    return st.lists(each, min_size=4, max_size=4)


class TestOpenings:
    @sound
    @given(width=within(300, 2000, 0), height=within(300, 2000, 0), lean=within(-40, 40, 1))
    def test_the_lean_put_in_is_the_lean_found(self, ask: Calc, width: float, height: float, lean: float) -> None:
        first, second = math.hypot(width + lean, height), math.hypot(width - lean, height)
        answer = ask("opening-square", width=f"{width} mm", height=f"{height} mm", diagonal_1=f"{first:.9f} mm",
                     diagonal_2=f"{second:.9f} mm")  # fmt: skip
        assert answer.number("lean", "mm") == pytest.approx(lean, abs=1e-5)
        assert answer.number("difference", "mm") == pytest.approx(abs(first - second), abs=1e-6)
        assert answer.word("advice") != "not-a-rectangle"

    @sound
    @given(bottom=within(300, 2000, 0), narrower=within(20, 200, 0), height=within(300, 2000, 0))
    def test_an_even_trapezoid_never_passes(self, ask: Calc, bottom: float, narrower: float, height: float) -> None:
        diagonal = f"{math.hypot(bottom - narrower / 2, height):.9f} mm"
        answer = ask("opening-square", width=f"{bottom} mm", height=f"{height} mm", diagonal_1=diagonal,
                     diagonal_2=diagonal, width_top=f"{bottom - narrower} mm")  # fmt: skip
        assert answer.number("passes") == 0
        assert answer.word("advice") == "not-a-rectangle"

    @sound
    @given(these=four(within(500, 1500, 0)), others=four(within(500, 1500, 0)), tolerances=two(within(0, 20, 1)))
    def test_sides_may_be_swapped(
        self, ask: Calc, these: list[float], others: list[float], tolerances: list[float]
    ) -> None:
        def compared(one: list[float], other: list[float], tolerance: float) -> Answer:
            told = {f"this_{place}": f"{size} mm" for place, size in enumerate(one, 1)}
            told |= {f"other_{place}": f"{size} mm" for place, size in enumerate(other, 1)}
            return ask("opening-compare", **told, tolerance=f"{tolerance} mm")

        tight, swapped, loose = (
            compared(these, others, tolerances[0]), compared(others, these, tolerances[0]),
            compared(these, others, tolerances[1]),
        )  # fmt: skip
        largest = max(abs(one - other) for one, other in zip(these, others, strict=True))
        assert tight.number("largest", "mm") == pytest.approx(largest, abs=1e-9)
        assert tight.number("passes") == swapped.number("passes") <= loose.number("passes")


class TestGapFlush:
    @sound
    @given(gaps=four(within(1, 9, 1)), flushes=four(within(-4, 4, 1)), target=within(2, 8, 1))
    def test_the_other_way_round_the_turn_is_the_other_way(
        self, ask: Calc, gaps: list[float], flushes: list[float], target: float
    ) -> None:
        def edge(wide: list[float], proud: list[float]) -> Answer:
            told = {f"gap_{place}": f"{gap} mm" for place, gap in enumerate(wide, 1)}
            told |= {f"flush_{place}": f"{flush} mm" for place, flush in enumerate(proud, 1)}
            return ask("gap-flush", **told, target_gap=f"{target} mm", target_flush="0 mm")

        one, other = edge(gaps, flushes), edge(gaps[::-1], flushes[::-1])
        assert one.number("largest", "mm") == pytest.approx(other.number("largest", "mm"), abs=1e-9)
        assert one.number("taper", "mm") == pytest.approx(-other.number("taper", "mm"), abs=1e-9)
        opposite = {"close-fourth": "close-first", "close-first": "close-fourth", "fourth-in": "first-in",
                    "first-in": "fourth-in"}  # fmt: skip
        assert other.word("advice") == opposite.get(one.word("advice"), one.word("advice"))


class TestHingeShift:
    @sound
    @given(spacing=within(200, 800, 0), door=within(600, 1500, 0), lift=within(-10, 10, 1))
    def test_up_and_down_are_alike_and_the_hinge_moves_less_than_the_latch(
        self, ask: Calc, spacing: float, door: float, lift: float
    ) -> None:
        up, down = (
            ask("hinge-shift", hinge_spacing=f"{spacing} mm", door_length=f"{door} mm", lift=f"{way * lift} mm")
            for way in (1, -1)
        )
        assert up.number("shift", "mm") == pytest.approx(-down.number("shift", "mm"), abs=1e-12)
        assert abs(up.number("shift", "mm")) * door == pytest.approx(abs(lift) * spacing, abs=1e-6)
        assert up.word("advice") == down.word("advice") == "check-pins"


class TestPointDistance:
    @sound
    @given(first=st.lists(within(-3000, 3000, 1), min_size=3, max_size=3),
           second=st.lists(within(-3000, 3000, 1), min_size=3, max_size=3))  # fmt: skip
    def test_there_and_back_and_never_shorter_than_in_plan(
        self, ask: Calc, first: list[float], second: list[float]
    ) -> None:
        def apart(one: list[float], other: list[float]) -> Answer:
            told = {f"{axis}_1": f"{place} mm" for axis, place in zip("xyz", one, strict=True)}
            told |= {f"{axis}_2": f"{place} mm" for axis, place in zip("xyz", other, strict=True)}
            return ask("point-distance", **told)

        there, back = apart(first, second), apart(second, first)
        for measure in ("distance", "plan_distance", "height_difference"):
            assert there.number(measure, "mm") == pytest.approx(back.number(measure, "mm"), abs=1e-9)
        assert there.number("distance", "mm") == pytest.approx(math.dist(first, second), abs=1e-6)
        assert there.number("distance", "mm") >= there.number("plan_distance", "mm") - 1e-9


class TestExpansion:
    @sound
    @given(length=within(1, 5000, 1), rise=within(0, 90, 1))
    def test_what_warms_and_cools_comes_back(self, ask: Calc, length: float, rise: float) -> None:
        up, down = (
            ask("expansion", length=f"{length} mm", rise=f"{way * rise} delta_degC", coefficient="0.000012")
            for way in (1, -1)
        )
        assert up.number("change", "mm") == pytest.approx(-down.number("change", "mm"), abs=1e-12)
        assert 0 <= up.number("change", "mm") < length / 900
