"""Layers of content -> the files of the book; and one file -> its tree.

`discover` lists the files, sorted; `read` reads one of them.
"""

from __future__ import annotations

import hashlib
import os
from collections.abc import Iterator, Sequence
from pathlib import Path as DiskPath

from builder.model.files import Discovery, Layer, Overridden, SourceFile
from builder.model.near import listed, offer
from builder.model.pictures import PICTURE_ENDINGS
from builder.model.place import Span
from builder.model.problem import Problem
from builder.model.records import KIND, KIND_OF_FOLDER, Kind
from builder.model.reference import DEVICES, LONGEST_ID, Ref, is_file_id
from builder.model.summary import KEY, Path
from builder.model.tree import Mapping, Scalar, follow, span_of
from builder.read import codes, overrides
from builder.read.beside import Lying, strays
from builder.read.page import PAGE_ENDING, parse_page, parse_plain_page
from builder.read.plain import Plain, parse_plain
from builder.read.text import bytes_of, read_text
from builder.read.tree import parse
from builder.read.within import leads_out

BOOK_FILE, UNITS_FILE, STYLE_FILE, PLANNING_FILE = "book.yaml", "units.yaml", "house-style.yaml", "planning.yaml"
TRAINING_FILE = "training.yaml"
SETTINGS_FILES = (BOOK_FILE, UNITS_FILE, STYLE_FILE, PLANNING_FILE, TRAINING_FILE)
"""A layer's own files, which are no records."""


def discover(
    layers: Sequence[Layer], folders: frozenset[str] | None = None
) -> tuple[Discovery, tuple[Problem, ...]]:
    """List every record's file; of two with the same kind and id the later layer's wins.

    With `folders` only those are looked into, so that one calculator can be had from a book with errors elsewhere.
    """
    found: dict[Ref, SourceFile] = {}
    overridden: list[Overridden] = []
    problems: list[Problem] = []
    for layer in layers:
        for file in _files_of(layer, folders, problems):
            earlier = found.get(file.ref)
            if earlier is not None:
                overridden.append(Overridden(file.ref, earlier.shown, file.shown))
                if folders is None and not layer.supplied:
                    problems += overrides.problems_of(earlier, file, layer)
            found[file.ref] = file
    return Discovery(tuple(found[ref] for ref in sorted(found)), tuple(sorted(overridden))), tuple(problems)


def _files_of(layer: Layer, folders: frozenset[str] | None, problems: list[Problem]) -> Iterator[SourceFile]:
    for entry in sorted(layer.path.iterdir()):
        shown = f"{layer.label}/{entry.name}"
        if entry.name.startswith(".") or entry.name in SETTINGS_FILES:
            continue
        kind = KIND_OF_FOLDER.get(entry.name)
        if not entry.is_dir() or kind is None:
            if folders is None:
                problems.append(_stray(entry, shown))
            continue
        if folders is not None and entry.name not in folders:
            continue
        if _leads_out(entry, layer.path):
            problems.append(_out(shown))
            continue
        yield from _files_in(entry, shown, kind, problems)


def _files_in(folder: DiskPath, shown: str, kind: Kind, problems: list[Problem]) -> Iterator[SourceFile]:
    """List the records of one folder; where pictures may lie beside them, each picture must belong to one."""
    records: list[SourceFile] = []
    pictures: list[Lying] = []
    for entry in sorted(os.scandir(folder), key=lambda entry: entry.name):
        if entry.name.startswith("."):
            continue
        path, place = folder / entry.name, f"{shown}/{entry.name}"
        stem = entry.name.removesuffix(kind.ending)
        if entry.is_symlink() and _leads_out(path, folder.parent):
            problems.append(_out(place))
        elif stem != entry.name and is_file_id(stem):
            records.append(SourceFile(path, place, Ref(kind.name, stem)))
        elif kind.pictures and path.suffix in PICTURE_ENDINGS and is_file_id(path.stem):
            pictures.append(Lying(path, place))
        else:
            what = "a record or a picture" if kind.pictures else "a record"
            endings = [kind.ending, *PICTURE_ENDINGS] if kind.pictures else [kind.ending]
            problems.append(Problem(
                codes.BAD_FILE_NAME, Span(place, 1, 1, 2), f'"{path.name}" is no name for {what}',
                _naming(path.stem, endings),
            ))  # fmt: skip
    problems += strays(pictures, records) if pictures else ()
    yield from records


