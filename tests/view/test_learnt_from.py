"""The mark by which a page notices that a record was changed since something was learnt from it."""

from __future__ import annotations

import dataclasses
from pathlib import Path

from builder.model.files import Layer
from builder.model.records.fields import record
from builder.model.reference import Ref
from builder.order import Order
from builder.passes import Way, unpack
from builder.supplied import templates
from builder.view.learnt_from import fingerprint
from tests.books.laying import LABEL, TINY, edit, lay


@record
class _Before:
    """A record as an edition had it."""

    title: str
    parts: tuple[str, ...]


@record
class _Later:
    """The same in a later edition, with a key that may be left out."""

    title: str
    parts: tuple[str, ...]
    note: str | None = None
    more: dict[str, str] = dataclasses.field(default_factory=dict)


def mark(folder: Path, name: str, *changes: tuple[str, str]) -> str:
    """Change the tiny book's procedure; return its mark."""
    content = lay(folder / name, TINY)
    edit(content, "procedures/weld-cover.yaml", *changes)
    way = Way(Order((Layer(content, LABEL),), templates()))
    return fingerprint(unpack(Ref("procedure", "weld-cover"), way.gather(way.discover())))


def test_a_changed_word_is_noticed_and_a_comment_is_none(tmp_path: Path) -> None:
    before = mark(tmp_path, "before")
    assert mark(tmp_path, "comment", ("title: Weld the cover on", "title: Weld the cover on  # by hand")) == before
    assert mark(tmp_path, "word", ("Out of the holes.", "Out of every hole.")) != before


def test_a_key_of_a_later_edition_changes_no_record_that_does_without_it() -> None:
    said = {"title": "Weld", "parts": ("a", "b")}
    assert fingerprint(_Before(**said)) == fingerprint(_Later(**said))  # type: ignore[arg-type]
    changed = fingerprint(_Later(**said, note="with care"))  # type: ignore[arg-type]
    assert changed != fingerprint(_Later(**said))  # type: ignore[arg-type]
    assert fingerprint(_Later(title="Weld", parts=("b", "a"))) != fingerprint(_Later(**said))  # type: ignore[arg-type]
