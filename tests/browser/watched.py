"""A built book in Chromium, opened from disk with the network off, and every complaint that the browser makes."""

from __future__ import annotations

import re
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path
from typing import Literal

import pytest
from playwright.sync_api import Browser, BrowserContext, Error, Page, Request

from tests.sweeps import is_soak

NARROW, PHONE, DESK = 320, 360, 1280
"""The narrowest phone, or a wide page at 400 per cent (WCAG 2.2: 1.4.10); an ordinary phone; a desk."""
WIDTHS = (PHONE, DESK)
PHONE_FIRST = (PHONE, pytest.param(DESK, marks=pytest.mark.soak))
"""For what is made for a phone above all: the desk waits for a soak."""
HEIGHT = {NARROW: 640, PHONE: 740, DESK: 900}
NO_WORD = re.compile(r"\b(?:null|undefined|NaN)\b|\[object ")
Scheme = Literal["light", "dark"]
SCHEMES: tuple[Scheme, ...] = ("light", "dark")


class Watched:
    """Opens pages of one book; `troubles` gathers console messages, page errors, failed and outward requests."""

    def __init__(self, browser: Browser, site: Path) -> None:
        self.browser = browser
        self.site = site
        self.troubles: list[str] = []
        self._contexts: list[BrowserContext] = []

    def url(self, path: str) -> str:
        """The address on disk of a page, given by its path from the book's root; a fragment may follow."""
        file, sign, fragment = path.partition("#")
        return (self.site / file).as_uri() + sign + fragment

    def blank(self, width: int = PHONE, *, scripts: bool = True, dark: bool = False) -> Page:
        """An empty page of a profile of its own."""
        context = self.browser.new_context(
            viewport={"width": width, "height": HEIGHT[width]}, java_script_enabled=scripts,
            color_scheme="dark" if dark else "light", locale="en-GB", timezone_id="Pacific/Auckland",
        )  # fmt: skip
        self._contexts.append(context)
        context.set_default_timeout(10_000)
        context.set_offline(True)
        page = context.new_page()
        page.on("console", lambda message: self.troubles.append(f"{page.url}: console: {message.text}"))
        page.on("pageerror", lambda error: self.troubles.append(f"{page.url}: error: {error}"))
        page.on("request", self._asked)
        page.on("requestfailed", self._failed)
        page.on("crash", lambda _: self.troubles.append(f"{page.url}: crashed"))
        return page

    def open(self, path: str, width: int = PHONE, *, scripts: bool = True, dark: bool = False) -> Page:
        """A page of the book, loaded."""
        page = self.blank(width, scripts=scripts, dark=dark)
        page.goto(self.url(path))
        return page

    def again(self, path: str) -> Page:
        """A page of the book, loaded in the profile that was opened first."""
        page = self._contexts[0].pages[0]
        page.goto("about:blank")
        page.goto(self.url(path))
        return page

    def close(self) -> None:
        """Close every profile that was opened, and look a last time at what it showed."""
        for context in self._contexts:
            for page in context.pages:
                self._read(page)
            context.close()
        self._contexts.clear()

    def _read(self, page: Page) -> None:
        """A value that was not there is never shown as a word."""
        with suppress(Error):  # a page that was killed, or that runs no scripts, shows nothing
            found = NO_WORD.search(page.evaluate("document.body.innerText"))
            if found:
                self.troubles.append(f"{page.url}: shows “{found[0]}”")

    def _asked(self, request: Request) -> None:
        if not request.url.startswith(("file:", "data:", "blob:")):
            self.troubles.append(f"asked for {request.url}")

    def _failed(self, request: Request) -> None:
        if request.failure == "net::ERR_ABORTED":  # dropped half way, since the test went on to another page
            return
        self.troubles.append(f"failed: {request.url}: {request.failure}")


@contextmanager
def watching(browser: Browser, site: Path, *, may_crash: bool = False) -> Iterator[Watched]:
    """A book opened; once it is closed nothing may have been complained of, but for pages that were killed."""
    watched = Watched(browser, site)
    yield watched
    watched.close()
    assert [one for one in watched.troubles if not (may_crash and one.endswith(": crashed"))] == []


def every_path(site: Path) -> list[str]:
    """The pages of a book by their paths, sorted."""
    return sorted(path.relative_to(site).as_posix() for path in site.rglob("*.html"))


def kinds_of(site: Path, tiny: Path) -> Iterator[tuple[str, str]]:
    """One page of each kind, by its path, and its address on disk: the book's own lists are those of the tiny book.

    They are long in a large one, and no other than in a small one; in a soak they are the large one's.
    """
    for path in sorted(one_of_each_kind(site)):
        is_of_tiny = "/" not in path and not is_soak()
        yield path, ((tiny if is_of_tiny else site) / path).as_uri()


def one_of_each_kind(site: Path) -> Iterator[str]:
    """The pages at the root, of those that are numbered the one that holds most, and of each folder one.

    That is one of ordinary size, in a soak the one that holds most.
    """
    at_root = sorted(site.glob("*.html"), key=lambda page: (page.stat().st_size, page.name))
    yield from sorted({re.sub(r"\d+", "", path.name): path.name for path in at_root}.values())
    for folder in sorted(path for path in site.iterdir() if path.is_dir()):
        pages = sorted(folder.glob("*.html"), key=lambda page: (page.stat().st_size, page.name))
        if pages:
            yield pages[-1 if is_soak() else len(pages) // 2].relative_to(site).as_posix()
