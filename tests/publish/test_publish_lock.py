"""One build of a target at a time, and a dead build's lock is no lock."""

import os
import signal
import time
from pathlib import Path

import pytest

from builder.publish import PublishError, disk, open_draft
from tests.publish.child import in_child


@pytest.fixture
def target(tmp_path: Path) -> Path:
    return tmp_path / "site"


def build(target: Path) -> None:
    with open_draft(target, "book") as draft:
        draft.desk.put("index.html", b"page")
        draft.publish(["index.html"])


def test_a_second_build_is_refused_and_told_whose_the_first_is(target: Path) -> None:
    builder = os.getpid()

    def second() -> None:
        with pytest.raises(PublishError, match=rf"another build .* process {builder};") as caught:
            build(target)
        assert "wait" in caught.value.do

    with open_draft(target, "book") as draft:
        draft.desk.put("index.html", b"first")
        assert in_child(second) == 0
        with pytest.raises(PublishError, match=f"process {builder};"):
            build(target)  # in the same process too
        draft.publish(["index.html"])
    assert (target / "index.html").read_bytes() == b"first"
    assert list(target.parent.iterdir()) == [target]


def test_a_build_that_has_not_signed_its_lock_yet_is_called_another(target: Path) -> None:
    with open_draft(target, "book"):
        (target.parent / ".seambook-lock-site").write_bytes(b"")
        with pytest.raises(PublishError, match="another process"):
            build(target)


def test_builds_of_two_targets_side_by_side_do_not_touch_each_other(target: Path) -> None:
    # Names chosen so that one is the tail of the other's temporary names.
    other = target.with_name("1-site")
    with open_draft(other, "book") as draft:
        draft.desk.put("index.html", b"other")
        build(target)
        draft.publish(["index.html"])
    assert (other / "index.html").read_bytes() == b"other"
    assert sorted(target.parent.iterdir()) == [other, target]


def test_the_lock_of_a_killed_build_is_taken_over(target: Path) -> None:
    def killed() -> None:
        with open_draft(target, "book"):
            os.kill(os.getpid(), signal.SIGKILL)

    assert in_child(killed) == -signal.SIGKILL
    assert (target.parent / ".seambook-lock-site").exists()
    build(target)
    assert list(target.parent.iterdir()) == [target]


def test_a_worker_that_outlives_its_killed_build_does_not_keep_the_lock(target: Path) -> None:
    tell, told = os.pipe()
    ask, asked = os.pipe()

    def killed() -> None:
        os.close(asked)
        with open_draft(target, "book") as draft:
            if os.fork() == 0:  # the worker: says who it is, then waits until the test closes its pipe
                os.write(told, str(os.getpid()).encode())
                os.read(ask, 1)
                try:
                    draft.desk.put("late/page.html", b"late")
                except PublishError:
                    os.write(told, b"refused")
                os._exit(0)
            time.sleep(0.02)
            os.kill(os.getpid(), signal.SIGKILL)

    try:
        assert in_child(killed) == -signal.SIGKILL
        worker = int(os.read(tell, 20))
        os.kill(worker, 0)  # it lives
        build(target)
        os.write(asked, b"!")
        assert os.read(tell, 20) == b"refused"  # its draft is gone, and it does not make it anew
    finally:
        for end in (tell, told, ask, asked):
            os.close(end)
    assert list(target.parent.iterdir()) == [target]


def test_a_lock_file_removed_between_opening_and_locking_is_opened_again(
    target: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    opened = []
    open_lock = disk.open_lock

    def removed_once(path: Path) -> int:
        file = open_lock(path)
        opened.append(file)
        if len(opened) == 1:
            path.unlink()
        return file

    monkeypatch.setattr(disk, "open_lock", removed_once)
    with open_draft(target, "book"):
        assert (target.parent / ".seambook-lock-site").read_text() == f"{os.getpid()}\n"
    assert len(opened) == 2


def test_a_forked_worker_that_leaves_the_block_clears_nothing_away(target: Path) -> None:
    builder = os.getpid()
    try:
        with open_draft(target, "book") as draft:
            draft.desk.put("index.html", b"page")
            worker = os.fork()
            if worker == 0:
                raise InterruptedError
            assert os.waitstatus_to_exitcode(os.waitpid(worker, 0)[1]) == 0
            assert (target.parent / ".seambook-lock-site").exists()
            draft.publish(["index.html"])
    except InterruptedError:
        os._exit(0 if os.getpid() != builder else 1)
    assert (target / "index.html").exists()
