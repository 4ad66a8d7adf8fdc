"""One file on its way through the first pass: read, shaped, its picture looked at, marked for the next build."""

from __future__ import annotations

import hashlib
import json
import pickle
from collections.abc import Mapping
from typing import NamedTuple

from builder import pictures, read, shape
from builder.gathered import Shaped
from builder.model.files import SourceFile
from builder.model.ledger import mark_of
from builder.model.records import Record
from builder.model.records.figure import Figure


class How(NamedTuple):
    """What becomes of a record that was shaped."""

    is_packed: bool
    is_digested: bool
    is_marked: bool = False
    """Whether it is marked by what it says and tells."""


def shape_file(file: SourceFile, scales: Mapping[str, tuple[str, ...]], how: How) -> Shaped:
    """Read and shape one file: at once where nothing is wrong with it, else with places for what is."""
    value = read.read_at_once(file)
    whole = shape.shape_at_once(file, value, scales) if value is not None else None
    if whole is not None:
        made = Shaped(file.ref, _packed(whole[0], how), whole[1], (), _digest(file, how))
        return marked(made, json.dumps(value).encode()) if how.is_marked else made
    tree, problems = read.read(file)
    if tree is None or problems:
        return Shaped(file.ref, None, None, problems)
    record, summary, problems = shape.shape(file, tree, scales)
    packed = _packed(record, how) if record is not None else None
    made = Shaped(file.ref, packed, summary, problems, _digest(file, how))
    return marked(made, read.digest(file)) if how.is_marked else made


def marked(shaped: Shaped, said: bytes) -> Shaped:
    """Mark a record by what it says, and its summary."""
    told = json.dumps(shaped.summary, default=_sorted).encode()
    return shaped._replace(said=mark_of(said), told=mark_of(told))


def _sorted(value: object) -> object:
    """Write what JSON does not know: sets in order, so that the same ones are written alike in every process."""
    return sorted(value) if isinstance(value, frozenset) else repr(value)


def _packed(record: Record, how: How) -> bytes | Record:
    return pickle.dumps(record, pickle.HIGHEST_PROTOCOL) if how.is_packed else record


def unpacked(record: bytes | Record) -> Record:
    """Return a record whole."""
    return pickle.loads(record) if isinstance(record, bytes) else record


def _digest(file: SourceFile, how: How) -> bytes:
    return read.digest(file) if how.is_digested else b""


def withpicture(file: SourceFile, shaped: Shaped) -> Shaped:
    """Look at the picture of a figure, so that every page knows its size; other records pass as they are."""
    if file.ref.kind != "figure" or shaped.record is None:
        return shaped
    record = unpacked(shaped.record)
    assert isinstance(record, Figure)
    picture, faults = pictures.look(file, record)
    digest = hashlib.sha256(shaped.digest + (picture.digest if picture else b"")).digest()
    return shaped._replace(picture=picture, faults=faults, digest=digest)
