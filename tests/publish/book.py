"""Two editions of a small book, and how the publish tests build and read them."""

from pathlib import Path

from builder.model.files import Published
from builder.publish import open_draft

Pages = dict[str, bytes]

FIRST: Pages = {"index.html": b"one", "same.html": b"same", "panels/sill.html": b"sill", "gone.html": b"gone"}
SECOND: Pages = {"index.html": b"two", "same.html": b"same", "panels/sill.html": b"sill", "more.html": b"more"}


def build(target: Path, pages: Pages, book_id: str = "book") -> Published:
    with open_draft(target, book_id) as draft:
        for path, data in pages.items():
            draft.desk.put(path, data)
        return draft.publish(list(pages))


def pages_of(target: Path) -> Pages:
    files = [path for path in target.rglob("*") if path.is_file() and not path.name.startswith(".")]
    return {path.relative_to(target).as_posix(): path.read_bytes() for path in files}


def beside(target: Path) -> list[str]:
    return sorted(path.name for path in target.parent.iterdir() if path != target)
