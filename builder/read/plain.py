"""YAML text -> plain dicts, lists and texts, at a quarter of the price of a tree; or nothing where anything is odd.

Most files are right, and then nobody asks for places. `parse` in `tree` is the authority: whatever this reader does not
take - a duplicate key, an alias, a control character, a second document, a value still to be filled in - is read again
there and told with its place.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from yaml import YAMLError
from yaml._yaml import CParser
from yaml.events import (
    DocumentEndEvent,
    MappingEndEvent,
    MappingStartEvent,
    ScalarEvent,
    SequenceEndEvent,
    SequenceStartEvent,
    StreamEndEvent,
)

from builder.model.records.fields import FILL_IN
from builder.read.tree import CONTROL, MAX_DEPTH, MAX_KEY

Plain = dict[str, Any]
SHORT = 60
"""Characters of what is kept once for all records that one process reads."""


class _OddError(Exception):
    """Leaves the event loop; never leaves this module."""


def parse_plain(text: str) -> Plain | None:
    """Read one document of one mapping; None where anything at all is odd."""
    if CONTROL.search(text) or FILL_IN in text:
        return None
    try:
        following: Callable[[], Any] = CParser(text).get_event
        following()  # the stream's start
        following()  # the document's start, or the stream's end
        value = _mapping(following, 0) if _begins_mapping(following()) else None
        ended = type(following()) is DocumentEndEvent and type(following()) is StreamEndEvent
    except (YAMLError, _OddError, AttributeError):
        return None
    return value if ended and not ("\\" in text and _is_unseen(value)) else None


def _is_unseen(value: object) -> bool:
    """Whether an escape has put a control character into a text."""
    if isinstance(value, str):
        return CONTROL.search(value) is not None
    if isinstance(value, dict):
        return any(CONTROL.search(key) or _is_unseen(inner) for key, inner in value.items())
    return isinstance(value, list) and any(map(_is_unseen, value))


def _begins_mapping(event: Any) -> bool:
    return type(event) is MappingStartEvent and not event.anchor and not event.tag


def _mapping(following: Callable[[], Any], depth: int) -> Plain:
    found: Plain = {}
    while type(event := following()) is not MappingEndEvent:
        if type(event) is not ScalarEvent or event.anchor or event.tag:
            raise _OddError
        key = event.value
        if not key or len(key) > MAX_KEY or key in found:
            raise _OddError
        event = following()
        if type(event) is ScalarEvent and not event.anchor and not event.tag:
            found[key] = _once(event.value)
        else:
            found[key] = _value(event, following, depth + 1)
    return found


def _value(event: Any, following: Callable[[], Any], depth: int) -> object:
    if event.anchor or event.tag or depth >= MAX_DEPTH:
        raise _OddError
    kind = type(event)
    if kind is ScalarEvent:
        return _once(event.value)
    if kind is MappingStartEvent:
        return _mapping(following, depth)
    if kind is not SequenceStartEvent:
        raise _OddError
    items: list[object] = []
    while type(event := following()) is not SequenceEndEvent:
        items.append(_value(event, following, depth + 1))
    return items


def _once(text: str) -> str:
    """Return a short text as it was read first: the ids and units of a book come back in each of its records."""
    return _known.setdefault(text, text) if len(text) <= SHORT else text


_known: dict[str, str] = {}
