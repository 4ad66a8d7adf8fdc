"""Noise doses against the NIOSH recommended limit: 85 dBA for 8 h, half the time for every 3 dB.

Times were read on a stored copy of the institute's sound-meter page and are exact; the rest was worked out apart.
"""

import pytest

from tests.outside.asking import Calc


@pytest.mark.parametrize(
    ("level", "time"), [(85, "8 h"), (88, "4 h"), (91, "2 h"), (94, "60 min"), (97, "30 min"), (100, "15 min")]
)
def test_allowed_times(calc: Calc, level: int, time: str) -> None:
    answer = calc("noise-dose", level_1=f"{level} dB", time_1=time)
    assert answer.number("niosh_dose", "percent") == pytest.approx(100, abs=1e-9)
    assert answer.number("niosh_level", "dB") == pytest.approx(85, abs=1e-9)
    assert answer.number("niosh_time_1", "h") == pytest.approx(8 / 2 ** ((level - 85) / 3), rel=1e-12)


def test_the_two_yardsticks_differ(calc: Calc) -> None:
    # 94 dBA for an hour: a whole day for NIOSH, 21.8 percent for OSHA
    answer = calc("noise-dose", level_1="94 dB", time_1="1.01 h")
    assert answer.number("osha_dose", "percent") == pytest.approx(1.01 * 21.8, abs=0.06)
    assert answer.word("advice") == "over-niosh"
    assert answer.warned("stop") == []


def test_worked_day(calc: Calc) -> None:
    answer = calc(
        "noise-dose", level_1="90 dB", time_1="4 h", level_2="95 dB", time_2="2 h", level_3="100 dB", time_3="0.5 h"
    )
    assert answer.number("niosh_dose", "percent") == pytest.approx(610.7, abs=0.051)
    assert answer.number("niosh_level", "dB") == pytest.approx(92.86, abs=0.0051)


def test_the_ceiling_of_115(calc: Calc) -> None:
    # nonoise.org, criteria footnotes, read
    assert any("NIOSH" in said for said in calc("noise-dose", level_1="116 dB", time_1="1 s").warned("stop"))
