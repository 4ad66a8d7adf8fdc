"""The bytes of an SVG drawing -> the same drawing written anew, or the fault of what it may not hold.

A drawing is lines, shapes and text. What an editor keeps in it for itself (its own elements and attributes, metadata,
comments) is left out, what could act or fetch is refused: only names from a list of our own get through.
"""

from __future__ import annotations

import re
from html import escape
from typing import NamedTuple
from xml.parsers import expat

from builder.formula import Fault
from builder.pictures import codes

MOST_BYTES, MOST_ELEMENTS, DEEPEST = 2_000_000, 20_000, 60
SVG, XLINK, XML, XHTML = (
    "http://www.w3.org/2000/svg", "http://www.w3.org/1999/xlink", "http://www.w3.org/XML/1998/namespace",
    "http://www.w3.org/1999/xhtml",
)  # fmt: skip
ELEMENTS = frozenset({
    "svg", "g", "defs", "symbol", "use", "title", "desc", "style", "path", "rect", "circle", "ellipse", "line",
    "polyline", "polygon", "text", "tspan", "textPath", "marker", "pattern", "clipPath", "mask", "linearGradient",
    "radialGradient", "stop",
})  # fmt: skip
LEFT_OUT = frozenset({"metadata"})
_FETCHES = re.compile(r"""\\|(?:image-set|image|src|paint)\s*\(|url\s*\(\s*(?!['"]?\#)|javascript:|data:""", re.I)
"""In an attribute or a style: whatever could fetch or run; a backslash could spell any of these unseen."""
_AT = re.compile(r"@(?!media\b)", re.I)
_NUMBER = r"([0-9]+(?:\.[0-9]+)?)"
_VIEW_BOX = re.compile(rf"\s*-?{_NUMBER}[\s,]+-?{_NUMBER}[\s,]+{_NUMBER}[\s,]+{_NUMBER}\s*")
_PIXELS = re.compile(rf"\s*{_NUMBER}(?:px)?\s*")
_AT_ROOT = ("xmlns", "width", "height", "viewBox")


class Drawing(NamedTuple):
    """A drawing that may be shown."""

    width: float
    height: float
    attributes: str
    """Of its root, beside those that say its size."""
    view_box: str
    inner: str

    def written(self, width: int, height: int) -> bytes:
        """Write it as a file that is so large by itself."""
        root = f'<svg xmlns="{SVG}" width="{width}" height="{height}" viewBox={_quoted(self.view_box)}'
        return f"{root}{self.attributes}>{self.inner}</svg>\n".encode()


class _RefusedError(Exception):
    """Leaves the parser; never leaves this module."""

    def __init__(self, fault: Fault) -> None:
        super().__init__(fault.message)
        self.fault = fault


def read_drawing(data: bytes, name: str) -> Drawing | Fault:
    """Read a drawing; everything in it has been looked at."""
    if len(data) > MOST_BYTES:
        return Fault(codes.TOO_LARGE, f"{name} is larger than {MOST_BYTES // 1_000_000} MB",
                     "draw it simpler, or save it as a PNG", path=("file",))  # fmt: skip
    reader = _Reader(name)
    try:
        reader.parser.Parse(data, True)
        return reader.drawing()
    except _RefusedError as error:
        return error.fault
    except (expat.ExpatError, ValueError, LookupError) as error:  # the latter two: an encoding it does not know
        line = getattr(error, "lineno", 1)
        return Fault(codes.BROKEN, f"{name} is no well-formed SVG, line {line}", "save it anew as SVG", path=("file",))


