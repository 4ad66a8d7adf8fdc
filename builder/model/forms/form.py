"""A record type -> its form: which keys, which values each takes, which may be left out.

Fresh records and schemas are both made from forms, and forms from nothing but the types, so neither can be wrong about
what a record takes.
"""

from __future__ import annotations

from dataclasses import MISSING, dataclass, fields, is_dataclass
from types import NoneType, UnionType
from typing import Annotated, Any, Literal, NamedTuple, Union, get_args, get_origin, get_type_hints

from builder.model.forms.docs import about, field_docs
from builder.model.records import fields as marks
from builder.model.records.fields import NONE, UNKNOWN, alias_of


@dataclass(frozen=True, slots=True)
class Words:
    """One of these words."""

    words: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Scaled:
    """One of the words of a scale record."""

    scale: str


@dataclass(frozen=True, slots=True)
class Number:
    """A number within limits."""

    whole: bool
    least: float | None = None
    most: float | None = None


@dataclass(frozen=True, slots=True)
class Amount:
    """A number, a space and a unit."""

    example: str
    """A unit of the dimension; empty where any will do."""
    signed: bool


@dataclass(frozen=True, slots=True)
class Pointer:
    """A reference: of one kind a bare id, of several `kind:id`."""

    kinds: tuple[str, ...]
    lone: bool
    with_step: bool = False
    """Of one kind: a step may stand behind the id."""


@dataclass(frozen=True, slots=True)
class Text:
    """A text."""

    pattern: str = ""
    longest: int | None = None
    marked: bool = False
    """Markdown."""
    formula: bool = False
    one_line: bool = False


@dataclass(frozen=True, slots=True)
class Items:
    """A list."""

    of: Form
    none: bool = False
    """The word none where there is nothing; an empty list is refused."""
    single: bool = False
    """One value may stand without a list around it."""


@dataclass(frozen=True, slots=True)
class Named:
    """A mapping whose keys the author chooses."""

    keys: Form
    of: Form
    none: bool = False


@dataclass(frozen=True, slots=True)
class Either:
    """Several forms, any of which will do."""

    forms: tuple[Form, ...]


class Key(NamedTuple):
    """One key of a part."""

    name: str
    form: Form
    required: bool
    default: str
    """What holds where it is left out; empty where that goes without saying."""
    doc: str


@dataclass(frozen=True, slots=True)
class Part:
    """A mapping of known keys."""

    name: str
    doc: str
    keys: tuple[Key, ...]


Form = Words | Scaled | Number | Amount | Pointer | Text | Items | Named | Either | Part


def form_of_record(record_type: type[Any]) -> Part:
    """Return the form of a record or a part of one."""
    hints, docs = get_type_hints(record_type, include_extras=True), field_docs(record_type)
    keys = []
    for field in fields(record_type):
        hint = hints[field.name]
        required = field.default is MISSING and field.default_factory is MISSING
        default = "" if required or field.default is MISSING else _said(field.default)
        keys.append(Key(alias_of(field.name, hint), form_of(hint), required, default, docs.get(field.name, "")))
    return Part(record_type.__name__, about(record_type), tuple(keys))


def form_of(hint: Any) -> Form:
    """Return the form of an annotation; a type that records do not use is a fault."""
    origin, arguments = get_origin(hint), get_args(hint)
    if origin is Annotated:
        return _annotated(arguments[0], arguments[1:])
    if origin in (Union, UnionType):
        members = tuple(form_of(member) for member in arguments if member is not NoneType)
        return members[0] if len(members) == 1 else Either(members)
    if origin is Literal:
        return Words(tuple(str(word) for word in arguments))
    if origin is tuple:
        return Items(form_of(arguments[0]))
    if origin is dict:
        return Named(form_of(arguments[0]), form_of(arguments[1]))
    if is_dataclass(hint) and isinstance(hint, type):
        return form_of_record(hint)
    return _bare(hint)


def _bare(hint: Any) -> Form:
    if hint is bool:
        return Words(("yes", "no"))
    if hint in (int, float):
        return Number(whole=hint is int)
    if hint is str:
        return Text()
    raise TypeError(f"records do not hold {hint}")


def _annotated(inner: Any, extras: tuple[Any, ...]) -> Form:
    checks = {getattr(extra, "func", None) for extra in extras}
    for extra in extras:
        match extra:
            case marks.Points():
                return Pointer(extra.kinds, extra.lone, extra.with_step)
            case marks.BelowHead():
                return Text(marked=True)
            case marks.Word():
                return Scaled(extra.scale)
            case marks.Measures():
                amount = Amount(extra.example, signed=marks._quantity in checks)
                if marks._amount in checks:
                    return Either((Number(whole=False, least=0, most=None), amount))
                return Either((Words((UNKNOWN,)), amount)) if marks._size_or_unknown in checks else amount
    form = form_of(inner)
    match form:
        case Items():
            return Items(form.of, none=marks._stated in checks, single=marks._one_or_many in checks)
        case Named():
            return Named(form.keys, form.of, none=marks._stated_map in checks)
        case Number():
            return Number(form.whole, _limit(extras, "ge"), _limit(extras, "le"))
        case Text():
            return _text(extras, checks)
    return form


def _text(extras: tuple[Any, ...], checks: set[Any]) -> Text:
    pattern = _limit(extras, "pattern")
    return Text(
        pattern or "", _limit(extras, "max_length"),
        marked=any(isinstance(extra, marks.Marked) for extra in extras),
        formula=any(isinstance(extra, marks.Formula) for extra in extras),
        one_line=marks._line in checks,
    )  # fmt: skip


def _limit(extras: tuple[Any, ...], name: str) -> Any:
    """Find a limit among the library's own marks, which may stand inside a field's description."""
    within = (found for extra in extras for found in (extra, *getattr(extra, "metadata", ())))
    return next((value for one in within if (value := getattr(one, name, None)) is not None), None)


def _said(default: object) -> str:
    if isinstance(default, bool):
        return "yes" if default else "no"
    return "" if default is None or default == () else str(default)


__all__ = [
    "NONE", "Amount", "Either", "Form", "Items", "Key", "Named", "Number", "Part", "Pointer", "Scaled", "Text", "Words",
    "form_of", "form_of_record",
]  # fmt: skip
