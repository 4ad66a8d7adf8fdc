"""Work spread over processes: the same results in order, and a fault that names what was in hand."""

from __future__ import annotations

import os
import time
from collections import Counter

import pytest

from builder import crew
from builder.crew import FaultInSeambookError, meanwhile, spread


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


def test_a_process_gives_its_place_to_a_fresh_one(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(crew, "SHIFT", 2)
    made = list(spread(lambda n: (n, os.getpid()), list(range(333)), 2, chunk=10))
    assert [n for n, _ in made] == list(range(333))
    of_each = Counter(pid for _, pid in made)
    assert max(of_each.values()) <= 40, "two processes share the four errands of a shift, whoever takes them"
    assert len(of_each) >= 333 / 40


def test_what_is_done_meanwhile_is_done_by_another(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(os, "cpu_count", lambda: 2)
    with meanwhile(os.getpid) as told:
        other = told()
    assert other != os.getpid()
    assert _is_gone(other)


def test_what_nobody_asks_for_is_given_up(monkeypatch: pytest.MonkeyPatch) -> None:
    begun: list[int] = []
    fork = os.fork

    def noting() -> int:
        begun.append(fork())
        return begun[-1]

    monkeypatch.setattr(os, "cpu_count", lambda: 2)
    monkeypatch.setattr(os, "fork", noting)
    started = time.monotonic()
    with meanwhile(lambda: time.sleep(60)):
        pass
    with pytest.raises(KeyError), meanwhile(lambda: time.sleep(60)):
        raise KeyError
    assert time.monotonic() - started < 30
    assert len(begun) == 2
    assert all(_is_gone(process) for process in begun)


@pytest.mark.parametrize("cores", [1, 2])
def test_where_another_comes_to_nothing_it_is_done_here(monkeypatch: pytest.MonkeyPatch, cores: int) -> None:
    monkeypatch.setattr(os, "cpu_count", lambda: cores)
    own = os.getpid()

    def work() -> int:
        if os.getpid() != own:
            raise ValueError
        return own

    with meanwhile(work) as told:
        assert told() == own


def _is_gone(process: int) -> bool:
    try:
        os.kill(process, 0)
    except ProcessLookupError:
        return True
    return False
