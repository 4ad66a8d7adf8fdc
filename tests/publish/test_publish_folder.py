"""What a publication does to the folder: which files are new, which are the same ones, what moves along."""

import errno
import multiprocessing
import os
import stat
from pathlib import Path

import pytest

from builder.model.files import Published
from builder.publish import Desk, PublishError, disk, open_draft
from tests.publish.book import FIRST, SECOND, beside, build, pages_of


@pytest.fixture
def target(tmp_path: Path) -> Path:
    return tmp_path / "site"


class TestFiles:
    def test_unchanged_files_stay_the_same_files_and_changed_ones_are_others(self, target: Path) -> None:
        build(target, FIRST)
        before = {path: (target / path).stat().st_ino for path in FIRST}
        with (target / "index.html").open("rb") as reader:  # someone is reading the old page
            assert build(target, SECOND) == Published(changed=2, unchanged=2, removed=1)
            assert reader.read() == b"one"
        assert pages_of(target) == SECOND
        kept = {path for path in FIRST if path in SECOND and (target / path).stat().st_ino == before[path]}
        assert kept == {"same.html", "panels/sill.html"}
        assert beside(target) == []

    def test_a_page_of_equal_length_and_other_bytes_is_new(self, target: Path) -> None:
        build(target, {"a": b"abc"})
        assert build(target, {"a": b"abd"}) == Published(1, 0, 0)
        assert pages_of(target) == {"a": b"abd"}

    def test_a_file_edited_by_hand_is_replaced_and_its_other_names_are_left_alone(self, target: Path) -> None:
        build(target, FIRST)
        (target.parent / "mine").hardlink_to(target / "index.html")
        (target / "index.html").write_bytes(b"by hand")
        build(target, FIRST)
        assert pages_of(target) == FIRST
        assert (target.parent / "mine").read_bytes() == b"by hand"

    def test_a_link_in_the_place_of_a_page_is_replaced_by_a_page(self, target: Path) -> None:
        build(target, FIRST)
        (target / "same.html").unlink()
        (target / "else").write_bytes(b"same")
        (target / "same.html").symlink_to("else")  # as long as the page, and leading to the same bytes
        build(target, FIRST)
        assert not (target / "same.html").is_symlink()
        assert pages_of(target) == FIRST

    @pytest.mark.parametrize("code", [errno.EPERM, errno.EMLINK, errno.EXDEV, errno.ENOTSUP])
    def test_without_hard_links_equal_files_are_copied_and_counted_alike(
        self, target: Path, monkeypatch: pytest.MonkeyPatch, code: int
    ) -> None:
        build(target, FIRST)
        (target / ".gitignore").write_bytes(b"*")

        def cannot_link(source: Path, path: Path) -> None:
            raise OSError(code, "no")

        monkeypatch.setattr(disk, "link", cannot_link)
        assert build(target, SECOND) == Published(changed=2, unchanged=2, removed=1)
        assert pages_of(target) == SECOND
        assert (target / ".gitignore").read_bytes() == b"*"

    @pytest.mark.skipif(os.name != "posix", reason="modes are a matter of posix systems")
    @pytest.mark.parametrize("mask", [0o022, 0o077, 0o002])
    def test_modes_are_those_of_plain_files_less_the_umask(self, target: Path, mask: int) -> None:
        old = os.umask(mask)
        try:
            build(target, FIRST)
        finally:
            os.umask(old)
        for path in (target / "index.html", target / ".seambook"):
            assert stat.S_IMODE(path.stat().st_mode) == 0o644 & ~mask
        for folder in (target, target / "panels"):
            assert stat.S_IMODE(folder.stat().st_mode) == 0o755 & ~mask

    def test_a_book_of_no_pages_and_a_page_of_no_bytes(self, target: Path) -> None:
        assert build(target, {}) == Published(0, 0, 0)
        assert build(target, {"empty": b""}) == Published(1, 0, 0)
        assert build(target, {"empty": b""}) == Published(0, 1, 0)

    def test_two_builds_leave_byte_identical_folders(self, target: Path) -> None:
        other = target.with_name("other")
        build(target, FIRST)
        build(target, SECOND)
        build(other, dict(reversed(SECOND.items())))
        assert pages_of(target) == pages_of(other)
        assert (target / ".seambook").read_bytes() == (other / ".seambook").read_bytes()

    @pytest.mark.slow
    @pytest.mark.parametrize("method", multiprocessing.get_all_start_methods())
    def test_workers_put_through_the_same_desk(self, target: Path, method: str) -> None:
        pages = {f"part-{n % 3}/page-{n}.html": b"%d" % n for n in range(12)}
        with open_draft(target, "book") as draft:
            with multiprocessing.get_context(method).Pool(2) as pool:
                pool.starmap(Desk.put, [(draft.desk, path, data) for path, data in pages.items()], chunksize=1)
                with pytest.raises(PublishError) as caught:
                    pool.apply(Desk.put, (draft.desk, "../out", b""))
            draft.publish(list(pages))
        assert caught.value.do == "rename the record it is made from"
        assert pages_of(target) == pages


