"""The marked texts of every record kind: found in the tiny book where marks.txt says, and at their own places."""

from __future__ import annotations

from pathlib import Path

import pytest

from builder.model.files import SourceFile
from builder.model.records import KIND, KINDS
from builder.model.records.fields import Formula, Marked, Measures, Points, StepOfRun, Word
from builder.model.reference import Mention, Ref
from builder.model.tree import Mapping
from builder.read.files import read
from builder.read.tree import parse
from builder.shape import find_places, shape
from builder.shape.marks import Found, Mark, marked
from tests.books.laying import TINY

TABLE = Path(__file__).parent / "fixtures" / "marks.txt"


def tree(kind: str, name: str) -> tuple[Mapping, list[str]]:
    path = TINY / KIND[kind].folder / f"{name}{KIND[kind].ending}"
    found, problems = read(SourceFile(path, name, Ref(kind, name)))
    assert found is not None
    assert problems == ()
    return found, path.read_text("utf-8").split("\n")


def every(kind: str) -> list[tuple[Found, list[str]]]:
    found = []
    for path in sorted((TINY / KIND[kind].folder).glob(f"*{KIND[kind].ending}")):
        record, lines = tree(kind, path.stem)
        found += [(mark, lines) for mark in marked(KIND[kind].type, record)]
    return found


def told(mark: Mark) -> str:
    match mark:
        case Points():
            return f"points at {', '.join(mark.kinds)}" + (" or lone" if mark.lone else "")
        case StepOfRun():
            return "step of a job" + (" and a measure" if mark.measured else "")
        case Word():
            return f"word of {mark.scale}"
        case Measures():
            return f"measures {mark.example or 'anything'}"
        case Formula():
            return "formula"
        case Marked():
            return "prose"


@pytest.mark.parametrize("kind", [kind.name for kind in KINDS])
def test_marks_are_found_where_the_table_says(kind: str) -> None:
    rows = [line.split(" | ") for line in TABLE.read_text("utf-8").splitlines() if line.startswith(f"{kind} |")]
    assert rows
    assert {(found.field, told(found.mark)) for found, _ in every(kind)} == {(field, mark) for _, field, mark in rows}


@pytest.mark.parametrize("kind", [kind.name for kind in KINDS])
def test_a_marked_text_stands_at_its_place(kind: str) -> None:
    for found, lines in every(kind):
        scalar = found.scalar
        if scalar.plain:
            quote = int(scalar.quoted)
            assert lines[scalar.line - 1][scalar.column - 1 + quote : scalar.end - 1 - quote] == scalar.text


def test_none_and_unknown_are_no_references() -> None:
    text = (TINY / "cavities" / "box-inside.yaml").read_text("utf-8")
    for word in ("none", "unknown"):
        record, _ = parse(text.replace("coating: film-primer", f"coating: {word}"), "x")
        assert record is not None
        assert "coating" not in {found.field for found in marked(KIND["cavity"].type, record)}


def test_a_mention_is_kept_once_and_every_place_of_it_is_found_again() -> None:
    record, lines = tree("seam", "cover-edge")
    file = SourceFile(TINY / "seams" / "cover-edge.yaml", "x", Ref("seam", "cover-edge"))
    _, summary, problems = shape(file, record, {})
    assert problems == ()
    assert summary is not None
    mention = Mention(Ref("panel", "box"), ("panel",), "segments.sheets.panel")
    assert summary.mentions.count(mention) == 1
    places = find_places(file, record, mention)
    assert [lines[place.line - 1][place.column - 1 : place.end - 1] for place in places] == ["box"] * 3


def test_a_link_in_prose_is_found_at_its_own_characters() -> None:
    record, lines = tree("panel", "box")
    mention = Mention(Ref("panel", "cover"), (), "summary")
    (place,) = find_places(SourceFile(Path(), "x", Ref("panel", "box")), record, mention)
    assert lines[place.line - 1][place.column - 1 : place.end - 1] == "panel:cover"
