"""Each warning and decision on both sides of where it begins; the limit's source stands beside it."""

import pytest

from tests.outside.asking import Calc, warns

Case = tuple[str, dict[str, str], str, str, bool]

SPOTS = {"length": "500 mm", "pitch": "40 mm", "end_distance": "10 mm", "factory_count": "8"}
PAINT = {"area": "2 m**2", "dry_film": "60 um", "solids": "55 percent"}
BEAD = {"profile": "round", "size": "5 mm", "pack": "310 ml"}
RAM = {"area": "6.44 cm**2", "pressure": "100 bar"}
AIR = {"air": "20 degC", "surface": "30 degC"}


def bend(radius: str, thickness: str, angle: str = "90 degree") -> dict[str, str]:
    return {"angle": angle, "radius": radius, "thickness": thickness, "k": "0.4"}


CASES: list[Case] = [
    # 85 percent: a trade article beside ISO 8502-4 and 12944-7, seen second hand
    ("dew-point", AIR | {"humidity": "85 percent"}, "care", "85 percent", False),
    ("dew-point", AIR | {"humidity": "85.1 percent"}, "care", "85 percent", True),
    # the larger of half the thickness and 0.8 mm: metal-stamping-die.com, read
    ("bend", bend("0.79 mm", "1 mm"), "care", "Tighter", True),
    ("bend", bend("0.8 mm", "1 mm"), "care", "Tighter", False),
    ("bend", bend("0.99 mm", "2 mm"), "care", "Tighter", True),
    ("bend", bend("1 mm", "2 mm"), "care", "Tighter", False),
    ("bend", bend("1 mm", "1 mm", "179.9 degree"), "care", "no setback", False),
    ("bend", bend("1 mm", "1 mm", "180 degree"), "care", "no setback", True),
    # automotive spraying rarely puts on more than half: pprc.org 2012, read
    ("coverage", PAINT | {"loss": "49.9 percent"}, "note", "half lost", True),
    ("coverage", PAINT | {"loss": "50 percent"}, "note", "half lost", False),
    # 1910.95(c), read in copies: half a dose, 85 dBA for eight hours
    ("noise-dose", {"level_1": "84.95 dB", "time_1": "8 h"}, "care", "action level", False),
    ("noise-dose", {"level_1": "85 dB", "time_1": "8 h"}, "care", "action level", True),
    ("noise-dose", {"level_1": "90.1 dB", "time_1": "8 h"}, "stop", "daily dose", True),
    ("noise-dose", {"level_1": "90 dB", "time_1": "8 h"}, "stop", "daily dose", False),
    ("noise-dose", {"level_1": "70 dB", "time_1": "24 h"}, "stop", "more than a day", False),
    (
        "noise-dose",
        {"level_1": "70 dB", "time_1": "24 h", "level_2": "70 dB", "time_2": "1 h"},
        "stop",
        "more than a day",
        True,
    ),
    # shop caution: no published figure for more than one extension
    ("ram-force", RAM | {"extensions": "1"}, "care", "More than one", False),
    ("ram-force", RAM | {"extensions": "2"}, "care", "More than one", True),
    ("ram-force", RAM, "care", "Read the plate", True),
    ("ram-force", RAM | {"rated_force": "35.6 kN"}, "care", "Read the plate", False),
    ("ram-force", RAM, "care", "out of line", True),
    ("ram-force", RAM | {"pressure": "0 bar"}, "care", "out of line", False),
    # a gauge number is never a measurement: the chart's own tolerance; the series' own limits
    ("sheet-gauge", {"gauge": "20", "series": "swg"}, "note", "Measure bare", True),
    ("sheet-gauge", {"gauge": "20", "series": "galvanized"}, "note", "over the zinc", True),
    ("sheet-gauge", {"gauge": "20", "series": "manufacturers"}, "note", "over the zinc", False),
    ("sheet-gauge", {"gauge": "20", "series": "us-statute"}, "note", "duties", True),
    ("sheet-gauge", {"gauge": "20", "series": "manufacturers"}, "note", "duties", False),
    # waste of 5 to 15 percent: two pages, read; batches are common practice
    ("bead", BEAD | {"length": "1 m"}, "note", "for waste", True),
    ("bead", BEAD | {"length": "1 m", "waste": "5 percent"}, "note", "for waste", False),
    ("bead", BEAD | {"length": "15.7 m"}, "note", "one batch", False),
    ("bead", BEAD | {"length": "15.7 m", "waste": "1 percent"}, "note", "one batch", True),
    # a repair manual of New Zealand's transport agency, read: not on the old nuggets
    ("spot-layout", SPOTS, "care", "old nuggets", True),
    ("spot-layout", SPOTS | {"factory_count": "0"}, "care", "old nuggets", False),
    ("spot-layout", SPOTS, "note", "shunting", True),
    ("spot-layout", SPOTS | {"least_pitch": "20 mm"}, "note", "shunting", False),
    ("spot-layout", SPOTS | {"least_pitch": "40 mm"}, "care", "Cut back", False),
    ("spot-layout", SPOTS | {"least_pitch": "41 mm"}, "care", "Cut back", True),
    ("spot-layout", SPOTS | {"least_pitch": "60 mm"}, "care", "Cut back", False),  # it stops instead
    ("spot-layout", SPOTS | {"least_pitch": "60 mm"}, "stop", "fewer spots", True),
    ("spot-layout", SPOTS, "note", "comes out wider", False),
    ("spot-layout", SPOTS | {"length": "501 mm"}, "note", "comes out wider", True),
    ("spot-layout", SPOTS | {"length": "20 mm"}, "stop", "no length", True),
]


def test_warnings(calc: Calc) -> None:
    assert [case for case in CASES if warns(calc, *case[:-1]) is not case[-1]] == []


@pytest.mark.parametrize(
    ("changed", "governs"),
    [({}, "pitch"), ({"factory_count": "10"}, "pitch"), ({"factory_count": "11"}, "factory-count"),
     ({"least_pitch": "41 mm"}, "least-pitch")],
)  # fmt: skip
def test_what_sets_the_count(calc: Calc, changed: dict[str, str], governs: str) -> None:
    # 480 mm at 40 mm are 13 spots; 10 times 1.3 is 13, and 11 times 1.3 is 14.3
    assert calc("spot-layout", **(SPOTS | changed)).word("governs") == governs


@pytest.mark.parametrize(
    ("level", "advice"),
    [("81 dB", "within-both"), ("85 dB", "hearing-programme"), ("85.1 dB", "over-niosh"), ("90.1 dB", "over-osha")],
)
def test_what_to_do_about_noise(calc: Calc, level: str, advice: str) -> None:
    assert calc("noise-dose", level_1=level, time_1="8 h").word("advice") == advice


def test_waste_is_added(calc: Calc) -> None:
    answer = calc("bead", **BEAD, length="4.2 m", waste="10 percent")
    assert answer.number("needed", "ml") == pytest.approx(1.1 * answer.number("volume", "ml"), rel=1e-12)


def test_frost_is_told_where_the_margin_holds(calc: Calc) -> None:
    answer = calc("dew-point", air="5 degC", humidity="30 percent", surface="5 degC")
    assert answer.word("advice") == "frost-first"
