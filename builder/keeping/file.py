"""What is kept <-> a file on the disk: whole and our own, or as good as none.

It is a list of segments. The first holds all that was kept of one build; each further one what another build kept
beside it, or no longer. A segment is a head that tells how long its parts are, with their hashes; results, each known
by where it lies; the glance; and what tells of it all. The head is written last. Results are read when they are asked
for, everything else at once; when what nobody asks for any more has become much, the file is written anew.
"""

from __future__ import annotations

import os
from collections.abc import Iterator, Mapping
from contextlib import suppress
from hashlib import sha256
from pathlib import Path
from pickle import UnpicklingError
from typing import Any, BinaryIO, NamedTuple, TypeVar

from builder.keeping.codec import packed, unpacked
from builder.keeping.kept import EMPTY, Glance, Kept
from builder.keeping.store import Laying, SpoiledError, Store

_HEAD = b"seambook kept 4\n"
_LENGTH, _DIGEST, _PARTS = 8, 32, 3
_FRONT = _PARTS * _LENGTH + 2 * _DIGEST
MOST_SEGMENTS = 64
"""Every build looks at the heads of all."""
ENOUGH = 4_000_000
"""Bytes behind the first segment that are never too many; beyond them not more than the first one has."""
K = TypeVar("K")
V = TypeVar("V")


class _Segment(NamedTuple):
    at: int
    results: int
    glance: int
    told: int
    """Lengths of its parts."""
    marks: bytes

    @property
    def end(self) -> int:
        return self.at + _FRONT + self.results + self.glance + self.told


class _Changes(NamedTuple):
    """What a segment says: of the first one all is new."""

    code: bytes
    settings: bytes
    scales: bytes
    started: int
    new: tuple[Mapping[Any, Any], ...]
    """Files, facts, units and pieces."""
    gone: tuple[tuple[Any, ...], ...]
    """Of each what is no longer kept."""


def read_glance(path: Path) -> Glance | None:
    """Read what shows whether anything was touched; None where there is none, or nothing that is whole and ours."""
    try:
        with path.open("rb") as file:
            last = _segments(file)[-1]
            return Glance(*_part(file, last.at + _FRONT + last.results, last.glance, last.marks[:_DIGEST]))
    except Exception:  # as below
        return None


def read_kept(path: Path) -> Kept:
    """Read what was kept; nothing where the file is missing, damaged, of another edition or not ours."""
    try:
        with path.open("rb") as file:
            segments = _segments(file)
            kept = EMPTY
            for one in segments:
                told = _part(file, one.end - one.told, one.told, one.marks[_DIGEST:])
                kept = _changed(kept, _Changes(*told))
            store = Store(path, segments[-1].end)
            if not store.is_same(file):
                return EMPTY  # another was put there meanwhile
        return kept._replace(store=store, segments=len(segments), first=segments[0].end)
    except Exception:  # whatever a damaged file makes of itself, it is as good as none
        return EMPTY


def write_kept(path: Path, glance: Glance | None, kept: Kept, before: Kept) -> Kept:
    """Write down what is kept, behind what lies there of the last build where that is worth it; return it as it lies.

    Where the disk refuses, nothing is kept.
    """
    store = before.store
    try:
        if store is not None and store.is_at(path) and _is_worth_it(before):
            return _append(path, glance, kept, before, store)
        return _write(path, glance, kept, store)
    except SpoiledError:
        with suppress(OSError):
            path.unlink()
        return EMPTY
    except OSError:
        return EMPTY


def _is_worth_it(before: Kept) -> bool:
    more = before.store.end - before.first if before.store is not None else 0
    return before.segments < MOST_SEGMENTS and more < max(ENOUGH, before.first)


def _append(path: Path, glance: Glance | None, kept: Kept, before: Kept, store: Store) -> Kept:
    with path.open("r+b") as file:
        try:
            file.seek(store.end)
            laid = _write_segment(file, glance, kept, before)
        except BaseException:
            with suppress(OSError):
                file.truncate(store.end)
            raise
        store.end = file.seek(0, os.SEEK_END)
    return laid._replace(store=store, segments=before.segments + 1, first=before.first)


