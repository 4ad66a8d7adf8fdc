"""What the next build takes of the last one, and that it is never taken in by what lies where results are kept."""

from __future__ import annotations

import os
import pickle
import shutil
import time
from collections.abc import Iterator
from hashlib import sha256
from pathlib import Path

import pytest

from builder import keeper
from builder.keeping import EMPTY, file, packed, read_kept, unpacked
from builder.warm import Warm
from tests.books.laying import TINY, edit
from tests.keeping.book import LONG_AGO, PROCEDURE, Book, changed
from tests.keeping.walk import walk
from tests.sweeps import is_soak


@pytest.fixture(scope="module")
def shared(tmp_path_factory: pytest.TempPathFactory) -> Book:
    made = Book(tmp_path_factory.mktemp("book"))
    assert changed(made.build()) > 50
    return made


@pytest.fixture
def book(shared: Book) -> Book:
    """The one book of all these tests, put back as it was, built with what the test before left beside it."""
    shared.restore()
    if shared.kept.is_dir():
        shared.kept.rmdir()
    assert shared.build().published is not None
    return shared


def test_nothing_changed_writes_nothing(book: Book) -> None:
    assert changed(book.build()) == 0
    book.require_as_anew()


def test_a_changed_text_makes_its_own_pages_again(book: Book) -> None:
    edit(book.content, PROCEDURE, ("do: Lay the film on every bare face", "do: Lay one film on every bare face"))
    before = {path: path.stat().st_mtime_ns for path in book.site.rglob("*.html")}
    book.build()
    written = {path.relative_to(book.site).as_posix() for path, at in before.items() if path.stat().st_mtime_ns != at}
    # The writing guide shows the procedure as its author wrote it; the page about the book tells its fingerprint.
    assert written <= {"procedures/weld-cover.html", "about.html", "writing/procedure.html", "print.html"}
    assert "procedures/weld-cover.html" in written
    book.require_as_anew()


def test_a_comment_alone_changes_no_page_but_what_tells_of_the_files(book: Book) -> None:
    path = book.content / "seams" / "cover-edge.yaml"
    path.write_text(f"{path.read_text('utf-8')}# a comment\n", "utf-8")
    book.build()
    book.require_as_anew()


