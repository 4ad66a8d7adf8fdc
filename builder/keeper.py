"""What the last build kept -> what of it this build can take, and what it keeps for the next.

A result is taken when what it was made from by name is the same and nothing that was asked while it was made has
changed. It is decided in this order: files are compared with how they were seen on the disk; once all is linked and the
law is made, every fact of the book is marked anew and compared with its mark of then; what hangs on one that differs is
made again. Nothing is kept of a build that publishes nothing, and what was kept before stays.
"""

from __future__ import annotations

import time
from array import array
from collections.abc import Iterable, Mapping
from functools import cached_property
from hashlib import blake2b
from itertools import chain
from typing import Any, NamedTuple

from builder import keeping, publish, read, settings
from builder.gathered import Shaped
from builder.keeping import EMPTY, Glance, Kept, KeptFile, KeptUnit
from builder.model.files import TAKEN_FROM, Overridden, Piece, Seen, SourceFile
from builder.model.ledger import Fact, Ledger, number_of
from builder.model.look import LEAST_AGE, Look, look
from builder.model.problem import Problem
from builder.model.reference import Ref
from builder.order import Order

UNREADABLE = b""
FEW = 24
"""Changed facts up to which each is looked for by itself."""


class Made(NamedTuple):
    """A result with the files that belong to it."""

    result: Any
    pieces: Mapping[str, Piece]
    facts: bytes
    """Numbers of what was asked while it was made."""
    apart: keeping.Bytes = b""
    """What is seldom needed of it, packed."""


class Told(NamedTuple):
    """What a build had to tell, beside what it published."""

    problems: tuple[Problem, ...]
    overridden: tuple[Overridden, ...]
    records: int
    places: tuple[tuple[str, str, Ref], ...]
    """Of files that problems stand in: where each lies, as problems name it, and its record."""


