"""Tips and dressings, counted out one spot at a time apart from the book; nothing is published for a portable gun."""

import pytest

from tests.outside.asking import Calc


def counted(welds: int, each: int, bears: int) -> tuple[int, int]:
    """Weld spot by spot: dress when the face has had its share, change when the tip has had its dressings."""
    pairs = dressings = on_face = dressed = 0
    for _ in range(welds):
        if pairs == 0:
            pairs, on_face, dressed = 1, 0, 0
        elif on_face == each and dressed < bears:
            dressings, on_face, dressed = dressings + 1, 0, dressed + 1
        elif on_face == each:
            pairs, on_face, dressed = pairs + 1, 0, 0
        on_face += 1
    return dressings, pairs


@pytest.mark.parametrize(
    ("welds", "each", "bears"),
    [(0, 30, 10), (1, 30, 10), (30, 30, 10), (31, 30, 10), (120, 30, 10), (330, 30, 10), (331, 30, 10), (121, 30, 1),
     (1000, 7, 3), (50, 1, 0), (999, 50, 0)],
)  # fmt: skip
def test_as_counted_out(calc: Calc, welds: int, each: int, bears: int) -> None:
    answer = calc("tip-count", welds=str(welds), welds_per_dressing=str(each), dressings_per_tip=str(bears))
    dressings, pairs = counted(welds, each, bears)
    assert answer.number("dressings") == dressings
    assert answer.number("tips") == pairs
