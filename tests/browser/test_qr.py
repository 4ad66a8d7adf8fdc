"""The QR codes that pages make by themselves: module by module as another encoder makes them, and read by a reader."""

from __future__ import annotations

import random
import string

import numpy as np
import pytest
import segno
import zxingcpp
from playwright.sync_api import Page
from segno import consts

from tests.browser.watched import Watched

pytestmark = pytest.mark.slow
VERSIONS = (1, 2, 3, 5, 6, 7, 9, 10, 13, 14, 15, 20, 21, 27, 28, 32, 34, 35, 40)
"""Those at which the standard's tables turn: lengths, alignment, blocks, bits that remain."""
SIGNS = string.ascii_lowercase + string.digits + "/:.#=-_&%"


def capacity(version: int) -> int:
    """Bytes that a version holds at level M, by the other encoder's table."""
    bits: dict[int, dict[int, int]] = consts.SYMBOL_CAPACITY  # type: ignore[assignment]
    return (bits[version][consts.ERROR_LEVEL_M] - 4 - (8 if version < 10 else 16)) // 8


def modules(page: Page, text: str) -> list[list[int]]:
    made: list[list[int]] = page.evaluate("(text) => window.seambook.qr.modules(text).map((row) => [...row])", text)
    return made


def read(rows: list[list[int]]) -> str:
    """What a reader reads, off the modules as a picture with their quiet zone."""
    dark = np.kron(np.pad(np.array(rows, dtype=np.uint8), 4), np.ones((4, 4), dtype=np.uint8))
    found = zxingcpp.read_barcodes(np.where(dark == 1, 0, 255).astype(np.uint8))
    assert len(found) == 1, "one code is read"
    return str(found[0].text)


@pytest.fixture(scope="module")
def page(kept: Watched) -> Page:
    opened = kept.again("labels.html")
    opened.wait_for_function("() => window.seambook.qr")
    return opened


@pytest.mark.sweep(3)
@pytest.mark.parametrize("version", VERSIONS)
def test_a_full_code_is_module_by_module_the_one_of_another_encoder(page: Page, version: int) -> None:
    # A text that fills its version, since the other encoder fills up what is left in a way of its own.
    text = "".join(random.Random(version).choices(SIGNS, k=capacity(version)))
    other = segno.make(text, error="m", mode="byte", micro=False, boost_error=False)
    assert other.version == version
    rows = modules(page, text)
    assert rows == [list(row) for row in other.matrix]
    assert read(rows) == text


def test_texts_of_every_length_are_read_back(page: Page) -> None:
    drawn = random.Random(7)
    for length in (1, 2, 13, 15, 27, 41, 61, 63, 100, 181, 199, 214, 400):
        text = "".join(drawn.choices(SIGNS, k=length))
        assert read(modules(page, text)) == text
    assert read(modules(page, "https://book.example.org/übersicht/Tür–links")) == "https://book.example.org/übersicht/Tür–links"


def test_a_text_too_long_for_any_code_has_none(page: Page) -> None:
    full = "x" * capacity(40)
    assert len(modules(page, full)) == 177
    assert page.evaluate("(text) => window.seambook.qr.modules(text)", full + "x") is None
