"""Work spread over processes: the same results in order, and a fault that names what was in hand."""

from __future__ import annotations

import pytest

from builder.crew import FaultInSeambookError, spread


@pytest.mark.parametrize("processes", [1, 2, 3])
def test_results_come_in_order_whoever_made_them(processes: int) -> None:
    items = list(range(333))
    assert list(spread(lambda n: n * n, items, processes)) == [n * n for n in items]


@pytest.mark.parametrize("processes", [1, 2])
def test_an_exception_becomes_a_fault_that_names_the_item(processes: int) -> None:
    def work(n: int) -> int:
        return 1 // (n - 77)

    with pytest.raises(FaultInSeambookError) as caught:
        list(spread(work, list(range(100)), processes))
    assert caught.value.item == "77"
    assert "ZeroDivisionError" in caught.value.details
