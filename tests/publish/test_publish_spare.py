"""The book before the last, brought up to date in place of a folder in which every file is linked anew."""

from __future__ import annotations

import os
import shutil
from collections.abc import Callable
from pathlib import Path

import pytest

from builder.model.files import Published
from builder.publish import PublishError, disk, open_draft
from tests.publish.book import Pages, beside, pages_of

MANY: Pages = {f"many/{number}.html": b"page %d" % number for number in range(20)}
SPARE = ".seambook-spare-site"


@pytest.fixture
def target(tmp_path: Path) -> Path:
    """A book that was published twice, so that there is a spare."""
    place = tmp_path / "site"
    for index in (b"first", b"second"):
        build(place, MANY | {"index.html": index})
    assert pages_of(place.with_name(SPARE)) == MANY | {"index.html": b"first"}
    return place


def build(target: Path, pages: Pages, *, keeps_spare: bool = True) -> Published:
    """Put what differs from what is published, keep the rest."""
    with open_draft(target, "book", keeps_spare=keeps_spare) as draft:
        for path, data in pages.items():
            if (target / path).is_file() and (target / path).read_bytes() == data:
                draft.desk.keep([path])
            else:
                draft.desk.put(path, data)
        return draft.publish(list(pages))


def test_a_change_of_one_page_touches_files_in_proportion(target: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    touched: list[Path] = []

    def watched(call: Callable[..., None]) -> Callable[..., None]:
        def stand_in(*paths: Path) -> None:
            touched.append(paths[-1])
            call(*paths)

        return stand_in

    for name in ("link", "unlink", "replace"):
        monkeypatch.setattr(disk, name, watched(getattr(disk, name)))
    numbers = {path: (target / path).stat().st_ino for path in MANY}
    assert build(target, MANY | {"index.html": b"third"}) == Published(1, 20, 0)
    assert pages_of(target) == MANY | {"index.html": b"third"}
    assert {path: (target / path).stat().st_ino for path in MANY} == numbers
    assert not any("many" in path.parts for path in touched)
    assert pages_of(target.with_name(SPARE)) == MANY | {"index.html": b"second"}


def test_pages_come_and_go_and_folders_with_them(target: Path) -> None:
    fewer = dict(list(MANY.items())[4:])
    new = fewer | {"deep/down/page.html": b"new", "many.html": b"new"}
    assert build(target, new) == Published(2, 16, 5)
    assert pages_of(target) == new
    assert build(target, fewer) == Published(0, 16, 2)
    assert build(target, fewer | {"index.html": b"fourth"}) == Published(1, 16, 0)
    assert not (target / "deep").exists()
    assert build(target, fewer | {"deep": b"now a page"}) == Published(1, 16, 1)
    assert build(target, fewer | {"deep/page.html": b"a folder again"}) == Published(1, 16, 1)
    assert pages_of(target) == fewer | {"deep/page.html": b"a folder again"}
    assert beside(target) == [SPARE]


def _changed(spare: Path) -> None:
    page = spare / "many" / "3.html"
    page.unlink()
    page.write_bytes(b"meddled with")


def _gone(spare: Path) -> None:
    (spare / "many" / "3.html").unlink()


def _more(spare: Path) -> None:
    (spare / "strange" / "folder").mkdir(parents=True)
    (spare / "strange" / "page.html").write_bytes(b"strange")


def _linked(spare: Path) -> None:
    (spare / "many" / "3.html").unlink()
    (spare / "many" / "3.html").symlink_to("4.html")


def _a_link(spare: Path) -> None:
    shutil.move(spare, spare.with_name("mine"))
    spare.symlink_to("mine")


def _a_file(spare: Path) -> None:
    shutil.rmtree(spare)
    spare.write_bytes(b"no folder")


def _copied(spare: Path) -> None:
    shutil.copytree(spare, spare.with_name("copy"))
    shutil.rmtree(spare)
    (spare.with_name("copy")).rename(spare)


@pytest.mark.parametrize("meddle", [_changed, _gone, _more, _linked, _a_link, _a_file, _copied])
def test_whatever_was_done_to_the_spare_the_book_is_right(target: Path, meddle: Callable[[Path], None]) -> None:
    meddle(target.with_name(SPARE))
    for index in (b"third", b"fourth"):
        build(target, MANY | {"index.html": index})
        assert pages_of(target) == MANY | {"index.html": index}
    assert set(beside(target)) <= {SPARE, "mine"}
    if (mine := target.with_name("mine")).exists():
        assert pages_of(mine) == MANY | {"index.html": b"first"}


def test_what_belongs_to_the_owner_moves_along_and_is_not_kept_twice(target: Path) -> None:
    (target / ".served").write_bytes(b"mine")
    (target / ".git" / "objects").mkdir(parents=True)
    for index in (b"third", b"fourth"):
        build(target, MANY | {"index.html": index})
        assert (target / ".served").read_bytes() == b"mine"
        assert (target / ".git" / "objects").is_dir()
        assert not [path for path in target.with_name(SPARE).iterdir() if path.name.startswith(".")]
    (target / ".served").unlink()
    build(target, MANY | {"index.html": b"fifth"})
    assert not (target / ".served").exists()


def test_a_page_edited_by_hand_is_not_in_both(target: Path) -> None:
    """The two folders share files, so that what is written into one of them stands in the other."""
    (target / "many" / "3.html").write_bytes(b"by hand")
    build(target, MANY | {"index.html": b"third"})
    assert pages_of(target) == MANY | {"index.html": b"third"}


def test_a_page_taken_away_while_the_book_was_made_is_told(target: Path) -> None:
    with open_draft(target, "book", keeps_spare=True) as draft:
        draft.desk.keep(MANY)
        draft.desk.put("index.html", b"third")
        (target / "many" / "3.html").unlink()
        with pytest.raises(PublishError, match=r"lacks files that it should hold: many/3\.html"):
            draft.publish([*MANY, "index.html"])
    assert beside(target) == []  # the spare was taken for this build, and went with it
    build(target, MANY | {"index.html": b"third"})
    assert pages_of(target) == MANY | {"index.html": b"third"}


def test_where_nobody_wants_a_spare_none_stays(target: Path) -> None:
    build(target, MANY | {"index.html": b"third"}, keeps_spare=False)
    assert beside(target) == []


def test_a_file_written_as_the_published_one_is_the_same_file(target: Path) -> None:
    number = os.stat(target / "index.html").st_ino  # noqa: PTH116
    with open_draft(target, "book", keeps_spare=True) as draft:
        draft.desk.keep(MANY)
        draft.desk.put("index.html", b"second")
        assert draft.publish([*MANY, "index.html"]) == Published(0, 21, 0)
    assert (target / "index.html").stat().st_ino == number
    assert pages_of(target) == MANY | {"index.html": b"second"}
    assert beside(target) == [SPARE]
