"""The flat reader of pages against the standard library's."""

from __future__ import annotations

from html.parser import HTMLParser
from pathlib import Path

import pytest

from tests.site.flat import VOID, elements
from tests.sweeps import share

Told = list[tuple[str, dict[str, str], str]]


class _Usual(HTMLParser):
    """Elements with their attributes and all text right in them."""

    def __init__(self) -> None:
        super().__init__()
        self.found: list[tuple[str, dict[str, str], list[str]]] = []
        self._open: list[int] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.handle_startendtag(tag, attrs)
        if tag not in VOID:
            self._open.append(len(self.found) - 1)

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.found.append((tag, {name: value or "" for name, value in attrs}, []))

    def handle_endtag(self, tag: str) -> None:
        if tag in (names := [self.found[at][0] for at in self._open]):
            del self._open[len(names) - 1 - names[::-1].index(tag):]

    def handle_data(self, data: str) -> None:
        if self._open:
            self.found[self._open[-1]][2].append(data)


def usual(html: str) -> Told:
    reader = _Usual()
    reader.feed(html)
    reader.close()
    return [(name, attrs, "".join(texts)) for name, attrs, texts in reader.found]


def flat(html: str) -> Told:
    return [(one.name, one.attrs, "".join(one.texts)) for one in elements(html)]


def test_pages_of_the_book_are_read_alike(site: Path) -> None:
    for path in share(sorted(site.rglob("*.html")), 60):
        text = path.read_text("utf-8")
        assert flat(text) == usual(text), path


@pytest.mark.parametrize("html", [
    "<!doctype html><title>a &amp; b</title><p class=x id='y' title=\"&lt;z&gt;\">one<br>two<b hidden>three</b>four",
    "<svg viewBox='0 0 1 1'><path d=M0/><path d='M1'/><g><use href=#a /></g></svg> after",
    "<ul><li>a<li>b</ul><script>if (a < b) { c = '</p>'; }</script><p>x<!-- > --> y</p></div><style>a > b {}</style>",
])
def test_mark_up_of_all_sorts_is_read_alike(html: str) -> None:
    assert flat(html) == usual(html)


@pytest.mark.parametrize("html", ["<p>a < b</p>", "<p title='a>", "<p a=b'c>"])
def test_what_is_no_mark_up_is_refused(html: str) -> None:
    with pytest.raises(ValueError, match="what is this"):
        elements(html)
