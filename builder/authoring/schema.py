"""A form -> a JSON Schema in the subset of draft 7 that editors understand.

Records hold every scalar as text, but an editor reads YAML 1.2: an unquoted `12` is a number to it and `true` a truth
value. So a text admits both, unless its pattern says what it looks like.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from builder.model.forms.form import (
    Amount,
    Either,
    Form,
    Items,
    Key,
    Named,
    Number,
    Part,
    Pointer,
    Scaled,
    Text,
    Words,
)
from builder.model.forms.wording import Scales, leave_out, takes
from builder.model.records.fields import FILL_IN, NONE
from builder.model.reference import ID_PATTERN, LONE_SUBJECTS

Schema = dict[str, Any]
DRAFT = "http://json-schema.org/draft-07/schema#"
MADE_BY = "Made by seambook schema from the record types; type it again after an update."
_PLAIN = ["string", "number", "boolean"]
"""What a YAML 1.2 reader makes of a text without quotes."""
_AMOUNT = r"(?:\d+(?:\.\d*)?|\.\d+)(?:[eE][+-]?\d{1,3})?\s+\S.*$"
_PART = "#/definitions/"


def schema_of(part: Part, title: str, scales: Scales) -> Schema:
    """Return the whole schema of one file."""
    parts: dict[str, Schema] = {}
    top = _part(part, scales, parts)
    return {
        "$schema": DRAFT, "$comment": MADE_BY, "title": title, **top,
        **({"definitions": dict(sorted(parts.items()))} if parts else {}),
    }  # fmt: skip


def _part(part: Part, scales: Scales, parts: dict[str, Schema]) -> Schema:
    required = [key.name for key in part.keys if key.required]
    return {
        "description": part.doc, "type": "object", "additionalProperties": False,
        **({"required": required} if required else {}),
        "properties": {key.name: _key(key, scales, parts) for key in part.keys},
    }  # fmt: skip


def _key(key: Key, scales: Scales, parts: dict[str, Schema]) -> Schema:
    said = [key.doc, takes(key.form, scales) + ".", leave_out(key)]
    value = _value(key.form, scales, parts)
    described = {"description": " ".join(one[:1].upper() + one[1:] for one in said if one)}
    # In draft 7 a $ref hides whatever stands beside it.
    return {**described, "allOf": [value]} if "$ref" in value else {**described, **value}


def _value(form: Form, scales: Scales, parts: dict[str, Schema]) -> Schema:
    match form:
        case Part():
            if form.name not in parts:
                parts[form.name] = {}  # a part may hold itself
                parts[form.name] = _part(form, scales, parts)
            return {"$ref": _PART + form.name}
        case Either():
            return {"anyOf": [_value(one, scales, parts) for one in form.forms]}
        case Items():
            return _items(form, scales, parts)
        case Named():
            found: Schema = {
                "type": "object", "propertyNames": _key_name(form.keys),
                "additionalProperties": _value(form.of, scales, parts),
            }  # fmt: skip
            return {"anyOf": [{"enum": [NONE]}, found]} if form.none else found
        case _:
            return _scalar(form, scales)


def _items(form: Items, scales: Scales, parts: dict[str, Schema]) -> Schema:
    item = _value(form.of, scales, parts)
    several: Schema = {"type": "array", "items": item, **({"minItems": 1} if form.none else {})}
    others: list[Schema] = [{"enum": [NONE]}] * form.none + [item] * form.single
    return {"anyOf": [*others, several]} if others else several


def _key_name(form: Form) -> Schema:
    return {key: value for key, value in _scalar(form, {}).items() if key != "type"}


def _scalar(form: Form, scales: Scales) -> Schema:
    match form:
        case Words():
            return {"enum": [*form.words, *(int(word) for word in form.words if word.isdecimal())]}
        case Scaled():
            words = scales.get(form.scale, ())
            return {"enum": list(words)} if words else {"type": "string", "pattern": f"^{ID_PATTERN}$"}
        case Number():
            return _number(form)
        case Amount():
            return {"type": "string", "pattern": rf"^\s*{'[+-]?' if form.signed else '[+]?'}{_AMOUNT}"}
        case Pointer():
            return _pointer(form)
        case Text():
            return _text(form)
    raise TypeError(f"{form} is no scalar")


def _number(form: Number) -> Schema:
    limits: Mapping[str, float | None] = {"minimum": form.least, "maximum": form.most}
    return {
        "type": "integer" if form.whole else "number",
        **{name: limit for name, limit in limits.items() if limit is not None},
    }  # fmt: skip


def _pointer(form: Pointer) -> Schema:
    if len(form.kinds) == 1:
        step = rf"(?:#{ID_PATTERN})?" if form.with_step else ""
        return {"type": ["string", "integer"], "pattern": rf"^(?:{form.kinds[0]}:)?{ID_PATTERN}{step}$"}
    other = "(?:other:)?" if form.lone else ""
    lone = f"|{'|'.join(LONE_SUBJECTS)}" if form.lone else ""
    return {
        "type": "string", "pattern": rf"^(?:{other}(?:{'|'.join(form.kinds)}):{ID_PATTERN}(?:#{ID_PATTERN})?{lone})$",
    }  # fmt: skip


def _text(form: Text) -> Schema:
    longest = {} if form.longest is None else {"maxLength": form.longest}
    if form.pattern:
        kinds = ["string", "integer"] if form.pattern.startswith("^[a-z0-9]") else ["string"]
        return {"type": kinds if len(kinds) > 1 else kinds[0], "pattern": form.pattern, **longest}
    return {"type": _PLAIN, "minLength": 1, **longest, "not": {"const": FILL_IN}}
