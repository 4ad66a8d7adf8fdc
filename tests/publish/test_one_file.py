"""One file put in place, stopped or refused at each of its disk calls: the old or the new one stands there, whole."""

import errno
import os
import signal
from pathlib import Path

import pytest

from builder.publish import Beside, PublishError
from tests.publish.child import in_child
from tests.publish.stopping import MODES, Bench, failing, killing

OLD, NEW = b"the copy of last year\n" * 400, b"the copy of this year, and longer\n" * 900


@pytest.fixture
def bench(tmp_path: Path) -> Bench:
    return Bench(tmp_path / "site", MODES[0])


@pytest.fixture(params=[None, OLD], ids=["none before", "one before"])
def before(request: pytest.FixtureRequest) -> bytes | None:
    found: bytes | None = request.param
    return found


def laid(folder: Path, before: bytes | None) -> Path:
    folder.mkdir()
    target = folder / "book.html"
    if before is not None:
        target.write_bytes(before)
    return target


def check_next(target: Path) -> None:
    """The next build puts the new file there and takes away what was left."""
    Beside(target, NEW).place()
    assert target.read_bytes() == NEW
    assert list(target.parent.iterdir()) == [target]


@pytest.mark.parametrize("moment", ["before", "after", "within"])
def test_killed_at_any_disk_call_it_is_old_or_new(
    bench: Bench, tmp_path: Path, before: bytes | None, moment: str
) -> None:
    bench.lay_out()
    killed = 0
    for number in range(1, 100):
        target = laid(tmp_path / str(number), before)
        code = in_child(lambda: bench.write_watched(target, NEW, killing(number, moment)))  # noqa: B023 - run at once
        if code == 0:
            break
        killed += 1
        assert code == -signal.SIGKILL
        assert (target.read_bytes() if target.exists() else None) in (before, NEW)
        check_next(target)
    assert killed >= (1 if moment == "within" else 4)


@pytest.mark.parametrize("code", [errno.ENOSPC, errno.EACCES], ids=errno.errorcode.get)
def test_refused_at_any_disk_call_the_old_one_stays_and_nothing_is_left(
    bench: Bench, tmp_path: Path, before: bytes | None, code: int
) -> None:
    bench.lay_out()
    refused = 0
    for number in range(1, 100):
        target = laid(tmp_path / str(number), before)
        said = ""
        try:
            bench.write_watched(target, NEW, failing(number, code))
        except PublishError as error:
            said = error.message
        if target.exists() and target.read_bytes() == NEW:
            break
        refused += 1
        assert os.strerror(code) in said
        assert (target.read_bytes() if target.exists() else None) == before
        check_next(target)
    assert list(target.parent.iterdir()) == [target]
    assert refused >= 4


def test_what_a_running_build_writes_is_not_taken_away(tmp_path: Path) -> None:
    target = tmp_path / "book.html"
    others = tmp_path / f".seambook-new-{os.getppid()}-book.html"
    others.write_bytes(b"half")
    Beside(target, NEW).place()
    assert (target.read_bytes(), others.read_bytes()) == (NEW, b"half")