class TestDotFiles:
    def test_they_move_along_with_their_kind(self, target: Path) -> None:
        (target / ".git" / "objects").mkdir(parents=True)
        (target / ".git" / "objects" / "ab").write_bytes(b"object")
        (target / ".gitignore").write_bytes(b"*\n")
        (target / ".gitignore").chmod(0o600)
        (target / ".link").symlink_to("nowhere")
        for pages in (FIRST, SECOND):
            build(target, pages)
            assert (target / ".git" / "objects" / "ab").read_bytes() == b"object"
            assert (target / ".gitignore").read_bytes() == b"*\n"
            assert stat.S_IMODE((target / ".gitignore").stat().st_mode) == 0o600
            assert str((target / ".link").readlink()) == "nowhere"
        assert pages_of(target) == SECOND | {".git/objects/ab": b"object"}

    def test_those_below_the_top_do_not(self, target: Path) -> None:
        build(target, FIRST)
        (target / "panels" / ".note").write_bytes(b"lost")
        assert build(target, FIRST) == Published(changed=0, unchanged=4, removed=1)
        assert not (target / "panels" / ".note").exists()


class TestDiscard:
    @pytest.mark.parametrize("has_old", [True, False])
    def test_leaving_without_publishing_changes_nothing(self, target: Path, has_old: bool) -> None:
        target = target.parent / "made" / "twice" / "site"
        if has_old:
            build(target, FIRST)
        with open_draft(target, "book") as draft:
            draft.desk.put("a/b/c.html", b"x")
            assert draft.desk.folder.parent == target.parent
        assert pages_of(target) == (FIRST if has_old else {})
        assert beside(target) == [] if has_old else not target.parent.parent.exists()

    def test_an_error_in_the_block_comes_through_and_nothing_changes(self, target: Path) -> None:
        build(target, FIRST)

        def fail() -> None:
            with open_draft(target, "book") as draft:
                draft.desk.put("index.html", b"x")
                raise OSError("mine")

        with pytest.raises(OSError, match=r"^mine$"):
            fail()
        assert pages_of(target) == FIRST
        assert beside(target) == []


class TestPlaces:
    def test_behind_a_link_the_real_folder_is_exchanged(self, tmp_path: Path) -> None:
        real = tmp_path / "real" / "folder"
        link = tmp_path / "link"
        build(real, FIRST)
        link.symlink_to("real/folder")
        build(link, SECOND)
        assert link.is_symlink()
        assert pages_of(real) == SECOND
        assert beside(real) == []

    def test_a_link_to_a_folder_not_made_yet(self, tmp_path: Path) -> None:
        (tmp_path / "link").symlink_to("real/folder")
        build(tmp_path / "link", FIRST)
        assert pages_of(tmp_path / "real" / "folder") == FIRST

    def test_a_target_named_from_the_current_folder(self, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
        monkeypatch.chdir(tmp_path)
        build(Path("out/site"), FIRST)
        assert pages_of(tmp_path / "out" / "site") == FIRST

    def test_leftovers_are_known_by_their_whole_name(self, target: Path) -> None:
        ours = [".seambook-new-1-site", ".seambook-new-987654-site"]
        others = [".seambook-new-1-sites", ".seambook-new--site", ".seambook-new-1-2-site", ".seambook-site", "new"]
        for name in ours + others:
            (target.parent / name / "inside").mkdir(parents=True)
        build(target, FIRST)
        assert beside(target) == sorted(others)

    def test_a_leftover_that_is_a_link_is_not_followed(self, target: Path) -> None:
        (target.parent / "mine").mkdir()
        (target.parent / "mine" / "file").write_bytes(b"mine")
        (target.parent / ".seambook-new-1-site").symlink_to("mine")
        build(target, FIRST)
        assert beside(target) == ["mine"]
        assert (target.parent / "mine" / "file").read_bytes() == b"mine"

    @pytest.mark.parametrize("strange", ["mine.txt", ".gitignore"])
    def test_an_old_folder_is_kept_until_a_book_stands_again(self, target: Path, strange: str) -> None:
        build(target, FIRST)
        old = target.rename(target.with_name(".seambook-old-1-site"))  # a build ended between its two renames
        target.mkdir()
        (target / strange).write_bytes(b"mine")
        if strange == "mine.txt":
            with pytest.raises(PublishError, match="did not write"):
                build(target, SECOND)
        else:
            with open_draft(target, "book"):
                pass
        assert pages_of(old) == FIRST
        assert (target / strange).read_bytes() == b"mine"
        (target / "mine.txt").unlink(missing_ok=True)
        build(target, SECOND)
        assert pages_of(target) == SECOND
        assert beside(target) == []
