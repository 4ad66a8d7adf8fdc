"""What is fuzzed: bytes -> whether they were accepted; whatever else than a refusal with a place comes of them raises.

Each target has seeds, which are valid, and a way to spoil them.
"""

from __future__ import annotations

import math
import random
import re
from collections.abc import Callable, Iterable, Mapping, Sequence
from io import BytesIO
from pathlib import Path
from typing import NamedTuple
from zlib import crc32

from bs4 import BeautifulSoup
from PIL import Image

from builder import pictures, report, shape
from builder.formula import Fault, NoAnswer, check_expression, evaluate_expression, number, parse, unit
from builder.formula.kinds import ChoiceKind, NumberKind, TruthKind
from builder.model import tree as trees
from builder.model.expression import walk
from builder.model.files import SourceFile
from builder.model.problem import Problem
from builder.model.records import KIND_OF_FOLDER
from builder.model.records.figure import Figure
from builder.model.records.supporting import Term
from builder.model.reference import Ref
from builder.model.tree import Entry, Scalar, plain
from builder.pictures.svg import read_drawing
from builder.read import read, read_at_once
from builder.view.prose import Prose, plain_text
from tests.books.laying import TINY
from tests.hostile.fuzzing.book import Bench
from tests.hostile.fuzzing.mutating import WORDS, Make, bytes_changed, lines_changed, record_changed, text_changed
from tests.hostile.spoiled import ALL

ROOT = Path(__file__).parents[3]
UNSEEN = re.compile("[\x00-\x09\x0b-\x1f\x7f-\x9f\u202a-\u202e\u2066-\u2069]")
Deed = Callable[[bytes], bool]


class Target(NamedTuple):
    """One thing that reads what anybody may write."""

    seeds: Callable[[], Sequence[bytes]]
    changed: Make
    open: Callable[[Path], Deed]
    """A folder for its files -> the deed."""


def named(data: bytes, names: Sequence[str]) -> tuple[str, bytes]:
    """Cut an input into the name of the file that it stands for, in its first line, and what the file holds."""
    head, _, rest = data.partition(b"\n")
    name = head.decode(errors="replace")
    return (name, rest) if name in names else (names[crc32(head) % len(names)], rest)


def require_placed(problems: Iterable[Problem], file: str, data: bytes) -> None:
    """Hold that each problem says something, and stands in a line that is there."""
    text = data.decode("utf-8-sig", errors="replace").replace("\r\n", "\n").replace("\r", "\n")
    lines = text.split("\n")
    for problem in problems:
        assert problem.message, problem
        assert problem.do, problem
        line, column, end = problem.span[1:]
        assert line >= 1, problem
        assert 1 <= column <= end, problem  # nothing at all is as wide as nothing
        block, = report.text((problem,), lambda span: lines[min(span.line, len(lines)) - 1])
        assert not UNSEEN.search(block), block
        if problem.span.file == file:
            assert line <= len(lines), (problem, len(lines))
            assert column <= len(lines[line - 1]) + 1, (problem, lines[line - 1])


def _records() -> list[bytes]:
    paths = sorted(path for path in TINY.rglob("*") if path.suffix in (".yaml", ".md"))
    return [f"{path.relative_to(TINY).as_posix()}\n".encode() + path.read_bytes() for path in paths]


def _named_changed(data: bytes, chance: random.Random) -> bytes:
    head, _, rest = data.partition(b"\n")
    change: Make = record_changed if head.endswith(b".yaml") else chance.choice((bytes_changed, lines_changed))
    return head + b"\n" + change(rest, chance)


def _open_reading(folder: Path) -> Deed:
    names = [name for name in (data.partition(b"\n")[0].decode() for data in _records()) if "/" in name]

    def deed(data: bytes) -> bool:
        name, rest = named(data, names)
        path = folder / f"read{name[-5:]}"
        path.write_bytes(rest)
        kind, _, file = name.partition("/")
        source = SourceFile(path, name, Ref(KIND_OF_FOLDER[kind].name, file.partition(".")[0]))
        tree, problems = read(source)
        require_placed(problems, name, rest)
        value = read_at_once(source)
        if tree is None or problems:
            assert problems
            assert value is None
            return False
        assert value is None or plain(tree) == value
        record, summary, problems = shape.shape(source, tree, {})
        require_placed(problems, name, rest)
        assert (record is None) == bool(problems)
        if value is None:  # what its author has still to fill in is not read at once
            assert b"FILL IN" in rest or b"!" in rest, rest  # nor is a tag that says nothing
            return False
        at_once = shape.shape_at_once(source, value, {})
        assert at_once is None or (record is not None and at_once[0] == record), name
        for mention in summary.mentions if summary is not None else ():
            assert shape.find_places(source, tree, mention), mention
        return record is not None

    return deed


