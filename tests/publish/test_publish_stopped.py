"""A build stopped at each of its disk calls in turn leaves one whole book, and the next build puts all right.

The oracle is plain: the published folder read back file by file is the old version or the new one, as written
down here. Only where two renames stand in for the exchange may it be away, whole, under its `old` name.
"""

import errno
import os
import signal
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest

from builder.publish import PublishError
from tests.publish.child import in_child
from tests.publish.stopping import MODES, NEW, Bench, Mode, changes, content, failing, killing
from tests.sweeps import first_of, is_soak, share

EXCHANGE, RENAMES, LAYERED, SPARE = (
    next(m for m in MODES if m.name == n) for n in ("exchange", "renames", "lower layer", "spare")
)
FEWER = 4
"""In `make test` every so many-th call is refused or interrupted."""
main_modes = pytest.mark.parametrize("mode", [EXCHANGE, RENAMES, LAYERED, SPARE], ids=lambda mode: mode.name)
every_mode = pytest.mark.parametrize("mode", MODES, ids=lambda mode: mode.name)


@pytest.fixture
def bench(tmp_path: Path, mode: Mode) -> Bench:
    return Bench(tmp_path, mode)


def numbers(name: str, every: int) -> Iterator[int]:
    """Calls to stop at: in a soak all, else every so many-th, by what is done from another one on."""
    yield from share(range(1, 1000), every, first_of(name, every, every))


def stops(bench: Bench, moment: str, every: int = 1) -> Iterator[int]:
    """Kill one build after another, each some disk calls later, in a soak one, until one runs to its end."""
    for number in numbers(f"{bench.mode.name} {moment}", every):
        bench.lay_out()
        code = in_child(lambda: bench.build_watched(killing(number, moment)))  # noqa: B023 - run at once
        if code == 0:
            bench.check_new()
            return
        assert code == -signal.SIGKILL
        yield number
    pytest.fail("the build never ended")


@pytest.mark.slow
@every_mode
def test_killed_before_any_disk_call_the_book_is_whole_and_the_next_build_recovers(bench: Bench, mode: Mode) -> None:
    check_stops(bench, mode, "before")


@pytest.mark.slow
@main_modes
def test_killed_after_any_disk_call_the_book_is_whole_and_the_next_build_recovers(bench: Bench, mode: Mode) -> None:
    check_stops(bench, mode, "after")


def check_stops(bench: Bench, mode: Mode, moment: str) -> None:
    gaps = []
    for number in stops(bench, moment, 12):
        if bench.is_away():
            gaps.append(number)
        bench.check_recovery()
    if mode.is_layered:
        assert gaps or not is_soak()
    else:  # between the two renames lies one stop, so the gap is seen once on that path and never on another
        assert len(gaps) == (0 if mode.has_exchange else 1) or (not is_soak() and not mode.has_exchange and not gaps)


@every_mode
def test_killed_with_half_a_file_written(bench: Bench, mode: Mode) -> None:
    for _ in stops(bench, "within", 2):
        assert not bench.is_away()
        bench.check_recovery()


@pytest.mark.sweep(2)
@pytest.mark.slow
@pytest.mark.parametrize("mode", [RENAMES, LAYERED], ids=lambda mode: mode.name)
def test_killed_in_the_gap_and_killed_again_while_recovering(bench: Bench, mode: Mode) -> None:
    gap = next(number for number in stops(bench, "before") if bench.is_away())
    is_away, rubbish = True, [bench.target]
    number = 0
    while is_away or rubbish:  # until the recovery is over and the rest is a build like any other
        number += 1 if is_soak() else FEWER
        bench.lay_out()
        assert in_child(lambda: bench.build_watched(killing(gap, "before"))) == -signal.SIGKILL
        code = in_child(lambda: bench.build_watched(killing(number, "before")))  # noqa: B023
        if code == 0 and not is_soak():  # the last strides are longer than what is left of the build
            bench.check_new()
            break
        assert code == -signal.SIGKILL
        is_away = bench.is_away()
        rubbish = list(bench.target.parent.glob(".seambook-*-*-site"))
        bench.check_recovery()
    assert number > len(NEW)


@every_mode
def test_with_the_disk_full_at_any_call_the_book_is_whole(bench: Bench, mode: Mode) -> None:
    check_refusals(bench, mode, errno.ENOSPC)


@main_modes
def test_forbidden_any_disk_call_the_book_is_whole(bench: Bench, mode: Mode) -> None:
    check_refusals(bench, mode, errno.EACCES)


def check_refusals(bench: Bench, mode: Mode, code: int) -> None:
    refused = 0
    said = set()
    for number in numbers(f"{mode.name} {code}", FEWER):
        bench.lay_out()
        calls: list[str] = []

        def react(count: int, name: str, call: Callable[..., Any], args: tuple[Any, ...]) -> Any:
            calls.append(name)  # noqa: B023
            return failing(number, code)(count, name, call, args)  # noqa: B023

        try:
            bench.build_watched(react)
        except PublishError as error:
            refused += 1
            said.add(error.message.rpartition(": ")[2])
            assert content(bench.target) == mode.before
        else:
            assert content(bench.target) == mode.after
        bench.check_recovery()
        if len(calls) < number:
            break
    assert said == {os.strerror(code)}
    assert refused > len(NEW) / (1 if is_soak() else FEWER)


@main_modes
def test_interrupted_from_the_keyboard_at_any_disk_call(bench: Bench, mode: Mode) -> None:
    for number in numbers(f"{mode.name} interrupted", FEWER):
        bench.lay_out()
        ended = False

        def react(count: int, name: str, call: Callable[..., Any], args: tuple[Any, ...]) -> Any:
            try:
                return call(*args)
            finally:
                if count == number:  # noqa: B023
                    raise KeyboardInterrupt

        try:
            bench.build_watched(react)
            ended = True
        except KeyboardInterrupt:
            assert not bench.is_away()
        bench.check_recovery()
        if ended:
            break


def test_the_stops_reach_every_function_of_the_disk_module(tmp_path: Path) -> None:
    called: set[str] = set()

    def react(count: int, name: str, call: Callable[..., Any], args: tuple[Any, ...]) -> Any:
        called.add(name)
        return call(*args)

    for index, mode in enumerate(MODES):
        bench = Bench(tmp_path / str(index), mode)
        bench.lay_out()
        if mode.start == "old":
            (bench.target / ".link").symlink_to("same.html")
        bench.build_watched(react)
        bench.write_watched(tmp_path / f"{index}.html", b"whole", react)
    assert called == set(changes())
