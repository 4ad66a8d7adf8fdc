"""From a segment in a few words to what a method of the supplied library comes to on it."""

from __future__ import annotations

from functools import cache
from pathlib import Path
from typing import NamedTuple

from pydantic import TypeAdapter

from builder import layers
from builder.gathered import Gathered
from builder.model.links import Catalogue
from builder.model.records.body import Seam
from builder.model.records.law import Method
from builder.model.reference import Ref
from builder.model.summary import Facts
from builder.model.work import MethodPlan, Remark, SeamPlan, Value
from builder.order import Order
from builder.passes import Way, unpack
from builder.shape.facts import facts_of
from builder.supplied import templates
from builder.work import Shop, work
from builder.work.methods import check_method, plan_method

METHODS = tuple(sorted(path.stem for path in (Path(__file__).parents[2] / "content" / "methods").glob("*.yaml")))
GRAVITY = {"note": 1, "care": 2, "stop": 3}
Sheet = tuple[str, str, str]
"""Thickness, strength, coating."""
_SEAM = TypeAdapter(Seam)
FILM, INSIDE = 0.00002, 0.5
"""Around a made-up segment, in base units: 20 um between the sheets and half a square metre to wax."""


class Library(NamedTuple):
    """The supplied library, gathered and compiled."""

    shop: Shop
    gathered: Gathered
    catalogue: Catalogue


@cache
def library() -> Library:
    """Read once for all tests."""
    chosen = layers.choose(("supplied",), Path.cwd())
    way = Way(Order(chosen.layers, templates(), None, chosen.name))
    gathered = way.gather(way.discover())
    shop = Shop(gathered.shelf, way.compile(gathered), gathered.scales)
    return Library(shop, gathered, way.connect(gathered))


def shop() -> Shop:
    """The library's methods with their calculators."""
    return library().shop


@cache
def seams() -> dict[str, SeamPlan]:
    """The library's seams by name, worked out."""
    shop, gathered, catalogue = library()
    refs = sorted(ref for ref in gathered.summaries if ref.kind == "seam")
    return {ref.id: work(ref, unpack(ref, gathered), catalogue, shop)[0].seam for ref in refs}


def sheets(*thicknesses: str, strength: str = "mild", coating: str = "bare") -> tuple[Sheet, ...]:
    """A stack of one steel, outermost first."""
    return tuple((thickness, strength, coating) for thickness in thicknesses)


def facts(
    stack: tuple[Sheet, ...], *, length: str = "1000 mm", flange: str = "16 mm", count: int | str | None = 20,
    sides: str = "both", depth: str = "60 mm",
) -> Facts:  # fmt: skip
    """What is known of a segment; `count` may be `none` for a joint that the factory did not make."""
    factory = "none" if count == "none" else {"method": "spot", **({"count": count} if count is not None else {})}
    segment = {
        "length": length, "flange": flange, "factory": factory, "reach": {"sides": sides, "depth": depth},
        "sheets": [
            {"panel": "p", "thickness": thickness, "strength": strength, "coating": coating}
            for thickness, strength, coating in stack
        ],
    }  # fmt: skip
    seam = _SEAM.validate_python({
        "title": "T", "summary": "S", "joint": "lap", "segments": [segment], "methods": ["m"], "closes": ["c"],
        "film": "f", "seal": {"profile": "half-round", "size": "6 mm"}, "sources": "none",
    })  # fmt: skip
    return {**facts_of(seam, shop().scales)[0], "inside_area": INSIDE, "film_thickness": FILM}


class Plan:
    """What a method comes to on one segment."""

    def __init__(self, made: MethodPlan) -> None:
        self.made = made

    def value(self, name: str) -> Value:
        """An answer by calculator and output: `spot-layout count`."""
        return next(value for key, value in self.values() if key[1] == name)

    def number(self, name: str) -> float:
        """An answer in the unit it is shown in; fails where there is none."""
        value = self.value(name)
        assert value.number is not None, (name, value)
        return value.number

    def values(self) -> list[tuple[tuple[str, str], Value]]:
        """Every answer by heading, and by calculator and output."""
        return [
            ((one.say, f"{one.calculator} {output}"), value)
            for one in self.made.worked for output, value in zip(one.names, one.answers, strict=True)
        ]  # fmt: skip

    def numbers(self) -> dict[tuple[str, str], float]:
        """The answers that are numbers."""
        return {key: value.number for key, value in self.values() if value.number is not None}

    def remarks(self) -> list[Remark]:
        """Limits that hold or cannot be judged, and what calculators say."""
        return [*self.made.remarks, *(remark for one in self.made.worked for remark in one.remarks)]

    def said(self, level: str) -> list[str]:
        """What is said at a level."""
        return [remark.say for remark in self.remarks() if remark.level == level]

    def gravest(self) -> int:
        """How grave the verdict is."""
        return max((GRAVITY[remark.level] for remark in self.remarks()), default=0)


def plan(method: str, known: Facts) -> Plan:
    """Work a method out; fails where its record is at fault."""
    record = shop().shelf[Ref("method", method)]
    assert isinstance(record, Method)
    assert tuple(check_method(record, shop())) == ()
    return Plan(plan_method(method, record, known, "", shop()))