def spoiled(data: bytes) -> Iterator[bytes]:
    """What a crash, a bad disk or a hand may leave of a file."""
    yield b""
    yield from (data[:-1], data[:len(data) // 2], data[16:], data + b"x", b"\0" * len(data))
    yield data.replace(b"weld-cover", b"weld-cOver")
    part = (1).to_bytes(8, "big") + sha256(b"(").digest() + b"("
    yield b"seambook kept 4\n" + b"\0" * 40 + b"("
    yield b"seambook kept 4\n" + part + part
    yield pickle.dumps(print)


def test_what_is_kept_may_be_spoiled(book: Book) -> None:
    for data in spoiled(book.kept.read_bytes()):
        book.kept.write_bytes(data)
        assert read_kept(book.kept) == EMPTY
    book.touch()
    assert changed(book.build()) == 0
    assert read_kept(book.kept) != EMPTY
    book.require_as_anew()


def test_a_result_may_be_spoiled_wherever_it_lies(book: Book) -> None:
    for share in (0.02, 0.2, 0.4):  # results lie in front of what tells of them
        whole = book.kept.read_bytes()
        at = int(len(whole) * share)
        book.kept.write_bytes(whole[:at] + bytes(byte ^ 255 for byte in whole[at:at + 4_000]) + whole[at + 4_000:])
        assert read_kept(book.kept) != EMPTY, share
        said = ("do: Lay the film on every bare face", f"do: Lay {share} film on every bare face")
        edit(book.content, PROCEDURE, said)
        assert changed(book.build()) > 0
        book.require_as_anew()
        edit(book.content, PROCEDURE, said[::-1])


def test_what_is_kept_grows_by_what_changed_and_is_written_anew_when_that_is_much(
    book: Book, monkeypatch: pytest.MonkeyPatch
) -> None:
    book.kept.unlink(missing_ok=True)
    book.build()
    sizes, written_anew = [book.kept.stat().st_size], 0
    monkeypatch.setattr(file, "MOST_SEGMENTS", 5)
    for at in range(9):
        before = book.kept.read_bytes()
        edit(book.content, PROCEDURE, ("on every bare face", f"{at} on every bare face"))
        assert changed(book.build()) > 0
        is_anew = not book.kept.read_bytes().startswith(before)
        written_anew += is_anew
        sizes.append(book.kept.stat().st_size)
        assert is_anew or sizes[-1] - sizes[-2] < sizes[0]
        assert len(read_kept(book.kept).units) > 80
    assert written_anew == 1
    assert sizes[5] < sizes[4]
    book.require_as_anew()


def test_a_folder_where_results_are_kept_is_left_alone(book: Book) -> None:
    book.kept.unlink(missing_ok=True)
    book.kept.mkdir()
    assert changed(book.build()) == 0
    assert book.kept.is_dir()


class _Bomb:
    def __reduce__(self) -> tuple[object, tuple[str]]:
        return os.system, ("touch bomb",)


def test_what_is_kept_runs_no_program_of_others(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    for bomb in (pickle.dumps(_Bomb()), b"cbuilder.publish.disk\nrmdir\n(S'x'\ntR.", b"cbuiltins\neval\n(S'1'\ntR.",
                 b"cbuilder.drawing\npartial\n(S'1'\ntR.", b"cbuilder.model.files\nPath\n(S'1'\ntR."):
        with pytest.raises(pickle.UnpicklingError):
            unpacked(bomb)
    assert not (tmp_path / "bomb").exists()
    assert unpacked(packed(("a", frozenset({1})))) == ("a", frozenset({1}))


def test_a_build_that_fails_keeps_what_was_kept(book: Book) -> None:
    kept = book.kept.read_bytes()
    edit(book.content, PROCEDURE, ("act: weld", "act: weeld"))
    assert book.build().published is None
    assert book.kept.read_bytes() == kept
    edit(book.content, PROCEDURE, ("act: weeld", "act: weld"))
    assert changed(book.build()) == 0
    book.require_as_anew()


@pytest.mark.parametrize("meddle", ["other bytes", "gone", "as long, as old"])
def test_a_published_file_that_somebody_changed_is_made_again(book: Book, meddle: str) -> None:
    page = book.site / "seams" / "cover-edge.html"
    if meddle == "gone":
        page.unlink()
    elif meddle == "other bytes":
        page.write_text("something else", "utf-8")
    else:
        at = page.stat()
        page.unlink()
        page.write_bytes(b"x" * at.st_size)
        os.utime(page, ns=(at.st_atime_ns, at.st_mtime_ns))
    book.build()
    book.require_as_anew()


@pytest.mark.parametrize("moment", ["reading", "drawing"])
def test_a_published_file_that_somebody_writes_into_while_a_book_is_made_is_made_again(book: Book, moment: str) -> None:
    page = book.site / "seams" / "cover-edge.html"
    book.touch()

    def meddle(what: str, done: int, _of: int) -> None:
        if (what, done) == (moment, 1):
            page.write_text("something else", "utf-8")

    book.build(progress=meddle)
    book.touch()
    book.build()
    book.require_as_anew()


def test_a_whole_published_folder_may_be_gone(book: Book) -> None:
    shutil.rmtree(book.site)
    assert changed(book.build()) > 50
    book.require_as_anew()


def test_all_of_it_is_made_anew_where_that_is_asked(book: Book) -> None:
    kept = read_kept(book.kept)
    book.build(anew=True)
    assert {name: unit.facts for name, unit in read_kept(book.kept).units.items()} == {
        name: unit.facts for name, unit in kept.units.items()
    }
    book.require_as_anew()


def test_another_order_takes_nothing_that_differs(book: Book) -> None:
    book.build(name="Another shop")
    assert "Another shop" in (book.site / "index.html").read_text("utf-8")
    book.build()
    book.require_as_anew()


def test_one_and_many_processes_keep_the_same(book: Book) -> None:
    one = read_kept(book.kept)
    book.build(anew=True, processes=2)
    many = read_kept(book.kept)
    assert {name: unit.facts for name, unit in one.units.items()} == {
        name: unit.facts for name, unit in many.units.items()
    }
    assert one.facts == many.facts


def test_a_file_written_while_it_was_read_is_read_again(book: Book) -> None:
    """Two texts of one length may stand in it within one tick of the disk's clock."""
    path = book.content / PROCEDURE
    path.write_text(path.read_text("utf-8").replace("every bare face", "every bore face"), "utf-8")
    at = path.stat()
    book.build()
    path.write_text(path.read_text("utf-8").replace("every bore face", "every bare face"), "utf-8")
    os.utime(path, ns=(at.st_atime_ns, at.st_mtime_ns))
    book.build()
    assert "every bare face" in (book.site / "procedures" / "weld-cover.html").read_text("utf-8")
    book.require_as_anew()


@pytest.mark.sweep(2)
@pytest.mark.parametrize("when", [0, LONG_AGO - 86_400, LONG_AGO, 4_000_000_000])
def test_a_clock_that_goes_backwards_or_far_ahead_hides_no_change(book: Book, when: int) -> None:
    """An older copy put back keeps its time, and a computer without a battery begins in 1970."""
    path = book.content / PROCEDURE
    path.write_text(path.read_text("utf-8").replace("every bare face", "every bore face"), "utf-8")
    os.utime(path, (when, when))
    book.build()
    assert "every bore face" in (book.site / "procedures" / "weld-cover.html").read_text("utf-8")
    for made in book.site.rglob("*"):
        os.utime(made, (when, when))
    assert book.build().published is not None
    book.require_as_anew()


def test_a_build_whose_clock_stands_behind_the_last_one_takes_no_stale_result(
    book: Book, monkeypatch: pytest.MonkeyPatch
) -> None:
    real = time.time_ns
    monkeypatch.setattr(time, "time", lambda: real() / 1e9 - 9e8)
    monkeypatch.setattr(time, "time_ns", lambda: real() - 900_000_000_000_000_000)
    edit(book.content, PROCEDURE, ("do: Lay the film on every bare face", "do: Lay one film on every bare face"))
    assert changed(book.build()) > 0
    book.require_as_anew()
    edit(book.content, PROCEDURE, ("do: Lay one film on every bare face", "do: Lay two films on every bare face"))
    monkeypatch.undo()
    assert changed(book.build()) > 0
    book.require_as_anew()


@pytest.mark.slow
@pytest.mark.parametrize("seed", [11])
def test_after_any_edit_all_is_as_if_it_were_made_anew(tmp_path: Path, seed: int) -> None:
    walked = walk(TINY, tmp_path, 2, seed)
    assert walked.published + walked.refused == 2
    assert walked.published > 1


@pytest.mark.slow
def test_a_process_that_stays_takes_nothing_that_differs(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """As `show` does; files are trusted at once, so that what it remembers of them is taken."""
    monkeypatch.setattr(keeper, "LEAST_AGE", 0)
    warm = Warm()
    walked = walk(TINY, tmp_path, 100 if is_soak() else 2, 12, warm=warm)
    assert walked.published > 1
    assert warm.unpacked
    assert {"kept", "renderer"} <= warm.marked.keys()
