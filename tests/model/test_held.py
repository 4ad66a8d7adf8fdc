"""What a process holds of files that it has read: never what somebody has written since."""

from __future__ import annotations

from pathlib import Path

import pytest

from builder.model import held
from builder.model.held import bytes_in


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    (tmp_path / "parts").mkdir()
    (tmp_path / "parts" / "head.html").write_bytes(b"<h1>")
    (tmp_path / ".order").write_bytes(b"head")
    return tmp_path


@pytest.fixture
def opened(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """Names of the files that were opened."""
    found: list[str] = []
    read = Path.read_bytes

    def noting(path: Path) -> bytes:
        found.append(path.name)
        return read(path)

    monkeypatch.setattr(Path, "read_bytes", noting)
    return found


def test_all_are_there_by_their_paths_in_order(folder: Path) -> None:
    assert [*bytes_in(folder).items()] == [(".order", b"head"), ("parts/head.html", b"<h1>")]


def test_what_was_written_a_moment_ago_is_read_again(folder: Path, opened: list[str]) -> None:
    """Within one tick of a disk's clock two texts can bear the same time."""
    bytes_in(folder)
    (folder / "parts" / "head.html").write_bytes(b"<h2>")
    assert bytes_in(folder)["parts/head.html"] == b"<h2>"
    bytes_in(folder)
    assert opened.count("head.html") == 3


def test_what_was_left_alone_is_read_once_and_what_was_touched_again(
    folder: Path, opened: list[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(held, "LEAST_AGE", 0)
    assert bytes_in(folder) == bytes_in(folder)
    assert sorted(opened) == [".order", "head.html"]
    (folder / "parts" / "head.html").unlink()
    (folder / "parts" / "head.html").write_bytes(b"<h2>, and more")
    (folder / "foot.html").write_bytes(b"<p>")
    assert bytes_in(folder) == {".order": b"head", "foot.html": b"<p>", "parts/head.html": b"<h2>, and more"}
    assert sorted(opened) == [".order", "foot.html", "head.html", "head.html"]


def test_where_a_link_leads_all_are_read(folder: Path, opened: list[str], monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(held, "LEAST_AGE", 0)
    (folder / "also.html").symlink_to(folder / "parts" / "head.html")
    bytes_in(folder)
    (folder / "parts" / "head.html").write_bytes(b"<h2>, and more")
    assert bytes_in(folder)["also.html"] == b"<h2>, and more"
    assert opened.count("also.html") == 2
