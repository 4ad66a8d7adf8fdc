"""The order of welding against graphs of networkx 3.6.1: marks are a path, and what is welded goes out of it."""

from __future__ import annotations

import networkx as nx
import pytest

from tests.outside.asking import Calc

COUNTS = [3, 5, 8, 12, 17, 28, 33, 60]


def rounds(calc: Calc, count: int, skin: str) -> list[list[int]]:
    answer = calc("weld-order", count=str(count), skin=skin)
    found = [[int(mark) for mark in marks.split(",")] for marks in answer.word("order").split(";")]
    assert answer.number("rounds") == len(found)
    return found


@pytest.mark.parametrize("count", COUNTS)
def test_on_a_skin_each_round_welds_the_centre_of_every_stretch_left(calc: Calc, count: int) -> None:
    # Common practice, no published source: ends, middle, halves, quarters. The library finds the centres.
    ends, *others = rounds(calc, count, "yes")
    assert ends == [1, count]
    left = nx.path_graph(range(1, count + 1))
    left.remove_nodes_from(ends)
    for marks in others:
        stretches = [left.subgraph(part) for part in nx.connected_components(left)]
        assert len(marks) == len(stretches)
        for stretch in stretches:
            assert set(nx.center(stretch)) & set(marks), (marks, sorted(stretch))
        left.remove_nodes_from(marks)
    assert len(left) == 0


@pytest.mark.parametrize("skin", ["yes", "no"])
@pytest.mark.parametrize("count", COUNTS)
def test_no_round_holds_neighbours(calc: Calc, count: int, skin: str) -> None:
    seam = nx.path_graph(range(1, count + 1))
    welded: list[int] = []
    for marks in rounds(calc, count, skin):
        assert seam.subgraph(marks).number_of_edges() == 0
        welded += marks
    assert sorted(welded) == sorted(seam)


@pytest.mark.parametrize("count", [8, 12, 17, 28, 33])
def test_heavy_sheet_takes_never_more_rounds_than_a_skin(calc: Calc, count: int) -> None:
    assert len(rounds(calc, count, "no")) <= len(rounds(calc, count, "yes"))