class Keeper:
    """The memory of one build; with no place to keep it, it remembers nothing and costs nothing."""

    def __init__(self, order: Order) -> None:
        self.path = order.kept
        self.ledger = Ledger(is_kept=self.path is not None)
        self.started = time.time_ns()
        self._files: dict[tuple[str, str], KeptFile] = {}
        self._units: dict[str, KeptUnit] = {}
        self._pieces: dict[str, Piece] = {}
        self._facts: dict[int, bytes] = {}
        self._changed: frozenset[int] = frozenset()
        self._few: tuple[bytes, ...] | None = None
        """Of few changed facts the numbers as results name them."""
        self.before = self._lies = EMPTY
        """What can be taken of the last build; and what of it lies where this one is kept."""
        self.templates = keeping.templates_mark(order.templates) if self.path is not None else b""
        """A mark of the templates that pages are made from."""
        self._code = keeping.code_mark() if self.path is not None else b""
        self._settings, self._all = _marks(order, self.templates) if self.path is not None else (b"", b"")
        self._target, self._is_anew, self._warm = order.target, order.anew, order.warm
        self._scales = b""
        self._layers = order.layers if self.is_on else ()

    @cached_property
    def _looks(self) -> list[Look]:
        """How the layers are seen, before a file of them is read: one that is written meanwhile is read again."""
        return [look(layer.path, _is_source) for layer in self._layers]

    @cached_property
    def _seen(self) -> dict[str, Seen]:
        return {
            f"{layer.path}/{path}": seen
            for layer, look in zip(self._layers, self._looks, strict=True) for path, seen in look.files.items()
        }  # fmt: skip

    def recall(self) -> None:
        """Look at the layers, and read what was kept, if anything of it can be used; before any file is read."""
        _ = self._looks
        if self.path is None or self._is_anew:
            return
        path, seen = self.path, publish.seen(self.path)
        if self._warm is None or seen is None:
            before = keeping.read_kept(path)
        else:
            before = self._warm.get("kept", (path, seen), lambda: keeping.read_kept(path))
        if (before.code, before.settings) == (self._code, self._settings):
            self.before = self._lies = before

    @property
    def ordered(self) -> tuple[bytes, bytes]:
        """Marks of the program and of the order."""
        return self._code, self._all

    @property
    def glanced(self) -> tuple[bytes, bytes, bytes]:
        """What a glance must show for nothing to have been touched: marks of the program, the order, the sources."""
        return *self.ordered, _mark(b"".join(look.mark for look in self._looks))

    @property
    def is_on(self) -> bool:
        """Whether anything is kept."""
        return self.path is not None

    def file(self, file: SourceFile) -> Shaped | None:
        """Return a file as the last build read and shaped it, where nobody has touched it since."""
        kept, path = self.before.files.get(file.ref[:2]), str(file.path)
        if kept is None or kept.path != path or not self._is_untouched(path, kept):
            return None
        self._files[file.ref[:2]] = kept
        return Shaped(*self._unpacked(f"read {file.ref}", kept.shaped))

    def _is_untouched(self, path: str, kept: KeptFile) -> bool:
        seen = self._seen.get(path)
        return seen is not None and seen == kept.seen and max(seen[2:]) < self.before.started - LEAST_AGE

    def keep_file(self, file: SourceFile, shaped: Shaped) -> None:
        """Keep a file that was read and shaped; one that is no plain file is read again each time."""
        seen = self._seen.get(str(file.path))
        if seen is not None:
            self._files[file.ref[:2]] = KeptFile(str(file.path), seen, keeping.packed(tuple(shaped)))

    def with_scales(self, scales: Mapping[str, tuple[str, ...]]) -> None:
        """Hear the words of the scales, by which every record is shaped: with others nothing is taken."""
        self._scales = _mark(repr(sorted(scales.items())))
        if self._scales != self.before.scales:
            self.before = self.before._replace(files={}, units={})
            self._lies = EMPTY

    def hear(self, numbered: Mapping[int, bytes], facts: Iterable[tuple[Fact, bytes]]) -> None:
        """Hear every fact of the book of today, some by their numbers; from now on results can be taken."""
        self._facts.update(numbered)
        for fact, mark in facts:
            self._facts[number_of(fact)] = mark
        then, now = self.before.facts, self._facts
        gone = (number for number in then if number not in now)
        self._changed = frozenset(chain(gone, (number for number, mark in now.items() if then.get(number) != mark)))
        if len(self._changed) <= FEW:
            self._few = tuple(array("Q", [number]).tobytes() for number in self._changed)

    def unit(self, name: str, own: bytes) -> Made | None:
        """Return a result of the last build, where a fresh one would be the same."""
        kept = self.before.units.get(name)
        if kept is None or kept.own != own or self._hangs_on_changed(kept.facts):
            return None
        pieces = self.lying_of(name)
        if pieces is None:
            return None
        made = Made(self._unpacked(name, kept.result), pieces, kept.facts, kept.apart)
        self._units[name] = kept
        self._pieces.update(pieces)
        return made

    def _hangs_on_changed(self, facts: bytes) -> bool:
        # To look for few in the bytes is quicker; what is found may begin within a number, so it is then made sure of.
        if self._few is not None and not any(one in facts for one in self._few):
            return False
        return not self._changed.isdisjoint(array("Q", facts))

    def _unpacked(self, name: str, found: keeping.Bytes) -> Any:
        return self.load(found) if self._warm is None else self._warm.unpack(name, found, self.load)

    def load(self, found: keeping.Bytes) -> Any:
        """Return what is kept as these bytes."""
        return keeping.unpacked(self.before.bytes_of(found))

    def lying(self, path: str) -> Piece | None:
        """Return the hash of a file that is published as it was left; None where it is not."""
        found = self.before.pieces.get(path)
        return found[0] if found is not None and self._lying.get(path) == found[1] else None

    @cached_property
    def site(self) -> Look | None:
        """How the published files are seen; asked for the first time once nobody else may build the book.

        None where nothing is kept, so that nobody need know.
        """
        return look(self._target, publish.is_ours) if self._target is not None and self.is_on else None

    @cached_property
    def _lying(self) -> Mapping[str, Seen]:
        return self.site.files if self.site is not None else {}

    def lying_of(self, name: str) -> dict[str, Piece] | None:
        """Return the files of a result of the last build; None where one does not lie as it was left."""
        kept = self.before.units.get(name)
        paths = kept.paths if kept is not None else ()
        pieces = {path: piece for path in paths if (piece := self.lying(path)) is not None}
        return pieces if kept is not None and len(pieces) == len(paths) else None

    def published(self, path: str) -> bytes | None:
        """Read a published file."""
        try:
            return (self._target / path).read_bytes() if self._target is not None else None
        except OSError:
            return None

    def own_before(self, name: str) -> bytes | None:
        """Return the mark of what the last build made by this name."""
        kept = self.before.units.get(name)
        return kept.own if kept is not None else None

    def result_before(self, name: str) -> Any:
        """Return what the last build made by this name, whether or not it is still so; None where it made nothing."""
        kept = self.before.units.get(name)
        return self._unpacked(name, kept.result) if kept is not None else None

    def apart_before(self, name: str) -> Any:
        """Return what is seldom needed of a result of the last build; None where there is none."""
        kept = self.before.units.get(name)
        return self.load(kept.apart) if kept is not None and kept.apart else None

    def lies(self, path: str, piece: Piece) -> bool:
        """Whether this very file is published already, as it was left."""
        return self.lying(path) == piece

    def keep_unit(self, name: str, own: bytes, made: Made) -> None:
        """Keep a result."""
        self._pieces.update(made.pieces)
        if self.is_on:
            self._units[name] = KeptUnit(own, made.facts, tuple(made.pieces), keeping.packed(made.result), made.apart)

    def keep_again(self, name: str) -> None:
        """Keep a result of the last build as it is."""
        self._units[name] = self.before.units[name]

    def keep_pieces(self, pieces: Mapping[str, Piece]) -> None:
        """Keep the hashes of files that belong to no result."""
        self._pieces.update(pieces)

    @property
    def pieces(self) -> Mapping[str, Piece]:
        """The hashes of all files so far."""
        return self._pieces

    def save(self, book: str, told: Told) -> None:
        """Write everything down, once the book of that id is published and nothing more is done to its files."""
        if self.path is None or self._target is None:
            return
        site = look(self._target, publish.is_ours)
        written = {path for path, seen in site.files.items() if self._is_written_into(path, seen)}
        pieces = {path: (piece, site.files[path]) for path, piece in self._pieces.items()
                  if path in site.files and path not in written}  # fmt: skip
        kept = Kept(
            self._code, self._settings, self._scales, self.started, self._files, self._facts, self._units, pieces
        )
        glance = self._glance(site, book, told) if not written else None
        kept = keeping.write_kept(self.path, glance, kept, self._lies)
        if self._warm is not None and (seen := publish.seen(self.path)) is not None:
            self._warm.put("kept", (self.path, seen), kept)

    def _is_written_into(self, path: str, seen: Seen) -> bool:
        """Whether somebody wrote into a published file while this build took it for what it was."""
        size, number, written, _ = self._lying.get(path, seen)
        return number == seen[1] and (size, written) != (seen[0], seen[2])

    def _glance(self, site: Look, book: str, told: Told) -> Glance | None:
        looks = (*self._looks, site)
        is_old = all(look.newest < self.started - LEAST_AGE for look in self._looks)
        if not is_old or not all(look.is_plain for look in looks):
            return None
        return Glance(*self.glanced, site.mark, book, keeping.packed(tuple(told)))


def _is_source(path: str) -> bool:
    """Of what is hidden in a layer: whether a build reads it."""
    return path == TAKEN_FROM


def _marks(order: Order, templates: bytes) -> tuple[bytes, bytes]:
    """Mark what every page is made from: templates, settings and what was ordered; and that with all assets."""
    texts = []
    for file in settings.files(order.layers):
        try:
            data = read.bytes_of(file.path)
            texts.append(UNREADABLE if data is None else data)
        except OSError:
            texts.append(UNREADABLE)
    layers = [(str(layer.path), layer.label, layer.supplied) for layer in order.layers]
    ordered = repr((layers, str(order.templates), order.name, order.shop, order.whole)).encode()
    told = b"\0".join([templates, ordered, *texts])
    return _mark(told), _mark(told + keeping.every_template_mark(order.templates))


def _mark(told: str | bytes) -> bytes:
    return blake2b(told.encode() if isinstance(told, str) else told, digest_size=16).digest()