def _write(path: Path, glance: Glance | None, kept: Kept, store: Store | None) -> Kept:
    """Write it beside and put it in its place in one step."""
    beside = path.with_name(f"{path.name}-{os.getpid()}")
    try:
        with beside.open("xb") as file:
            file.write(_HEAD)
            laid = _write_segment(file, glance, kept, EMPTY._replace(store=store))
            end = file.tell()
        if store is not None:
            store.close()  # where an open file cannot be replaced
        beside.replace(path)
        return laid._replace(store=Store(path, end), segments=1, first=end)
    except OSError:
        with suppress(OSError):
            beside.unlink()
        raise


def _write_segment(file: BinaryIO, glance: Glance | None, kept: Kept, before: Kept) -> Kept:
    """Write what differs from before; leaves the file at the end of it."""
    at = file.tell()
    file.write(bytes(_FRONT))
    laid = _laid(kept, before, Laying(file, _bytes_of(before)))
    results = file.tell() - at - _FRONT
    parts = [packed(None if glance is None else tuple(glance)), packed(tuple(_changes(laid, before)))]
    for part in parts:
        file.write(part)
    end = file.tell()
    file.seek(at)
    for size in (results, *map(len, parts)):
        file.write(size.to_bytes(_LENGTH, "big"))
    for part in parts:
        file.write(sha256(part).digest())
    file.seek(end)
    return laid


def _bytes_of(before: Kept) -> Any:
    return before.store.bytes_of if before.store is not None else _as_it_is


def _as_it_is(data: bytes) -> bytes:
    return data


def _laid(kept: Kept, before: Kept, laying: Laying) -> Kept:
    """Lay down the results that do not lie there; return all with where they lie."""
    files = {
        key: one if before.files.get(key) is one else one._replace(shaped=laying.laid(one.shaped))
        for key, one in kept.files.items()
    }
    units = {
        name: one if before.units.get(name) is one
        else one._replace(result=laying.laid(one.result), apart=laying.laid(one.apart))
        for name, one in kept.units.items()
    }  # fmt: skip
    return kept._replace(files=files, units=units)


def _changes(kept: Kept, before: Kept) -> _Changes:
    pairs = ((kept.files, before.files), (kept.facts, before.facts), (kept.units, before.units),
             (kept.pieces, before.pieces))  # fmt: skip
    new = tuple(_new(now, then) for now, then in pairs)
    gone = tuple(tuple(key for key in then if key not in now) for now, then in pairs)
    return _Changes(kept.code, kept.settings, kept.scales, kept.started, new, gone)


def _new(now: Mapping[K, V], then: Mapping[K, V]) -> dict[K, V]:
    return {key: one for key, one in now.items() if (old := then.get(key)) is not one and old != one}


def _changed(kept: Kept, changes: _Changes) -> Kept:
    held = [{**one} for one in (kept.files, kept.facts, kept.units, kept.pieces)]
    for one, new, gone in zip(held, changes.new, changes.gone, strict=True):
        for key in gone:
            del one[key]
        one.update(new)
    files, facts, units, pieces = held
    return Kept(*changes[:4], files, facts, units, pieces)


def _segments(file: BinaryIO) -> list[_Segment]:
    """Find the segments of a whole file."""
    if file.read(len(_HEAD)) != _HEAD:
        raise UnpicklingError("of another edition")
    end = os.fstat(file.fileno()).st_size
    found = [*_each_segment(file, end)]
    if not found or found[-1].end != end:
        raise UnpicklingError("not whole")
    return found


def _each_segment(file: BinaryIO, end: int) -> Iterator[_Segment]:
    at = len(_HEAD)
    for _ in range(MOST_SEGMENTS):
        if at >= end:
            return
        file.seek(at)
        front = file.read(_FRONT)
        lengths = (front[n : n + _LENGTH] for n in range(0, _PARTS * _LENGTH, _LENGTH))
        results, glance, told = (int.from_bytes(length, "big") for length in lengths)
        one = _Segment(at, results, glance, told, front[_PARTS * _LENGTH :])
        yield one
        at = one.end


def _part(file: BinaryIO, at: int, size: int, mark: bytes) -> Any:
    file.seek(at)
    data = file.read(size)
    if sha256(data).digest() != mark:
        raise UnpicklingError("not whole")
    return unpacked(data)

