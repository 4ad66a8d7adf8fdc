"""What is noted of the questions that are asked while a result is made."""

from __future__ import annotations

import subprocess
import sys
from array import array

import pytest

from builder.model.ledger import EVERY, Ledger, Remembered, Watched, WatchedSet, mark_of, number_of, numbers_of
from builder.model.reference import Ref

SEAM = Ref("seam", "edge")


@pytest.fixture
def ledger() -> Ledger:
    return Ledger(is_kept=True)


def test_every_question_of_a_mapping_is_noted(ledger: Ledger) -> None:
    held = Watched({"a": 1, "b": 2}, "space", ledger)
    with ledger.page() as facts:
        assert held["a"] == 1
        assert held.get("c") is None
        assert "d" not in held
    assert facts == {("space", "a"), ("space", "c"), ("space", "d")}
    with ledger.page() as facts:
        assert list(held.items()) == [("a", 1), ("b", 2)]
    assert facts == {("space", EVERY), ("space", "a"), ("space", "b")}
    with ledger.page() as facts:
        assert len(held) == 2
    assert facts == {("space", EVERY)}


def test_every_question_of_a_set_is_noted(ledger: Ledger) -> None:
    held = WatchedSet(frozenset({"a"}), "space", ledger)
    with ledger.page() as facts:
        assert "b" not in held
    assert facts == {("space", "b")}
    with ledger.page() as facts:
        assert held | {"c"} == {"a", "c"}
    assert ("space", EVERY) in facts


def test_a_page_inside_another_is_noted_on_both(ledger: Ledger) -> None:
    with ledger.page() as outer:
        ledger.note("space", "before")
        with ledger.page() as inner:
            ledger.note("space", "in")
    assert inner == {("space", "in")}
    assert outer == {("space", "before"), ("space", "in")}


def test_who_finds_what_another_worked_out_hangs_on_the_same(ledger: Ledger) -> None:
    held = Watched({"a": 1}, "space", ledger)
    known: Remembered[str, int] = Remembered(ledger)
    calls = []

    def make() -> int:
        calls.append(1)
        return held["a"] + 1

    for _ in range(2):
        with ledger.page() as facts:
            assert known.get("key", make) == 2
        assert facts == {("space", "a")}
    assert known.get("key", make) == 2  # with no page open
    assert len(calls) == 1


def test_what_is_worked_out_with_no_page_open_keeps_its_facts_for_later(ledger: Ledger) -> None:
    held = Watched({"a": 1}, "space", ledger)
    known: Remembered[str, int] = Remembered(ledger)
    known.get("key", lambda: held["a"])
    with ledger.page() as facts:
        known.get("key", lambda: 0)
    assert facts == {("space", "a")}


def test_where_nothing_is_kept_nothing_is_noted() -> None:
    ledger = Ledger(is_kept=False)
    held = Watched({"a": 1}, "space", ledger)
    with ledger.page() as facts:
        assert held["a"] == 1
    assert facts == set()


def test_numbers_are_the_same_in_every_process() -> None:
    said = "from builder.model.ledger import number_of; from builder.model.reference import Ref; "
    said += "print(number_of(('uses', Ref('seam', 'edge'))))"
    told = {
        subprocess.run((sys.executable, "-c", said), capture_output=True, text=True, check=True,
                       env={"PYTHONHASHSEED": seed}).stdout.strip()
        for seed in ("1", "2")
    }  # fmt: skip
    assert told == {str(number_of(("uses", SEAM)))}


def test_numbers_of_facts_are_sorted_and_differ() -> None:
    facts = {("uses", SEAM), ("head", SEAM), ("uses", Ref("seam", "other")), ("uses", EVERY)}
    assert len(numbers_of(facts)) == 8 * len({number_of(one) for one in facts}) == 32
    numbers = [int.from_bytes(numbers_of({one}), "little") for one in facts]
    assert array("Q", numbers_of(facts)) == array("Q", sorted(numbers))


def test_marks_tell_values_apart() -> None:
    assert mark_of(("a", "b")) != mark_of(("ab",))
    assert mark_of(1) != mark_of("1")
    assert mark_of(b"x") == mark_of(b"x")
