"""YAML text -> a tree with a place for every key and value, or the problems that kept it from becoming one.

`parse` is the entry point. libyaml's events go straight into the tree; every scalar stays text.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from typing import Any, NoReturn

from yaml import MarkedYAMLError, YAMLError
from yaml._yaml import CParser
from yaml.events import (
    AliasEvent,
    MappingEndEvent,
    MappingStartEvent,
    ScalarEvent,
    SequenceEndEvent,
    StreamEndEvent,
)

from builder.model.place import Span
from builder.model.problem import Code, Problem, Related
from builder.model.tree import Entry, Mapping, Node, Scalar, Sequence
from builder.read import codes

MAX_DEPTH = 32
MAX_BYTES = 2_000_000
MAX_KEY = 120
QUOTES, BLOCKS = ("'", '"'), ("|", ">")
CONTROL = re.compile("[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f\u2028\u2029\ufeff\ufffe\uffff]")
"""What no text needs; three of them end a line for libyaml and for no editor, and every place behind would be wrong."""


_SAID = {
    "did not find expected ',' or ']'": ("a list in brackets is not closed before this", "close it with ]"),
    "did not find expected ',' or '}'": ("a mapping in braces is not closed before this", "close it with }"),
    "did not find expected key": (
        "this line fits neither the list nor the keys above it", "set it as far in as the lines it belongs to",
    ),
    "did not find expected '-' indicator": (
        "this line is no item of the list above it",
        "begin it with a hyphen, or set it as far in as the key it belongs to",
    ),
    "could not find expected ':'": (
        "the line before this is no key with a value", "put a colon and a space behind its key",
    ),
    "mapping values are not allowed in this context": (
        "no key can stand here, so the colon makes no sense",
        "put quotes round text that holds a colon, or set the line as far in as the keys it belongs to",
    ),
    "found character that cannot start any token": (
        "nothing can begin with this character", "put quotes round the text; indent with blanks, not with tabs",
    ),
    "found unexpected end of stream": ("a quote is opened and never closed", "close it"),
}  # fmt: skip
"""What libyaml says -> what an author is told, and what to do."""


_TOO_DEEP = (f"this is nested {MAX_DEPTH} levels deep", "close a bracket, or put quotes round the text")


class _RefusedError(Exception):
    """Leaves the event loop with the one problem that ends reading this file; never leaves this module."""

    def __init__(self, problem: Problem) -> None:
        super().__init__(problem.message)
        self.problem = problem


def parse(text: str, file: str) -> tuple[Mapping | None, tuple[Problem, ...]]:
    """Read one document. Duplicate keys are all reported; anything worse ends the reading at once."""
    control = CONTROL.search(text)
    if control:
        return None, (control_character(text, control.start(), file),)
    reader = _Reader(text, file)
    try:
        return reader.document(), tuple(reader.problems)
    except _RefusedError as refused:
        return None, (*reader.problems, refused.problem)
    except MarkedYAMLError as error:
        return None, (*reader.problems, reader.not_yaml(error))
    except YAMLError as error:
        return None, (Problem(codes.NOT_YAML, Span(file, 1, 1, 2), f"this is not YAML: {error}", "mend it"),)


def control_character(text: str, at: int, file: str) -> Problem:
    """Tell a control character at its place."""
    line = text.count("\n", 0, at) + 1
    column = at - (text.rfind("\n", 0, at) + 1) + 1
    return Problem(codes.NOT_TEXT, Span(file, line, column, column + 1), *control_said(text[at]))


def control_said(letter: str) -> tuple[str, str]:
    """Say what is wrong with a control character, and what to do."""
    return f"the control character U+{ord(letter):04X} stands in the text", "take it out"


class _Reader:
    def __init__(self, text: str, file: str) -> None:
        self.lines = text.split("\n")
        self.file = file
        self.problems: list[Problem] = []
        self.next: Callable[[], Any] = CParser(text).get_event

    def document(self) -> Mapping | None:
        self.next()  # the stream's start
        if isinstance(self.next(), StreamEndEvent):
            self.refuse(codes.NOT_A_RECORD, 1, 1, 2, "the file is empty", "write the record, or delete the file")
        node = self.node(self.next(), 0)
        self.next()  # the document's end
        after = self.next()
        if not isinstance(after, StreamEndEvent):
            line = self.inside(after.start_mark.line + 1, 1)[0]
            self.refuse(codes.NOT_A_RECORD, line, 1, 4, "a second document begins here", "keep one record in a file")
        if not isinstance(node, Mapping):
            self.refuse(
                codes.NOT_A_RECORD, node.line, node.column, node.end,
                "the file is not a mapping of keys to values", "begin it with a key, such as title:",
            )  # fmt: skip
        return node

    def node(self, event: Any, depth: int) -> Node:
        kind = type(event)
        if kind is ScalarEvent:
            return self.scalar(event)
        mark = event.start_mark
        line, column = self.inside(mark.line + 1, mark.column + 1)
        if kind is AliasEvent or event.anchor or event.tag:
            self.refuse_alias(line, column)
        if depth >= MAX_DEPTH:
            self.refuse(codes.TOO_DEEP, line, column, column + 1, *_TOO_DEEP)
        if kind is MappingStartEvent:
            return self.mapping(line, column, depth)
        items: list[Node] = []
        while type(event := self.next()) is not SequenceEndEvent:
            items.append(self.node(event, depth + 1))
        return Sequence(tuple(items), line, column, self.end_of(line, column))

    def mapping(self, line: int, column: int, depth: int) -> Mapping:
        entries: dict[str, Entry] = {}
        while type(event := self.next()) is not MappingEndEvent:
            key = self.node(event, depth + 1)
            if not isinstance(key, Scalar) or not key.text or len(key.text) > MAX_KEY:
                self.refuse(codes.ODD_KEY, key.line, key.column, key.end, "this is no key", "write a plain word")
            value = self.node(self.next(), depth + 1)
            if key.text not in entries:
                entries[key.text] = Entry(key, value)
            else:
                self.tell_duplicate(key, entries[key.text].key)
        return Mapping(entries, line, column, self.end_of(line, column))

    def tell_duplicate(self, key: Scalar, first: Scalar) -> None:
        place = Span(self.file, first.line, first.column, first.end)
        self.problems.append(Problem(
            codes.DUPLICATE_KEY, Span(self.file, key.line, key.column, key.end),
            f'the key "{key.text}" stands here a second time', "keep one of the two",
            see=(Related(place, "the first one"),),
        ))  # fmt: skip

    def scalar(self, event: Any) -> Scalar:
        start, finish, text, style = event.start_mark, event.end_mark, event.value, event.style
        line, column = self.inside(start.line + 1, start.column + 1)
        if event.anchor or (event.tag and event.tag != "!"):
            self.refuse_alias(line, column)
        quoted = style in QUOTES
        if style == '"' and (unseen := CONTROL.search(text)):  # written as an escape
            self.refuse(codes.NOT_TEXT, line, column, column + 1, *control_said(unseen[0]))
        if finish.line == start.line and style not in BLOCKS:
            end = column + finish.column - start.column
            return Scalar(text, line, column, end, end - column == len(text) + 2 * quoted, quoted)
        return Scalar(text, line, column, self.end_of(line, column), False, quoted)

    def inside(self, line: int, column: int) -> tuple[int, int]:
        """Return a place in the file: libyaml begins a line behind a last one that has no end."""
        return (line, column) if line <= len(self.lines) else (len(self.lines), len(self.lines[-1]) + 1)

    def refuse_alias(self, line: int, column: int) -> NoReturn:
        self.refuse(
            codes.ALIAS, line, column, column + 1,
            "anchors, aliases and tags are not used in records", "write the value out in full",
        )  # fmt: skip

    def end_of(self, line: int, column: int) -> int:
        """Column past the last character of a line, where a value goes on below it."""
        return max(len(self.lines[line - 1].rstrip()) + 1, column + 1) if line <= len(self.lines) else column + 1

    def refuse(self, code: Code, line: int, column: int, end: int, message: str, do: str) -> NoReturn:
        raise _RefusedError(Problem(code, Span(self.file, line, column, end), message, do))

    def not_yaml(self, error: MarkedYAMLError) -> Problem:
        mark: Any = error.problem_mark or error.context_mark
        line, column = (mark.line + 1, mark.column + 1) if mark else (1, 1)
        if "nesting depth" in str(error.problem):  # libyaml reads ahead and stops by itself far beyond our bound
            return Problem(codes.TOO_DEEP, Span(self.file, line, column, column + 1), *_TOO_DEEP)
        said, do = _SAID.get(str(error.problem), (f"this is not YAML: {error.problem}", "mend it here or just above"))
        if line > len(self.lines):
            said = said.replace("the line before this", "this line")
        line, column = self.inside(line, column)
        begun: Any = error.context_mark
        see: tuple[Related, ...] = ()
        if begun and (begun.line, begun.column) != (line - 1, column - 1):
            place = Span(self.file, begun.line + 1, begun.column + 1, begun.column + 2)
            see = (Related(place, "what is read here began there"),)
        return Problem(codes.NOT_YAML, Span(self.file, line, column, column + 1), said, do, see=see)
