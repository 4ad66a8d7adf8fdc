"""Whole seam plans of made-up segments against published tables, and against arithmetic done by hand beside each."""

from __future__ import annotations

import math
import re

import pytest

from tests.work.planning import Plan, facts, plan, sheets

SPOT, PLUG, SEAM = "resistance-spot", "mag-plug", "mag-seam"
INCH, POUND_FORCE = 25.4, 4.4482216152605
NARROW = "The flange is narrower than the least overlap of the published schedule for this sheet."
CLOSE = "So many spots stand closer than the schedule's least pitch."


def says(found: Plan, level: str, start: str) -> bool:
    return any(text.startswith(start) for text in found.said(level))


def test_an_american_row_is_the_set_up_of_bare_mild_sheet() -> None:
    """RWMA schedule, 0.040 in, read: 412 lbf, 10 cycles at 60 Hz, 8,800 A, hold 12 cycles, face 1/4 in."""
    found = plan(SPOT, facts(sheets("1.016 mm", "1.016 mm")))
    assert found.number("spot-schedule force") == pytest.approx(412 * POUND_FORCE / 1000, rel=1e-6)
    assert found.number("spot-schedule weld_time") == pytest.approx(10 / 60 * 1000, rel=1e-6)
    assert found.number("spot-schedule current") == pytest.approx(8.8)
    assert found.number("spot-schedule hold_time") == pytest.approx(12 / 60 * 1000, rel=1e-6)
    assert found.number("spot-schedule tip_face") == pytest.approx(INCH / 4)


@pytest.mark.parametrize(("coating", "force", "current", "cycles"), [
    ("hot-dip-zinc", (2.2, 2.9), (9, 11), (9, 12)), ("electro-zinc", (2.2, 2.9), (8, 10), (9, 12)),
])  # fmt: skip
def test_zinc_is_set_up_by_the_middle_of_iso_14373(
    coating: str, force: tuple[float, float], current: tuple[float, float], cycles: tuple[float, float]
) -> None:
    """ISO 14373:2015, table B.2, row over 0.8 to 1.0 mm, read; cycles of 20 ms."""
    found = plan(SPOT, facts(sheets("1.0 mm", "1.0 mm", coating=coating)))
    assert found.number("spot-schedule force") == pytest.approx(sum(force) / 2)
    assert found.number("spot-schedule current") == pytest.approx(sum(current) / 2)
    assert found.number("spot-schedule weld_time") == pytest.approx(sum(cycles) / 2 * 20)
    assert found.number("spot-schedule tip_face") == pytest.approx(5)


@pytest.mark.parametrize(("stack", "governing"), [
    (("0.8 mm", "1.2 mm"), 0.8), (("0.8 mm", "1.2 mm", "1.0 mm"), 1.0), (("1.2 mm", "0.8 mm", "0.8 mm"), 0.8),
])  # fmt: skip
def test_the_governing_sheet_and_its_nuggets(stack: tuple[str, ...], governing: float) -> None:
    """AWS D8.1M:2013, clause 3: the thinner of two, the second thickest of three; four and five times its root."""
    found = plan(SPOT, facts(sheets(*stack)))
    assert found.number("spot-nugget governing") == pytest.approx(governing)
    assert found.number("spot-nugget least_nugget") == pytest.approx(4 * math.sqrt(governing))
    assert found.number("spot-nugget setup_nugget") == pytest.approx(5 * math.sqrt(governing))
    thick = [float(one.split()[0]) for one in stack]
    for at in range(len(stack) - 1):
        least = 4 * math.sqrt(min(thick[at], thick[at + 1]))
        assert found.number(f"spot-nugget interface_{at + 1}") == pytest.approx(least)


@pytest.mark.parametrize(("thickness", "overlap"), [
    ("0.787 mm", 7 / 16), ("1.016 mm", 1 / 2), ("1.27 mm", 9 / 16), ("1.57 mm", 5 / 8), ("1.98 mm", 11 / 16),
])  # fmt: skip
def test_the_least_overlap_of_the_american_schedule(thickness: str, overlap: float) -> None:
    """RWMA schedule, last column, read: 0.031, 0.040, 0.050, 0.062 and 0.078 in."""
    least = overlap * INCH
    for flange, is_narrow in ((least + 0.01, False), (least - 0.01, True)):
        found = plan(SPOT, facts(sheets(thickness, thickness), flange=f"{flange} mm"))
        assert (NARROW in found.said("stop")) == is_narrow


