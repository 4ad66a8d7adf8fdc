"""The layers' own files -> what they say about the book and about units; of several layers the last that says it wins.

These files are no records: `book.yaml`, `units.yaml`, `house-style.yaml`, `planning.yaml` and `training.yaml` lie
beside the folders of records.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Generic, NamedTuple, TypeVar

from builder import formula, read, shape
from builder.model.files import Layer, SourceFile
from builder.model.problem import Problem
from builder.model.records.planning import Planning
from builder.model.records.settings import BookSettings
from builder.model.records.style import HouseStyle
from builder.model.records.training import Training
from builder.model.records.units import UnitSettings
from builder.model.reference import Ref
from builder.model.tree import Mapping, follow, span_of

S = TypeVar("S")
D = TypeVar("D")
NO_BOOK = BookSettings(name="Seambook", id="seambook", title="Seambook", caution=(), authority=())
"""Stands in where no layer says anything about the book."""


def files(layers: Iterable[Layer]) -> list[SourceFile]:
    """List these files of every layer, whether they are there or not."""
    return [
        SourceFile(layer.path / name, "", Ref("settings", "settings"))
        for layer in layers for name in read.SETTINGS_FILES
    ]  # fmt: skip


def book_settings(layers: Sequence[Layer]) -> tuple[BookSettings, tuple[Problem, ...]]:
    """Return the book's own words, each layer's over those below it, with what is wrong in any."""
    found = NO_BOOK
    problems: list[Problem] = []
    for layer in layers:
        settings, _, more = _read(layer, read.BOOK_FILE, BookSettings)
        problems += more
        found = settings.over(found) if settings else found
    return found, tuple(problems)


class Said(NamedTuple, Generic[S]):
    """What a layer's file says, and where."""

    said: S
    tree: Mapping | None = None
    """None where no layer says it."""
    shown: str = ""

    def placed(self, faults: Iterable[formula.Fault]) -> list[Problem]:
        """Return faults of the file as problems at their places in it."""
        return [_placed(fault, self.tree, self.shown) for fault in faults] if self.tree is not None else []


def house_style(layers: Sequence[Layer]) -> tuple[Said[HouseStyle], tuple[Problem, ...]]:
    """Return the style of the house, with what is wrong in any layer's file; without one nothing is objected to."""
    return _last(layers, read.STYLE_FILE, HouseStyle, HouseStyle())


def planning(layers: Sequence[Layer]) -> tuple[Said[Planning | None], tuple[Problem, ...]]:
    """Return how jobs are planned, with what is wrong in any layer's file; None where no layer says it."""
    return _last(layers, read.PLANNING_FILE, Planning, None)


def training(layers: Sequence[Layer]) -> tuple[Said[Training | None], tuple[Problem, ...]]:
    """Return how new people are taught, with what is wrong in any layer's file; None where no layer says it."""
    return _last(layers, read.TRAINING_FILE, Training, None)


def _last(layers: Sequence[Layer], name: str, type_: type[S], without: D) -> tuple[Said[S | D], tuple[Problem, ...]]:
    found: Said[S | D] = Said(without)
    problems: list[Problem] = []
    for layer in layers:
        settings, tree, more = _read(layer, name, type_)
        problems += more
        if settings is not None:
            found = Said(settings, tree, f"{layer.label}/{name}")
    return found, tuple(problems)


def unit_pairs(layers: Sequence[Layer]) -> tuple[formula.Pairs, tuple[Problem, ...]]:
    """Return which unit stands for which, with what is wrong in any layer's file; without one every unit stays."""
    found: formula.Pairs = {}
    problems: list[Problem] = []
    for layer in layers:
        settings, tree, more = _read(layer, read.UNITS_FILE, UnitSettings)
        problems += more
        if settings is not None and tree is not None:
            found, faults = formula.make_pairs(settings)
            faults += formula.make_usual(settings)[1]
            problems += (_placed(fault, tree, f"{layer.label}/{read.UNITS_FILE}") for fault in faults)
    return found, tuple(problems)


def usual_units(layers: Sequence[Layer]) -> formula.Usual:
    """Return the units that values are shown in where records name none; their faults are told with the pairs."""
    read_ones = (_read(layer, read.UNITS_FILE, UnitSettings)[0] for layer in layers)
    return next((formula.make_usual(one)[0] for one in reversed(list(read_ones)) if one is not None), {})


def unit_names(layers: Sequence[Layer]) -> tuple[tuple[str, ...], ...]:
    """Return what else units are called, by the last layer that has the file; its faults are told with the pairs."""
    read_ones = (_read(layer, read.UNITS_FILE, UnitSettings)[0] for layer in layers)
    return next((one.names for one in reversed(list(read_ones)) if one is not None), ())


def _read(layer: Layer, name: str, type_: type[S]) -> tuple[S | None, Mapping | None, tuple[Problem, ...]]:
    shown = f"{layer.label}/{name}"
    tree, problems = read.read_settings(layer.path, name, shown)
    if tree is None:
        return None, None, problems
    settings, more = shape.shape_settings(type_, tree, shown)
    return settings, tree, (*problems, *more)


def _placed(fault: formula.Fault, tree: Mapping, shown: str) -> Problem:
    node, _ = follow(tree, fault.path)
    return Problem(fault.code, span_of(node, shown), fault.message, fault.do)