def _leads_out(path: DiskPath, layer: DiskPath) -> bool:
    """Whether this is a link that does: of what is none, the folders above were asked."""
    try:
        return path.is_symlink() and leads_out(path, layer)
    except OSError:
        return False  # told when it is read


def _out(shown: str) -> Problem:
    do = "put the file itself there, or name its folder as a layer"
    return Problem(codes.UNREADABLE, Span(shown, 1, 1, 2), "this link leads out of its layer", do)


def _naming(name: str, endings: list[str]) -> str:
    """Say how a file is named; of a name that some system keeps for itself, or cuts off, that."""
    if name.upper() in DEVICES:
        return "give it another name: on Windows this one is a device"
    if len(name) > LONGEST_ID:
        return f"give it a name of at most {LONGEST_ID} letters"
    return f"name it in lower-case words joined by hyphens, ending in {listed(endings, most=9)}"


def _stray(entry: DiskPath, shown: str) -> Problem:
    names = listed(KIND_OF_FOLDER, most=20)
    return Problem(
        codes.UNKNOWN_FOLDER, Span(shown, 1, 1, 2), f'"{entry.name}" is no folder of records',
        offer(entry.name, KIND_OF_FOLDER, f"move its files into one of: {names}"),
    )  # fmt: skip


def read(file: SourceFile) -> tuple[Mapping | None, tuple[Problem, ...]]:
    """Read one file into its tree."""
    text, problems = read_text(file)
    if text is None:
        return None, problems
    return parse_page(text, file.shown) if _is_page(file) else parse(text, file.shown)


def read_at_once(file: SourceFile) -> Plain | None:
    """Read one file as plain values if nothing at all is odd about it; else `read` it to hear what is."""
    text, _ = read_text(file)
    if text is None:
        return None
    return parse_plain_page(text) if _is_page(file) else parse_plain(text)


def _is_page(file: SourceFile) -> bool:
    kind = KIND.get(file.ref.kind)
    return kind is not None and kind.ending == PAGE_ENDING


def digest(file: SourceFile) -> bytes:
    """Return the SHA-256 of a record's name and of its file's bytes; of one that cannot be read, of the name alone."""
    try:
        data = bytes_of(file.path) or b""
    except OSError:
        data = b""
    return hashlib.sha256(f"{file.ref}\n".encode() + data).digest()


def read_settings(folder: DiskPath, name: str, shown: str) -> tuple[Mapping | None, tuple[Problem, ...]]:
    """Read a folder's own file of settings, if it has one."""
    path = folder / name
    if _leads_out(path, folder):
        return None, (_out(shown),)
    return read(SourceFile(path, shown, Ref("settings", "settings"))) if path.exists() else (None, ())


class Places:
    """Finds places in records again by reading their files; each file is read once and kept while problems are told."""

    def __init__(self, discovery: Discovery) -> None:
        self._files = {file.ref: file for file in discovery.files}
        self._trees: dict[Ref, Mapping | None] = {}

    def file(self, ref: Ref) -> SourceFile:
        """Return the file of a record."""
        return self._files[ref]

    def tree(self, ref: Ref) -> Mapping | None:
        """Return a record's tree; None where it cannot be read any more."""
        if ref not in self._trees:
            self._trees[ref] = read(self._files[ref])[0]
        return self._trees[ref]

    def locate(self, ref: Ref, path: Path, start: int | None = None, end: int | None = None) -> Span:
        """Return the place of a field, or of the nearest thing around it that is there."""
        tree = self.tree(ref)
        file = self._files[ref].shown
        if tree is None:
            return Span(file, 1, 1, 2)
        node, key = follow(tree, path)
        if isinstance(node, Scalar) and node.plain and start is not None and end is not None:
            first = node.column + node.quoted
            return Span(file, node.line, first + start, max(first + end, first + start + 1))
        if key is not None and (path[-1] == KEY or not (isinstance(node, Scalar) or isinstance(path[-1], int))):
            return span_of(key, file)
        return span_of(node, file)