def _open_book(folder: Path) -> Deed:
    bench = Bench(folder)
    names = sorted(bench.files)
    count = 0

    def deed(data: bytes) -> bool:
        nonlocal count
        name, rest = named(data, names)
        problems = bench.exchanged(name, rest)
        require_placed(problems, f"content/{name}", rest)
        if any(problem.level == "error" for problem in problems):
            return False
        count += 1
        if count % 50 == 1:  # now and then all of it: its lists, its search, its copy for phones
            require_placed(bench.built(name, rest).problems, f"content/{name}", rest)
        return True

    return deed


KINDS = {"a": number("mm"), "b": number(), "length": number("m"), "time": number("min"), "heat": number("degC")}
VALUES: dict[type, type] = {NumberKind: float, TruthKind: bool, ChoiceKind: str}
"""What an expression of each kind comes to, where it comes to something."""
FORMULAS = (
    "a / 2 + length", "max(a, length) if b > 2 else a", "ceil(length / a) * b", "b ** 2 + b ** 0.5", "heat > 3",
    "not (a < 2 or b == 3) and time >= 1", "round(b, 2) + abs(-b) + floor(b / 7)", "sqrt(a * length) * 2",
)  # fmt: skip


def _formula(data: bytes) -> bool:
    text = data.decode(errors="surrogateescape")
    tree = parse(text)
    if isinstance(tree, Fault):
        start, end = tree.start or 0, tree.end if tree.end is not None else len(text)
        assert 0 <= start <= end <= len(text), tree
        assert tree.message, tree
        assert tree.do, tree
        return False
    assert all(0 <= node.start < node.end <= len(text) for node in walk(tree))
    unit(text[:60])
    kind, faults = check_expression(text, KINDS)
    if faults:
        return False
    assert kind is not None, text
    for value in (0.0, 1.0, -3.5, 1e300, 1e-300):
        found = evaluate_expression(text, dict.fromkeys(KINDS, value))
        assert isinstance(found, (NoAnswer, VALUES[type(kind)])), (text, kind, found)
        assert not (isinstance(kind, ChoiceKind) and isinstance(found, str)) or found in kind.ids, (text, found)
        assert not isinstance(found, float) or math.isfinite(found), (text, found)
    return True


TAGS = frozenset({
    "div", "p", "a", "em", "strong", "code", "pre", "br", "ul", "ol", "li", "blockquote", "hr", "table", "thead",
    "tbody", "tr", "th", "td", "h1", "h2", "h3", "h4", "h5", "h6",
})  # fmt: skip
PROSE = (
    "Two *sheets* that [lie](seam:cover-edge) on `each` other.\n\n- one\n- two\n\n1. x\n",
    "| a | b |\n| - | - |\n| 1 | 2 |\n",
    "> said\n\n    code\n\nA [way](https://example.org/a_(b)) and [one][x].\n\n[x]: https://example.org\n",
)


def _open_prose(folder: Path) -> Deed:
    prose = Prose()
    path = folder / "term.yaml"
    source = SourceFile(path, "terms/x.yaml", Ref("term", "x"))

    def deed(data: bytes) -> bool:
        text = data.decode(errors="replace")
        record, _, problems = shape.shape(source, _tree(text), {})
        if record is None:
            assert problems
            return False
        assert isinstance(record, Term)
        prose._kept.clear()
        for made in (prose.paragraphs(record.means, _way), prose.line(record.means, _way)):
            require_harmless(made)
        plain_text(record.means)
        return True

    return deed


def _way(ref: Ref) -> str:
    return f"{ref.kind}/{ref.id}.html"


def _tree(text: str) -> trees.Mapping:
    said = {"title": "Lap", "means": text, "synonyms": "none"}
    return trees.Mapping({key: Entry(Scalar(key, at, 1, 9, True, False), Scalar(value, at, 9, 10, False, False))
                    for at, (key, value) in enumerate(said.items(), 1)}, 1, 1, 2)  # fmt: skip


