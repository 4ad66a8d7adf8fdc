"""The clock of hot work against the watches that rules ask for: half an hour read, an hour seen second hand.

The times themselves were worked out apart, by the clock; minutes are rounded down, to the earlier side.
"""

import pytest

from tests.outside.asking import Calc


@pytest.mark.parametrize(
    ("closing", "watch", "tidy", "hour", "minute"),
    [
        ("17.5 h", "30 min", "0 min", 17, 0),  # 29 CFR 1910.252(a)(2)(iii)(B), read in a state rule of the same words
        ("17.5 h", "60 min", "0 min", 16, 30),  # NFPA 51B, current edition, second hand
        ("17.5 h", "60 min", "15 min", 16, 15),
        ("18 h", "1 h", "20 min", 16, 40),
        ("25 h", "1 h", "0.25 h", 23, 45),  # one in the morning
        ("24.5 h", "30 min", "7 min", 23, 53),
    ],
)
def test_by_the_clock(calc: Calc, closing: str, watch: str, tidy: str, hour: int, minute: int) -> None:
    answer = calc("hot-work-clock", closing=closing, watch=watch, tidy=tidy)
    assert answer.number("stop_hour") == hour
    assert answer.number("stop_minute") == minute
    assert answer.number("latest_stop", "min") == pytest.approx(hour * 60 + minute, abs=1e-9)


def test_minutes_go_down(calc: Calc) -> None:
    answer = calc("hot-work-clock", closing="17.5 h", watch="60.5 min", tidy="0 min")
    assert (answer.number("stop_hour"), answer.number("stop_minute")) == (16, 29)


def test_no_time_left(calc: Calc) -> None:
    answer = calc("hot-work-clock", closing="0.5 h", watch="1 h", tidy="0 h")
    assert answer.why_not("latest_stop") is not None
    assert answer.why_not("stop_hour") is not None
    assert any("No hot work today" in said for said in answer.warned("stop"))
