"""The field types records are made of: what each admits, and the marks by which places are found again."""

from collections.abc import Callable
from dataclasses import MISSING, FrozenInstanceError, dataclass, field, fields
from operator import attrgetter
from typing import Annotated, Any, TypeVar, dataclass_transform, get_args, get_origin

from pydantic import AfterValidator, BeforeValidator, ConfigDict, Field, StringConstraints
from pydantic_core import PydanticCustomError

from builder.model.quantity import Quantity, split_quantity
from builder.model.records.bounds import bounded
from builder.model.reference import ID_PATTERN, LONGEST_ID, RUN_STEP_PATTERN

T = TypeVar("T")
def key_of(field: str) -> str:
    """Return the YAML key of a field: Python's own words carry an underscore behind (`if_`)."""
    return field.rstrip("_")


def alias_of(name: str, hint: Any) -> str:
    """Return the YAML key of a field: its alias where it has one."""
    extras = get_args(hint)[1:] if get_origin(hint) is Annotated else ()
    aliases = [extra.alias for extra in extras if getattr(extra, "alias", None)]
    return str(aliases[0]) if aliases else key_of(name)


STRICT = ConfigDict(extra="forbid", alias_generator=key_of)
"""Every record refuses keys that it does not know."""


@dataclass_transform(kw_only_default=True, frozen_default=True, field_specifiers=(field,))
def record(cls: type[T]) -> type[T]:
    """Make a class a record part: a frozen dataclass that pydantic can fill and that refuses unknown keys.

    A dataclass writes and compiles six methods for each class, and a hundred classes wait for that in every command.
    Here all share theirs.
    """
    made = dataclass(init=False, repr=False, eq=False, slots=True, kw_only=True)(cls)
    made.__pydantic_config__ = STRICT  # type: ignore[attr-defined]
    for name, method in _SHARED.items():
        setattr(made, name, method)
    names = made.__slots__  # type: ignore[attr-defined]
    made.__setstate__ = _restore([made.__dict__[name].__set__ for name in names])  # type: ignore[attr-defined]
    made.__getstate__ = _state_of(names)  # type: ignore[method-assign, assignment]
    return made


def _init(self: Any, **given: object) -> None:
    for one in fields(self):
        if one.name in given:
            value = given.pop(one.name)
        elif one.default is not MISSING:
            value = one.default
        elif one.default_factory is not MISSING:
            value = one.default_factory()
        else:
            raise TypeError(f"{type(self).__name__} lacks {one.name}")
        object.__setattr__(self, one.name, value)
    if given:
        raise TypeError(f"{type(self).__name__} has no {', '.join(given)}")


def _repr(self: Any) -> str:
    return f"{type(self).__name__}({', '.join(f'{name}={getattr(self, name)!r}' for name in self.__slots__)})"


def _equal(self: Any, other: object) -> bool:
    return bool(self.__getstate__() == other.__getstate__()) if type(other) is type(self) else NotImplemented


def _hash(self: Any) -> int:
    return hash(self.__getstate__())


def _keep(self: object, name: str, *_: object) -> None:
    raise FrozenInstanceError(f"cannot change {name} of {type(self).__name__}")


_SHARED = {
    "__init__": _init, "__repr__": _repr, "__eq__": _equal, "__hash__": _hash, "__setattr__": _keep,
    "__delattr__": _keep,
}  # fmt: skip


def _state_of(names: tuple[str, ...]) -> Callable[[object], tuple[Any, ...]]:
    # Records travel between processes as bytes; the standard way asks for the list of fields at each of them.
    if len(names) > 1:
        get = attrgetter(*names)
        return lambda self: get(self)
    return lambda self: tuple(getattr(self, name) for name in names)


def _restore(puts: list[Callable[[object, Any], None]]) -> Callable[[object, tuple[Any, ...]], None]:
    def restore(self: object, state: tuple[Any, ...]) -> None:
        for put, value in zip(puts, state, strict=True):
            put(self, value)

    return restore


UNKNOWN = "unknown"
NONE = "none"
FILL_IN = "FILL IN"
"""Stands in a fresh record for each value that its author has not written yet."""


@dataclass(frozen=True, slots=True)
class Points:
    """Mark: the text names a record; one kind means a bare id, several mean `kind:id`."""

    kinds: tuple[str, ...]
    lone: bool = False
    """Whether `body` and `welder` may stand here, and `other:` before a reference."""
    with_step: bool = False
    """Whether of one kind a step may be named behind the id: `id#step`."""


@dataclass(frozen=True, slots=True)
class StepOfRun:
    """Mark: the text names a step of a job, `procedure@side#key`, and with `measured` one of its measures behind it."""

    measured: bool = False


@dataclass(frozen=True, slots=True)
class Word:
    """Mark: the text is one of the words of a scale record, such as `strength`."""

    scale: str


@dataclass(frozen=True, slots=True)
class Measures:
    """Mark: the quantity must have this dimension, given by an example unit."""

    example: str


@dataclass(frozen=True, slots=True)
class Formula:
    """Mark: the text is an expression of the formula language."""


@dataclass(frozen=True, slots=True)
class Marked:
    """Mark: the text is Markdown and may hold references."""


@dataclass(frozen=True, slots=True)
class BelowHead:
    """Mark: the value is what stands below the head of a Markdown file, line by line, so that each keeps its place."""


def _line(text: str) -> str:
    if "\n" in text.strip():
        raise PydanticCustomError("one_line", "this must stand on one line")
    return text.strip()


