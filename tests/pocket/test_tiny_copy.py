"""The tiny book as one file: the same bytes each time, nothing where it was asked for what no book has."""

from __future__ import annotations

from pathlib import Path

import pytest

from builder import pipeline
from builder.model.files import Layer
from builder.order import Order
from builder.passes import Way
from builder.pocket_copy import led_to
from builder.supplied import templates
from tests.books.laying import LABEL, TINY
from tests.site.building import seambook


def copied(folder: Path, processes: int) -> bytes:
    folder.mkdir()
    file = folder / "copy.html"
    order = pipeline.Order((Layer(TINY, LABEL),), templates(), folder / "book", processes=processes, pocket=file)
    assert pipeline.make(order).published is not None
    return file.read_bytes()


@pytest.mark.slow
def test_the_same_book_makes_the_same_bytes(tmp_path: Path) -> None:
    once = copied(tmp_path / "once", 1)
    assert len(once) > 50_000
    assert copied(tmp_path / "again", 2) == once


def test_a_path_takes_its_lessons_along_and_a_lesson_what_it_asks() -> None:
    way = Way(Order((Layer(TINY, LABEL),), templates()))
    catalogue = way.connect(way.gather(way.discover()))
    held = {str(ref) for ref in led_to(("first-day",), catalogue)}
    assert {"path:first-day", "lesson:first-cover", "procedure:weld-cover", "calculator:holes"} <= held
    assert "lesson:first-cover" not in {str(ref) for ref in led_to(("weld-cover",), catalogue)}


@pytest.mark.slow
def test_an_unknown_id_is_refused_and_the_nearest_offered(tmp_path: Path) -> None:
    words = ("make", "--content", str(TINY), "--out", "site", "--pocket", "copy.html")
    said = seambook(*words, "--only", "weld-covre", folder=tmp_path)
    assert said.code == 2
    assert 'the book has no "weld-covre"' in said.err
    assert "weld-cover" in said.err.replace("weld-covre", "")
    assert "Traceback" not in said.err
    assert list(tmp_path.iterdir()) == []
