"""The form of what a page saves, a job or people's training -> the schema of its file: JSON, in the subset of draft 7
that job_check.js reads.

It differs from a record's schema, since a file is written by a program and read again by later ones. Keys that are not
known are admitted, as they are kept. A key that may be left out may also stand with nothing in it.
"""

from __future__ import annotations

from typing import Any

from builder.model.forms.form import Form, Items, Key, Named, Number, Part, Pointer, Text, Words, form_of_record
from builder.model.records.job import JobFile
from builder.model.records.training_file import TrainingFile
from builder.model.reference import ID_PATTERN

Schema = dict[str, Any]
MOST = 20_000
"""Items of a list, and entries of a mapping; a job of 600 steps needs a few thousand."""
NOTHING: tuple[str | None, ...] = (None, "")
LEFT_OUT = ("was",)
"""Keys of a record that a file has no use for."""


def job_file_schema(*, described: bool = True) -> Schema:
    """Return the schema of a job's file; without its descriptions it is what a page checks files by."""
    return _value(form_of_record(JobFile), described)


def training_file_schema(*, described: bool = True) -> Schema:
    """Return the schema of a file of people's training."""
    return _value(form_of_record(TrainingFile), described)


def _part(part: Part, described: bool) -> Schema:
    keys = [key for key in part.keys if key.name not in LEFT_OUT]
    required = [key.name for key in keys if key.required]
    return {
        **({"description": part.doc} if described else {}), "type": "object",
        **({"required": required} if required else {}),
        "properties": {key.name: _key(key, described) for key in keys},
    }  # fmt: skip


def _key(key: Key, described: bool) -> Schema:
    said = {"description": key.doc} if described and key.doc else {}
    value = _value(key.form, described)
    return {**said, **(value if key.required else {"anyOf": [{"enum": list(NOTHING)}, value]})}


def _value(form: Form, described: bool) -> Schema:
    match form:
        case Part():
            return _part(form, described)
        case Items():
            return {"type": "array", "maxItems": MOST, "items": _value(form.of, described)}
        case Named():
            return {
                "type": "object", "maxProperties": MOST, "propertyNames": _value(form.keys, described),
                "additionalProperties": _value(form.of, described),
            }  # fmt: skip
        case _:
            return _scalar(form)


def _scalar(form: Form) -> Schema:
    match form:
        case Words(words=("yes", "no")):
            return {"type": "boolean"}
        case Words():
            return {"enum": [int(word) if word.isdecimal() else word for word in form.words]}
        case Number():
            limits = {"minimum": form.least, "maximum": form.most}
            return {
                "type": "integer" if form.whole else "number",
                **{name: limit for name, limit in limits.items() if limit is not None},
            }  # fmt: skip
        case Pointer():
            return {"type": "string", "pattern": f"^{ID_PATTERN}$", "maxLength": 80}
        case Text():
            return {
                "type": "string", **({"pattern": form.pattern} if form.pattern else {}),
                **({} if form.longest is None else {"maxLength": form.longest}),
            }  # fmt: skip
    raise TypeError(f"a saved file holds no {form}")