@pytest.mark.parametrize(("stack", "pitch"), [
    (("1.016 mm", "1.016 mm"), 0.75 * INCH), (("1.016 mm", "1.016 mm", "1.016 mm"), 1.3 * 0.75 * INCH),
])  # fmt: skip
def test_spots_closer_than_the_least_pitch_stop_the_work_and_none_is_left_out(
    stack: tuple[str, ...], pitch: float
) -> None:
    """RWMA schedule, 0.040 in: 3/4 in; 30 percent more for three sheets (reprint of the recommended practice)."""
    end = 2 * 5 * math.sqrt(1.016)  # two diameters of the set-up nugget, 10.08 mm
    for spacing, is_close in ((pitch + 0.02, False), (pitch - 0.02, True)):
        found = plan(SPOT, facts(sheets(*stack), length=f"{2 * end + 10 * spacing} mm", count=11))
        assert says(found, "stop", CLOSE) == is_close
        assert found.number("spot-layout count") == 11
        assert found.number("spot-layout spacing") == pytest.approx(spacing)


def test_a_row_of_spots_by_hand() -> None:
    """1060 mm with 28 factory spots in 0.8 on 1.2 mm.

    End: two nuggets of 5 sqrt(0.8) = 4.47 mm are 8.94 mm, so the shop's 10 mm stand. 28 times 1.3 is 36.4, so 37 spots
    in 1040 mm: 28.89 mm. Edge: 4.47 / 2 + 3 = 5.24 mm, less than the middle of 16 - 2 mm. Coupon by 0.8 mm (0.0315 in):
    1 by 4 in; the second weld at 12.7 + 28.89. 2 faces of 1060 by 16 mm are 0.03392 m2, at 20 um and 30 percent solids,
    10 percent lost, 2.513 ml. Half of a 6 mm disc, 14.14 mm2, by 1.06 m is 14.99 ml. 37 times 20 s and 15 min are 27.3
    min; 7 rounds have 6 waits.
    """
    found = plan(SPOT, facts(sheets("0.8 mm", "1.2 mm"), length="1060 mm", count=28))
    row = found.made.row
    assert row is not None
    assert (row.length, row.count, row.first) == (1060, 37, 10)
    assert row.spacing == pytest.approx(1040 / 36)
    assert sorted(row.order) == list(range(1, 38))
    assert found.number("flange-check centre_line") == pytest.approx(7)
    assert found.number("coupon width") == pytest.approx(INCH)
    assert found.number("coupon length") == pytest.approx(4 * INCH)
    assert found.number("coupon second") == pytest.approx(INCH / 2 + 1040 / 36)
    assert found.number("film-area area") == pytest.approx(0.03392)
    assert found.number("coverage millilitres") == pytest.approx(0.03392e6 * 0.02 / 0.3 / 0.9 / 1000, rel=1e-9)
    assert found.number("bead volume") == pytest.approx(math.pi * 9 / 2 * 1.06, rel=1e-9)
    assert found.number("weld-minutes hands_on") == pytest.approx(37 * 20 / 60 + 15)
    assert found.number("weld-minutes waiting") == pytest.approx(6)
    assert found.number("tip-count dressings") == 1  # 39 spots with the coupon's two, a fresh face and one more


def test_a_row_of_plugs_by_hand() -> None:
    """360 mm with 10 factory spots in 0.8, 1.0 and 1.2 mm, reached from one face.

    10 plugs in 340 mm: 37.78 mm. Hole 8 mm in 0.8 mm; stepped 12 and 8 mm. Each takes 50.27 * 0.8 and a cap of 1 mm,
    pi * (3 * 16 + 1) / 6 = 25.66 mm3: 65.87 mm3, by 90 percent and 0.2827 mm2 of wire 258.9 mm. Gas: 10 times 2.5 and
    1.5 s at 0.2 litre a second are 8 litres.
    """
    found = plan(PLUG, facts(sheets("0.8 mm", "1.0 mm", "1.2 mm"), length="360 mm", count=10, sides="one"))
    assert found.made.row is not None
    assert found.made.row.count == 10
    assert found.made.row.spacing == pytest.approx(340 / 9)
    assert found.number("plug-hole hole") == 8
    assert (found.number("plug-hole step_1"), found.number("plug-hole step_2")) == (12, 8)
    each = math.pi * 16 * 0.8 + math.pi * (3 * 16 + 1) / 6
    assert found.number("plug-wire wire_length") == pytest.approx(10 * each / 0.9 / (math.pi * 0.09) / 1000, rel=1e-9)
    assert found.number("gas-used gas") == pytest.approx(8)
    assert not found.said("stop")
    assert says(found, "note", "One face only.")


