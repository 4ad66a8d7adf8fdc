"""Paths that some system would refuse, or mistake for another, are refused on every system."""

from pathlib import Path

import pytest

from builder.publish import PublishError, open_draft
from builder.publish.paths import require_distinct, require_plain

# The rules of Microsoft's "Naming Files, Paths, and Namespaces", and what leads out of a folder anywhere.
TRAPS = [
    "", "/etc/passwd", "//server/share", "..", "../outside.html", "a/../../b", "a/..", ".", "./a", "a/./b",
    "a//b", "a/", "a\\b", "C:/a", "C:a", "a.html:stream", "nul\0.html", "line\nbreak", "tab\t", "bell\x07",
    "del\x7f", "what?", "all*", "a<b", "a>b", "a|b", 'a"b', "half\ud800",
    "con", "CON", "Con.html", "panels/aux.html", "nul.tar.gz", "prn", "com1", "COM9.html", "lpt1.svg", "com¹",
    "conin$", "CONOUT$.txt", "con .html", "COM0",
    "end.", "end ", "a./b", "a /b", "a/...", ".gitignore", ".seambook", ".hidden/page.html",
]  # fmt: skip
PLAIN = [
    "index.html", "panels/rocker-outer.html", "a/b/c/d.js", "console.html", "com.html", "com10.html", "auxiliary",
    "a.b.c", "a b.html", "naïve.html", "panels/.hidden", "-", "nulls/con-rod.html", "日本.html",
]  # fmt: skip


@pytest.mark.parametrize("path", TRAPS, ids=ascii)
def test_a_trap_is_refused_and_nothing_is_written(path: str, tmp_path: Path) -> None:
    with open_draft(tmp_path / "site", "book") as draft:
        with pytest.raises(PublishError) as caught:
            draft.desk.put(path, b"x")
        assert list(draft.desk.folder.iterdir()) == []
    assert repr(path) in caught.value.message
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize("path", PLAIN)
def test_a_plain_path_is_allowed(path: str) -> None:
    require_plain(path)


@pytest.mark.parametrize(
    "paths",
    [
        ["a.html", "A.html"],
        ["panels/a.html", "Panels/b.html"],
        ["stra\u00dfe.html", "STRASSE.html"],
        ["caf\u00e9.html", "cafe\u0301.html"],
        ["a.html", "b.html", "a.html"],
        ["\u0130.html", "i\u0307.html"],  # dotted capital I folds to i and a combining dot
    ],
)
def test_names_that_some_system_takes_for_one_are_refused(paths: list[str]) -> None:
    with pytest.raises(PublishError):
        require_distinct(paths)


def test_the_refusal_names_both() -> None:
    with pytest.raises(PublishError, match=r"'Seam\.html' and 'seam\.html' are one name"):
        require_distinct(["Seam.html", "other.html", "seam.html"])


def test_names_that_no_system_takes_for_one_are_allowed() -> None:
    require_distinct(["a/a.html", "a/b.html", "b/a.html", "a.html", "a-1.html", "a_1.html"])
