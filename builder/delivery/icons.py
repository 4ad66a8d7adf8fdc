"""The book's mark as SVG -> its PNG icons, drawn from the same file so that there is one mark.

It reads no more of SVG than the mark is made of: rectangles, ellipses, and paths of level and upright lines. Anything
else in it is a fault of the templates.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from functools import lru_cache
from io import BytesIO
from itertools import pairwise
from typing import TYPE_CHECKING, NamedTuple
from xml.etree import ElementTree

if TYPE_CHECKING:
    from PIL import ImageDraw


class Icon(NamedTuple):
    """One of the icons."""

    path: str
    size: int
    is_masked: bool
    """Whether a phone may cut it to a shape of its own: then the mark is small enough for any."""


SIZES = (
    Icon("assets/icon-192.png", 192, False), Icon("assets/icon-512.png", 512, False),
    Icon("assets/icon-masked-512.png", 512, True),
)  # fmt: skip
FINER = 4
"""Drawn so many times larger and scaled down, since lines are drawn without soft edges."""
SAFE = 0.7
"""What of its breadth a mark may take that is cut to a circle of four fifths (W3C, Web Application Manifest)."""
Point = tuple[float, float]


@lru_cache(maxsize=2)
def icons(svg: str) -> Mapping[str, bytes]:
    """Return the icons by path; of the mark that every book of a process has, once."""
    # Loaded here: a book that is only checked draws none.
    from PIL import Image, ImageDraw

    root = ElementTree.fromstring(svg)
    breadth = float(root.attrib["viewBox"].split()[2])
    made = {}
    for icon in SIZES:
        side = icon.size * FINER
        image = Image.new("RGB", (side, side), "#ffffff")
        share = SAFE if icon.is_masked else 1.0
        pen = _Pen(ImageDraw.Draw(image), side * share / breadth, side * (1 - share) / 2)
        for shape in root:
            pen.draw(shape)
        out = BytesIO()
        image.reduce(FINER).save(out, "PNG", optimize=True)
        made[icon.path] = out.getvalue()
    return made


class _Pen(NamedTuple):
    canvas: ImageDraw.ImageDraw
    scale: float
    margin: float

    def draw(self, shape: ElementTree.Element) -> None:
        """Draw one element of the mark."""
        kind, of = shape.tag.rpartition("}")[2], shape.attrib
        if kind == "rect":
            x, y = float(of.get("x", 0)), float(of.get("y", 0))
            self._fill((x, y), (x + float(of["width"]), y + float(of["height"])), of.get("fill"))
        elif kind == "ellipse":
            x, y, across, down = (float(of[name]) for name in ("cx", "cy", "rx", "ry"))
            self.canvas.ellipse([*self._at(x - across, y - down), *self._at(x + across, y + down)], fill=of["fill"])
        elif kind == "path":
            self._path(of)
        else:
            raise ValueError(f"the mark holds <{kind}>, which icons are not drawn from")

    def _path(self, of: dict[str, str]) -> None:
        lines = list(_lines(of["d"]))
        if of.get("fill", "none") != "none":
            for points, is_closed in lines:
                if is_closed:
                    self.canvas.polygon([self._at(*point) for point in points], fill=of["fill"])
        half = float(of.get("stroke-width", 1)) / 2
        for points, is_closed in lines if "stroke" in of else ():
            ends = half if is_closed else 0.0
            for (ax, ay), (bx, by) in pairwise(points):
                level = ay == by
                along, across = (ends, half) if level else (half, ends)
                first, last = (min(ax, bx) - along, min(ay, by) - across), (max(ax, bx) + along, max(ay, by) + across)
                self._fill(first, last, of["stroke"])

    def _fill(self, first: Point, last: Point, colour: str | None) -> None:
        right, bottom = self._at(*last)
        self.canvas.rectangle([*self._at(*first), right - 1, bottom - 1], fill=colour)

    def _at(self, x: float, y: float) -> tuple[int, int]:
        return round(x * self.scale + self.margin), round(y * self.scale + self.margin)


def _lines(text: str) -> Iterator[tuple[list[Point], bool]]:
    """Each run of lines of a path as its corners, and whether it is closed."""
    points: list[Point] = []
    for sign, numbers in re.findall(r"([A-Za-z])([^A-Za-z]*)", text):
        given = [float(one) for one in re.findall(r"-?[0-9.]+", numbers)]
        if sign == "M":
            if points:
                yield points, False
            points = [(given[0], given[1])]
        elif sign in "HhVv":
            (x, y), by = points[-1], given[0]
            points.append({"H": (by, y), "h": (x + by, y), "V": (x, by), "v": (x, y + by)}[sign])
        elif sign in "Zz":
            yield [*points, points[0]], True
            points = []
        else:
            raise ValueError(f"the mark's path holds {sign!r}, which icons are not drawn from")
    if points:
        yield points, False