def test_a_seam_by_hand() -> None:
    """420 mm of 0.8 on 0.7 mm: tacks 30 mm or a little more apart, 400 / 13 = 30.77.

    39.37 A for a millimetre of the thinner, 27.6 A, under the 30 A at which the 0.6 mm wire's range begins. A fillet of
    0.8 mm with a tenth more, 0.352 mm2.
    """
    found = plan(SEAM, facts(sheets("0.8 mm", "0.7 mm"), length="420 mm", count="none", flange="15 mm"))
    assert found.made.row is not None
    assert found.made.row.count == 14
    assert found.made.row.spacing == pytest.approx(400 / 13)
    assert found.number("wire-feed current") == pytest.approx(0.7 / INCH * 1000)
    assert found.number("seam-wire wire_length") == pytest.approx(0.352 * 0.42 / 0.9 / (math.pi * 0.09), rel=1e-9)
    assert not found.said("stop")


def test_verdicts_where_a_limit_is_broken() -> None:
    """ISO 14373's scope, read: two or three sheets of 0.4 to 3.0 mm, ratio at most 3; stack at most four times."""
    assert says(plan(SPOT, facts(sheets("0.8 mm", "0.8 mm"), sides="one")), "stop", "Only one face")
    assert says(plan(SPOT, facts(sheets("0.7 mm", "2.2 mm"))), "stop", "The thickest sheet is more than three")
    assert not says(plan(SPOT, facts(sheets("0.7 mm", "2.1 mm"))), "stop", "The thickest sheet is more than three")
    assert says(plan(SPOT, facts(sheets("0.35 mm", "0.8 mm"))), "stop", "A sheet is outside")
    assert says(plan(SPOT, facts(sheets("0.8 mm", "1.4 mm", "1.2 mm"))), "care", "The stack is more than four") is True
    assert says(plan(SPOT, facts(sheets("1.0 mm", "1.0 mm", "1.0 mm"))), "care", "The stack is more than four") is False
    for method in (SPOT, PLUG, SEAM):
        four = plan(method, facts(sheets("0.8 mm", "0.8 mm", "0.8 mm", "0.8 mm")))
        said = re.sub(r"\[([^]]*)\]\([^)]*\)", r"\1", " ".join(four.said("stop") + four.said("care")))
        for word in ("Stagger the edges", "inner pair", "Cut a window in a layer", "never cut a reinforcement"):
            assert word in said, (method, word)
    assert plan(SPOT, facts(sheets("0.8 mm", "0.8 mm", "0.8 mm", "0.8 mm"))).made.row is None


@pytest.mark.parametrize("strength", ["high-strength", "advanced", "unknown"])
def test_steel_without_a_setting_gets_none(strength: str) -> None:
    found = plan(SPOT, facts((("1.0 mm", strength, "bare"), ("1.0 mm", "mild", "bare"))))
    for output in ("force", "weld_time", "current", "tip_face"):
        value = found.value(f"spot-schedule {output}")
        assert (value.number, value.instead) == (None, "prove by coupon")
    assert says(found, "care" if strength == "high-strength" else "stop", {
        "high-strength": "High-strength sheet", "advanced": "Advanced steel", "unknown": "Nobody knows how strong",
    }[strength])  # fmt: skip


def test_no_plan_passes_a_plug_s_current_off_as_right() -> None:
    found = plan(PLUG, facts(sheets("1.0 mm", "1.0 mm")))
    assert not [key for key in found.numbers() if key[1] in ("wire-feed current", "wire-feed feed")]
    assert found.value("wire-feed advice").text.startswith("Hotter than a seam")


@pytest.mark.parametrize("method", [SPOT, PLUG])
def test_where_nobody_counted_there_is_no_count(method: str) -> None:
    for count, said in ((None, "Nobody counted"), ("none", "The factory had no joint")):
        found = plan(method, facts(sheets("0.8 mm", "0.8 mm"), count=count))
        assert found.made.row is None
        assert says(found, "stop", said)
