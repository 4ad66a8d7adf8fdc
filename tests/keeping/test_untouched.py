"""A build that finds nothing touched looks at files and opens none; whatever was touched, it notices."""

from __future__ import annotations

import os
import shutil
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

from builder import keeper, keeping, publish
from builder.model.look import LEAST_AGE, look
from tests.books.laying import edit
from tests.keeping.book import PROCEDURE, Book, changed

SEAM = "seams/cover-edge.yaml"
AS_IT_IS = LEAST_AGE
INVALID = Path(__file__).parents[1] / "invalid"


@pytest.fixture
def own(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Book:
    """A book of which all was written long enough before it was read."""
    monkeypatch.setattr(keeper, "LEAST_AGE", 0)
    made = Book(tmp_path)
    assert changed(made.build()) > 50
    return made


@pytest.fixture(scope="module")
def shared(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Book]:
    """One for all tests that leave it sound."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(keeper, "LEAST_AGE", 0)
        yield Book(tmp_path_factory.mktemp("book"))


@pytest.fixture
def book(shared: Book) -> Book:
    """The shared book, as a build left it that changed nothing."""
    if not is_glanced(shared):
        assert is_glanced(shared)
    return shared


def is_glanced(book: Book, **more: object) -> bool:
    """Build; whether a glance was enough."""
    return list(book.build(**more).seconds) == ["look"]


@pytest.mark.parametrize("processes", [1, 2])
def test_nothing_touched_opens_no_record_and_no_page(
    book: Book, monkeypatch: pytest.MonkeyPatch, processes: int
) -> None:
    def refuse(*_: object) -> None:
        raise AssertionError("nothing of this is needed")

    for name in ("read_kept", "write_kept"):
        monkeypatch.setattr(keeping, name, refuse)
    before = look(book.site).mark
    monkeypatch.setattr("builder.read.discover", refuse)
    outcome = book.build(processes=processes)
    assert list(outcome.seconds) == ["look"]
    assert outcome.published is not None
    assert outcome.published.changed == outcome.published.removed == 0
    assert outcome.published.unchanged == sum(path.is_file() for path in book.site.rglob("*")) - 1
    assert look(book.site).mark == before


def test_it_tells_as_many_records_as_the_build_before(book: Book) -> None:
    whole = book.build(anew=True)
    again = book.build()
    assert (again.records, again.problems) == (whole.records, whole.problems)
    assert list(again.seconds) == ["look"]


def _same_text(book: Book) -> None:
    path = book.content / PROCEDURE
    path.write_text(path.read_text("utf-8"), "utf-8")


def _other_text(book: Book) -> None:
    edit(book.content, PROCEDURE, ("do: Lay the film on every bare face", "do: Lay one film on every bare face"))


def _as_long_as_old(book: Book) -> None:
    path = book.content / PROCEDURE
    at = path.stat()
    path.write_text(path.read_text("utf-8").replace("every bare face", "every bore face"), "utf-8")
    os.utime(path, ns=(at.st_atime_ns, at.st_mtime_ns))


def _renamed_and_back(book: Book) -> None:
    (book.content / SEAM).rename(book.content / "seams" / "cover-rim.yaml")
    (book.content / "seams" / "cover-rim.yaml").rename(book.content / SEAM)


def _page_gone(book: Book) -> None:
    (book.site / "seams" / "cover-edge.html").unlink()


def _page_changed(book: Book) -> None:
    page = book.site / "seams" / "cover-edge.html"
    data = page.read_bytes()
    page.unlink()
    page.write_bytes(data[:-1] + b" ")


def _strange_page(book: Book) -> None:
    (book.site / "seams" / "of-nobody.html").write_text("x", "utf-8")


def _copied(book: Book) -> None:
    """The same bytes, brought back from where they were saved: who knows whether they are."""
    shutil.copytree(book.site, book.site.with_name("put"))
    shutil.rmtree(book.site)
    shutil.copytree(book.site.with_name("put"), book.site)


@pytest.mark.sweep(2)
@pytest.mark.parametrize("touch", [
    _same_text, _other_text, _as_long_as_old, _renamed_and_back, _page_gone, _page_changed, _strange_page,
    _copied,
])  # fmt: skip
def test_whatever_was_touched_is_noticed(book: Book, touch: Callable[[Book], None]) -> None:
    touch(book)
    assert not is_glanced(book, processes=2)
    book.require_as_anew()
    assert is_glanced(book)


@pytest.mark.parametrize("name", ["name", "whole"])
def test_another_order_is_another_book(book: Book, name: str) -> None:
    assert not is_glanced(book, **{"name": "Another shop"} if name == "name" else {"whole": True})


def test_other_styles_are_noticed(book: Book, tmp_path: Path) -> None:
    from builder.supplied import templates

    shutil.copytree(templates(), tmp_path / "templates")
    assert not is_glanced(book, templates=tmp_path / "templates")
    assert is_glanced(book, templates=tmp_path / "templates")
    styles = next((tmp_path / "templates" / "assets" / "css").glob("*.css"))
    styles.write_text(f"{styles.read_text('utf-8')}\nmain {{ color: #123456 }}\n", "utf-8")
    assert not is_glanced(book, templates=tmp_path / "templates")


def test_the_copy_in_one_file_is_made_all_the_same(book: Book, tmp_path: Path) -> None:
    assert not is_glanced(book, pocket=tmp_path / "pocket.html")
    assert (tmp_path / "pocket.html").is_file()


def test_files_that_are_somebodys_own_are_none_of_it(book: Book) -> None:
    (book.content / ".notes").mkdir()
    (book.content / ".notes" / "later.txt").write_text("x", "utf-8")
    (book.site / ".served").write_text("x", "utf-8")
    assert is_glanced(book)
    assert (book.site / ".served").is_file()


def test_a_link_among_the_records_is_followed_each_time(own: Book, tmp_path: Path) -> None:
    """What it leads to may change while the link itself does not."""
    real = own.content / ".real.yaml"
    (own.content / SEAM).rename(real)
    (own.content / SEAM).symlink_to(real)
    assert not is_glanced(own)
    assert not is_glanced(own)
    real.write_text(real.read_text("utf-8").replace("title: ", "title: Real ", 1), "utf-8")
    own.build()
    assert "Real " in (own.site / "seams" / "cover-edge.html").read_text("utf-8")
    own.require_as_anew()


def test_warnings_are_told_again_and_strictly_they_keep_it_from_being_published(own: Book) -> None:
    shutil.copytree(INVALID / "C326-taught-by-nobody" / "skills", own.content / "skills", dirs_exist_ok=True)
    first = own.build()
    assert [one.level for one in first.problems] == ["warning"]
    again = own.build()
    assert list(again.seconds) == ["look"]
    assert again.problems == first.problems
    assert {one.span.file for one in again.problems} <= {file.shown for file in again.discovery.files}
    strict = own.build(strict=True)
    assert strict.published is None
    assert strict.problems == first.problems


def test_what_a_killed_build_left_is_tidied_up(book: Book) -> None:
    left = book.site.with_name(f".seambook-new-999999-{book.site.name}")
    left.mkdir()
    (left / "index.html").write_text("half", "utf-8")
    assert is_glanced(book)
    assert not left.exists()


def test_the_folder_of_another_book_is_refused(own: Book) -> None:
    (own.site / ".seambook").write_text('{"book": "another", "format": 1}\n', "utf-8")
    with pytest.raises(publish.PublishError, match="holds another book"):
        own.build()


def test_a_file_written_a_moment_before_is_no_ground_to_stand_on(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Within one tick of a disk's clock two texts can bear the same time."""
    monkeypatch.setattr(keeper, "LEAST_AGE", AS_IT_IS)
    made = Book(tmp_path)
    made.build()
    assert not is_glanced(made)