def _quantity(text: Any) -> Quantity:
    found = split_quantity(text) if isinstance(text, str) else None
    if found is None or not found.unit:
        raise PydanticCustomError("quantity", "this must be a number, a space and a unit")
    return found


def _amount(text: Any) -> Quantity:
    found = split_quantity(text) if isinstance(text, str) else None
    if found is None or found.value < 0:
        raise PydanticCustomError("amount", "this must be a number, with a space and a unit where it has one")
    return found


def _size(text: Any) -> Quantity:
    found = _quantity(text)
    if found.value < 0:
        raise PydanticCustomError("below_zero", "this cannot be below zero")
    return found


def _size_or_unknown(text: Any) -> Quantity | None:
    return None if text == UNKNOWN else _size(text)


def _yes_no(text: Any) -> bool:
    if text not in ("yes", "no"):
        raise PydanticCustomError("yes_no", "this must be yes or no")
    return bool(text == "yes")


def _stated(value: Any) -> Any:
    """`none` is written where there is nothing; an empty list leaves open whether it was forgotten."""
    if value == NONE:
        return ()
    if value in ([], ""):
        raise PydanticCustomError("say_none", "this is empty")
    return value


def _stated_map(value: Any) -> Any:
    return {} if value == NONE else value


def _one_or_many(value: Any) -> Any:
    return [value] if isinstance(value, str) else value


Line = Annotated[str, StringConstraints(min_length=1, max_length=400), AfterValidator(_line), Marked()]
"""One line of prose; inline Markdown."""
Prose = Annotated[str, StringConstraints(min_length=1, max_length=20000), AfterValidator(bounded), Marked()]
"""Paragraphs of prose; Markdown."""
Name = Annotated[str, StringConstraints(min_length=1, max_length=120), AfterValidator(_line)]
"""A title or a label; plain text."""
Plain = Annotated[str, StringConstraints(min_length=1, max_length=1000), AfterValidator(_line)]
"""One line of plain text, as long as it needs to be."""
LineOfText = Annotated[str, StringConstraints(max_length=20000), Marked()]
"""One line of a Markdown file as it stands there; it may be empty."""
Id = Annotated[str, StringConstraints(pattern=rf"^{ID_PATTERN}$", max_length=LONGEST_ID)]
"""A kebab-case id."""
Variable = Annotated[str, StringConstraints(pattern=r"^[a-z][a-z0-9_]*$", max_length=60)]
"""A snake_case name in formulas."""
YesNo = Annotated[bool, BeforeValidator(_yes_no)]
Count = Annotated[int, Field(ge=1, le=100_000)]
"""How many of something there are; where there is none the key is left out."""
Minutes = Annotated[float, Field(ge=0, le=100_000)]
Places = Annotated[int, Field(ge=0, le=9)]
"""Decimal places."""
AnyQuantity = Annotated[Quantity, BeforeValidator(_quantity), Measures("")]
AnyAmount = Annotated[Quantity, BeforeValidator(_amount), Measures("")]
"""A quantity, or a bare number of things that are counted."""
Length = Annotated[Quantity, BeforeValidator(_size), Measures("mm")]
Area = Annotated[Quantity, BeforeValidator(_size), Measures("m**2")]
Duration = Annotated[Quantity, BeforeValidator(_size), Measures("min")]
Temperature = Annotated[Quantity, BeforeValidator(_quantity), Measures("degC")]
LengthOrUnknown = Annotated[Quantity | None, BeforeValidator(_size_or_unknown), Measures("mm")]
Stated = Annotated[tuple[T, ...], BeforeValidator(_stated)]
"""A list that must be there: `none` where there is nothing."""
StatedMap = Annotated[dict[Variable, T], BeforeValidator(_stated_map)]
Many = Annotated[tuple[T, ...], BeforeValidator(_one_or_many)]
"""One value or a list of them."""
Expression = Annotated[str, StringConstraints(min_length=1, max_length=2000), Formula()]
"""A formula, or a condition."""

PanelId = Annotated[Id, Points(("panel",))]
SeamId = Annotated[Id, Points(("seam",))]
CavityId = Annotated[Id, Points(("cavity",))]
OpeningId = Annotated[Id, Points(("opening",))]
MethodId = Annotated[Id, Points(("method",))]
ActId = Annotated[Id, Points(("act",))]
StateId = Annotated[Id, Points(("state",))]
RuleId = Annotated[Id, Points(("rule",))]
ProcedureId = Annotated[Id, Points(("procedure",))]
CalculatorId = Annotated[Id, Points(("calculator",))]
TableId = Annotated[Id, Points(("table",))]
SupplyId = Annotated[Id, Points(("supply",))]
ToolId = Annotated[Id, Points(("tool",))]
HazardId = Annotated[Id, Points(("hazard",))]
TermId = Annotated[Id, Points(("term",))]
SourceId = Annotated[Id, Points(("source",))]
FigureId = Annotated[Id, Points(("figure",))]
VehicleId = Annotated[Id, Points(("vehicle",))]
StepId = Annotated[str, StringConstraints(pattern=rf"^{RUN_STEP_PATTERN}$", max_length=250), StepOfRun()]
"""A step of a job: `procedure@left#key`, or `procedure@#key` where the car has no side of it."""
ReadingId = Annotated[
    str, StringConstraints(pattern=rf"^{RUN_STEP_PATTERN}/.+$", max_length=400), StepOfRun(measured=True)
]
"""A measure of a job's step: `procedure@left#key/name of the measure`."""
Subject = Annotated[str, Points(("seam", "panel", "cavity", "opening"), lone=True)]
"""What a step is done on: `seam:id`, `other:panel:id`, `body` or `welder`."""