def require_harmless(made: str) -> None:
    """Hold that mark-up holds what prose may hold, and nothing that acts or fetches."""
    for tag in BeautifulSoup(f"<div>{made}</div>", "html.parser").find_all(True):
        assert tag.name in TAGS, (tag.name, made)
        for key, value in tag.attrs.items():
            if key == "href":
                assert re.fullmatch(r"https?://.*|(?!/)[A-Za-z0-9_./#-]*", str(value), re.I | re.S), made
            else:
                assert (key, tag.name) in ALLOWED, (key, made)


ALLOWED = {("style", "th"), ("style", "td"), ("title", "a"), ("data-page", "a"), ("start", "ol"), ("class", "code")}
_FETCHES = re.compile(r"url\s*\(\s*(?!['\"]?#)|@import|javascript:|image-set\s*\(|\\", re.I)


def _pictures() -> list[bytes]:
    made = [path.read_bytes() for path in sorted((ROOT / "content" / "figures").glob("*.svg"))[:6]]
    made += [path.read_bytes() for path in TINY.glob("figures/*.svg")]
    for mode, format_ in (("RGB", "JPEG"), ("RGBA", "PNG"), ("P", "PNG"), ("I;16", "PNG"), ("RGB", "WEBP")):
        stream = BytesIO()
        image = Image.new(mode, (24, 16))
        exif = Image.Exif()
        exif[0x0112] = 6
        image.save(stream, format_, exif=exif)
        made.append(stream.getvalue())
    return made


ENDINGS = {b"\xff\xd8": "jpg", b"\x89P": "png", b"RI": "webp"}


def _open_pictures(folder: Path) -> Deed:
    figures = [Figure(title="X", sort=sort, alt="X", by="X", sources=()) for sort in ("photo", "drawing")]

    def deed(data: bytes) -> bool:
        ending = ENDINGS.get(data[:2], "svg")
        path = folder / f"x.{ending}"
        path.write_bytes(data)
        try:
            figure = figures[len(data) % 2]
            source = SourceFile(folder / "x.yaml", "x.yaml", Ref("figure", "x"))
            picture, faults = pictures.look(source, figure)
            made: Mapping[str, bytes] = {}
            if picture is not None:
                made, faults = pictures.make(source, figure, picture)
            assert bool(faults) != bool(made)
            assert all(fault.message and fault.do for fault in faults)
            for name, file in made.items():
                _require_shown(name, file)
            return bool(made)
        finally:
            path.unlink()

    return deed


def _require_shown(name: str, data: bytes) -> None:
    if not name.endswith(".svg"):
        with Image.open(BytesIO(data)) as image:
            image.load()
            assert max(image.size) <= 1600
            assert not image.getexif()
        return
    again = read_drawing(data, name)
    assert not isinstance(again, Fault), again
    soup = BeautifulSoup(data, "html.parser")
    assert not soup.find_all(["script", "foreignobject", "image", "a", "iframe", "animate", "set"])
    for style in soup.find_all("style"):
        direct = "".join(str(one) for one in style.find_all(string=True, recursive=False))
        assert not _FETCHES.search(direct), direct


def _picture_changed(data: bytes, chance: random.Random) -> bytes:
    if data[:2] in ENDINGS:
        return bytes_changed(data, chance)
    if chance.randrange(2):
        at = data.find(b">", chance.randrange(max(1, len(data)))) + 1
        return data[:at] + chance.choice(DRAWN) + data[at:]
    return chance.choice((bytes_changed, lines_changed, text_changed))(data, chance)


DRAWN = (
    b"<style>a{b:u", b"rl(x)}</style>", b"<style>", b"</style>", b"<g>", b"</g>", b"<use href='#a'/>", b"<g id='a'>",
    b"<text>&#0;</text>", b"<m:x xmlns:m='y'>", b"</m:x>", b"<metadata>", b"</metadata>", b"<![CDATA[", b"]]>",
    b"<!--", b"<path style='fill:url(#x)'/>", b"<a href='x'/>", b"<path d='" + b"1 " * 9000 + b"'/>", b"<svg>",
    b"</svg>", *(one.encode() for one in ALL),
)  # fmt: skip


def _texts(*groups: Iterable[str]) -> Callable[[], list[bytes]]:
    return lambda: [text.encode(errors="replace") for group in groups for text in group]


TARGETS = {
    "reading": Target(_records, _named_changed, _open_reading),
    "book": Target(_records, _named_changed, _open_book),
    "formulas": Target(_texts(FORMULAS, WORDS), text_changed, lambda _folder: _formula),
    "prose": Target(_texts(PROSE, ALL), text_changed, _open_prose),
    "pictures": Target(_pictures, _picture_changed, _open_pictures),
}