class _Reader:
    """Takes the parser's events and writes down what may stay."""

    def __init__(self, name: str) -> None:
        self.name = name
        self.parts: list[str] = []
        self.root: dict[str, str] | None = None
        self.open: list[tuple[str, str]] = []
        """Elements around the place: name and id."""
        self.left_out = 0
        """How many elements around the place are left out."""
        self.elements = 0
        self.style: list[str] = []
        self.used: dict[str, int] = {}
        """What is repeated by `use`, and in which line."""
        self.users: set[str] = set()
        """Ids of elements in which something is repeated."""
        self.parser = expat.ParserCreate(namespace_separator=" ")
        self.parser.buffer_text = True
        self.parser.StartDoctypeDeclHandler = self._doctype
        self.parser.StartElementHandler = self._start
        self.parser.EndElementHandler = self._end
        self.parser.CharacterDataHandler = self._text
        self.parser.ProcessingInstructionHandler = self._instruction

    def drawing(self) -> Drawing:
        """Put together what was read to its end."""
        for id_, line in self.used.items():
            if id_ in self.users:  # repeated repeats grow without bound
                raise self._refused(f'<use> of "{id_}", which itself holds a <use>', line)
        assert self.root is not None, "a document that ends without error has a root"
        width, height, view_box = self._size(self.root)
        rest = {key: value for key, value in self.root.items() if key not in _AT_ROOT}
        return Drawing(width, height, _written(rest), view_box, "".join(self.parts))

    def _size(self, root: dict[str, str]) -> tuple[float, float, str]:
        box = _VIEW_BOX.fullmatch(root.get("viewBox", ""))
        sides = [_PIXELS.fullmatch(root.get(key, "")) for key in ("width", "height")]
        if box is not None:
            width, height, said = float(box[3]), float(box[4]), root["viewBox"]
        elif sides[0] is not None and sides[1] is not None:
            width, height = float(sides[0][1]), float(sides[1][1])
            said = f"0 0 {sides[0][1]} {sides[1][1]}"
        else:
            width = height = 0.0
            said = ""
        if not (0 < width < 1e6 and 0 < height < 1e6 and 0.02 < width / height < 50):
            raise _RefusedError(Fault(codes.NO_SIZE, f"{self.name} does not say how large it is",
                                      "give its <svg> a viewBox of four numbers", path=("file",)))  # fmt: skip
        return width, height, " ".join(said.split())

    def _start(self, tag: str, attributes: dict[str, str]) -> None:
        space, _, local = tag.rpartition(" ")
        self.elements += 1
        if self.elements > MOST_ELEMENTS or len(self.open) + self.left_out > DEEPEST:
            raise _RefusedError(Fault(codes.TOO_LARGE, f"{self.name} has too many elements, or too deep ones",
                                      "draw it simpler, or save it as a PNG", path=("file",)))  # fmt: skip
        if self.root is None and (space, local) != (SVG, "svg"):
            raise _RefusedError(Fault(codes.BROKEN, f"{self.name} does not begin with an <svg> of its namespace",
                                      f'write xmlns="{SVG}" into its first element', path=("file",)))  # fmt: skip
        if space == XHTML or local.lower() in ("script", "foreignobject"):
            raise self._refused(f"<{local}>")
        if self.left_out or space != SVG or local in LEFT_OUT:
            self.left_out += 1
            return
        if local not in ELEMENTS:
            raise self._refused(f"<{local}>")
        if self.open and self.open[-1][0] == "style":  # it would part a word in two, and browsers join the halves
            raise self._refused(f"<{local}> in a <style>")
        kept = self._kept(local, attributes)
        self.open.append((local, kept.get("id", "")))
        if self.root is None:
            self.root = kept
        else:
            self.parts.append(f"<{local}{_written(kept)}>")
        if local == "use":
            self.used.setdefault(kept.get("href", "")[1:], self.parser.CurrentLineNumber)
            self.users.update(id_ for _, id_ in self.open if id_)

    def _kept(self, local: str, attributes: dict[str, str]) -> dict[str, str]:
        kept: dict[str, str] = {}
        for name, value in attributes.items():
            space, _, key = name.rpartition(" ")
            if key.lower().startswith("on") and space in ("", SVG):
                raise self._refused(f'the event "{key}" on <{local}>')
            if key == "base" and space == XML:
                raise self._refused(f"xml:base on <{local}>")
            if key == "href" and space in ("", XLINK):
                if not value.startswith("#"):
                    raise self._refused(f'a link to "{value[:40]}" on <{local}>')
                kept["href"] = value
            elif space in ("", XML):
                if _FETCHES.search(value) or (key == "style" and _AT.search(value)):
                    raise self._refused(f'{key}="{value[:40]}" on <{local}>')
                kept[f"xml:{key}" if space == XML else key] = value
        return kept

    def _end(self, _tag: str) -> None:
        if self.left_out:
            self.left_out -= 1
            return
        local, _ = self.open.pop()
        if local == "style":
            self._judge_style()
        if self.open:
            self.parts.append(f"</{local}>")

    def _judge_style(self) -> None:
        text = "".join(self.style)
        self.style.clear()
        found = _FETCHES.search(text) or _AT.search(text)
        if found:
            raise self._refused(f'"{text[found.start() : found.start() + 30].strip()}" in its <style>')

    def _text(self, text: str) -> None:
        if self.left_out or self.root is None:
            return
        if self.open and self.open[-1][0] == "style":
            self.style.append(text)
        self.parts.append(escape(text, quote=False))

    def _instruction(self, target: str, _data: str) -> None:
        if target.lower() == "xml-stylesheet":
            raise self._refused("a style sheet from elsewhere")

    def _doctype(self, *_said: object) -> None:
        raise self._refused("a document type (DOCTYPE)")

    def _refused(self, what: str, line: int | None = None) -> _RefusedError:
        at = self.parser.CurrentLineNumber if line is None else line
        return _RefusedError(Fault(
            codes.UNSAFE_DRAWING, f"{self.name} holds {what}, line {at}", "take it out, or save it as a plain SVG",
            path=("file",),
        ))  # fmt: skip


def _written(attributes: dict[str, str]) -> str:
    return "".join(f" {key}={_quoted(value)}" for key, value in attributes.items())


def _quoted(value: str) -> str:
    """An attribute's value; line ends and tabs stay what they are, which a reader would else take for blanks."""
    return f'"{escape(value)}"'.translate({9: "&#9;", 10: "&#10;", 13: "&#13;"})
