"""Targets, files and disks that refuse, or are refused: the published book stays as it was."""

import errno
import os
import tempfile
from collections.abc import Iterator
from pathlib import Path

import pytest

from builder.publish import PublishError, disk, open_draft
from tests.publish.book import FIRST, SECOND, beside, build, pages_of
from tests.publish.child import in_child


@pytest.fixture
def target(tmp_path: Path) -> Path:
    return tmp_path / "site"


class TestRefusals:
    def refused(self, target: Path, match: str, book_id: str = "book") -> None:
        before = sorted(target.parent.rglob("*"))
        with pytest.raises(PublishError, match=match) as caught:
            build(target, FIRST, book_id)
        assert caught.value.do
        assert sorted(target.parent.rglob("*")) == before

    def test_a_folder_of_someone_else(self, target: Path) -> None:
        target.mkdir()
        for name in ("thesis.txt", ".hidden", "a", "b", "c"):
            (target / name).write_bytes(b"mine")
        self.refused(target, r"did not write: a, b, c \.\.\.;")

    def test_another_book(self, target: Path) -> None:
        build(target, FIRST)
        self.refused(target, 'holds another book, "book"; this one is "other"', "other")
        assert pages_of(target) == FIRST

    @pytest.mark.parametrize(
        "mark", [b"", b"{", b"[]", b'{"book": "book"}', b'{"format": 2, "book": "book"}', b'{"format": 1}', b"\xff"]
    )
    def test_a_mark_that_cannot_be_read(self, target: Path, mark: bytes) -> None:
        target.mkdir()
        (target / ".seambook").write_bytes(mark)
        self.refused(target, "is not a mark that this Seambook can read")

    def test_a_file(self, target: Path) -> None:
        target.write_bytes(b"mine")
        self.refused(target, "is not a folder")

    def test_a_folder_under_a_file(self, target: Path) -> None:
        target.write_bytes(b"mine")
        self.refused(target / "site", "cannot make|cannot lock")

    def test_the_top_of_a_file_system(self) -> None:
        with pytest.raises(PublishError, match="top of a file system"):
            build(Path("/"), FIRST)

    def test_a_circle_of_links(self, target: Path) -> None:
        target.symlink_to(target)
        with pytest.raises(PublishError):
            build(target, FIRST)

    def test_a_folder_that_became_someone_elses_during_the_build(self, target: Path) -> None:
        with open_draft(target, "book") as draft:
            draft.desk.put("index.html", b"x")
            target.mkdir()
            (target / "mine.txt").write_bytes(b"mine")
            with pytest.raises(PublishError, match=r"did not write: mine\.txt"):
                draft.publish(["index.html"])
        assert pages_of(target) == {"mine.txt": b"mine"}

    @pytest.mark.parametrize(
        ("paths", "match"),
        [
            (["a", "b/c", "d"], "lacks files that it should hold: d;"),
            (["a"], "holds files that it should not: b/c;"),
            (["a", "b/c", "A"], "'a' and 'A' are one name"),
            (["a", "b/c", "a"], "'a' is given twice"),
        ],
    )
    def test_other_files_than_were_put(self, target: Path, paths: list[str], match: str) -> None:
        build(target, FIRST)
        with open_draft(target, "book") as draft:
            draft.desk.put("a", b"")
            draft.desk.put("b/c", b"")
            with pytest.raises(PublishError, match=match):
                draft.publish(paths)
        assert pages_of(target) == FIRST
        assert beside(target) == []

    @pytest.mark.parametrize(("first", "second"), [("a", "a"), ("a", "a/b"), ("a/b", "a")])
    def test_a_path_that_is_taken(self, target: Path, first: str, second: str) -> None:
        with open_draft(target, "book") as draft:
            draft.desk.put(first, b"first")
            with pytest.raises(PublishError):
                draft.desk.put(second, b"second")
            assert (draft.desk.folder / first).read_bytes() == b"first"

    def test_publishing_twice(self, target: Path) -> None:
        with open_draft(target, "book") as draft:
            draft.desk.put("a", b"")
            draft.publish(["a"])
            with pytest.raises(PublishError):
                draft.publish(["a"])
        assert pages_of(target) == {"a": b""}


class TestDisk:
    @pytest.fixture
    def open_folder(self) -> Iterator[Path]:
        """A folder that any user may reach; the ones of pytest and of `make test` belong to the one who runs them."""
        with tempfile.TemporaryDirectory(dir="/tmp") as folder:
            Path(folder).chmod(0o755)
            yield Path(folder)

    @pytest.mark.skipif(os.name != "posix", reason="modes are a matter of posix systems")
    @pytest.mark.parametrize("has_old", [True, False])
    def test_a_parent_that_may_not_be_written(self, open_folder: Path, has_old: bool) -> None:
        target = open_folder / "site"
        if has_old:
            build(target, FIRST)

        def refused() -> None:
            if os.getuid() == 0:  # root may write anywhere
                os.setuid(65534)
            with pytest.raises(PublishError, match=r"cannot lock .*: Permission denied") as caught:
                build(target, SECOND)
            assert "make the folder writable" in caught.value.do

        open_folder.chmod(0o555)
        assert in_child(refused) == 0
        open_folder.chmod(0o755)
        assert pages_of(target) == (FIRST if has_old else {})
        assert beside(target) == []

    def test_a_disk_that_fills_up_in_the_middle_of_a_page(self, target: Path, monkeypatch: pytest.MonkeyPatch) -> None:
        build(target, FIRST)
        write = disk.write

        def full(file: int, data: bytes | memoryview) -> int:
            if bytes(data) == b"two":
                return write(file, data[:1])
            if bytes(data) == b"wo":
                raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))
            return write(file, data)

        monkeypatch.setattr(disk, "write", full)
        with open_draft(target, "book") as draft:
            with pytest.raises(PublishError, match=r"cannot write index\.html .*: No space left") as caught:
                draft.desk.put("index.html", b"two")
            assert "free some space" in caught.value.do
            assert list(draft.desk.folder.iterdir()) == []  # no half page that publishing could pick up
        assert pages_of(target) == FIRST
        assert beside(target) == []

    def test_a_write_taken_in_pieces_is_finished(self, target: Path, monkeypatch: pytest.MonkeyPatch) -> None:
        write = disk.write
        monkeypatch.setattr(disk, "write", lambda file, data: write(file, data[:1]))
        build(target, FIRST)
        assert pages_of(target) == FIRST
