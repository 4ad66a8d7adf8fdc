"""A job of the book -> the file of it that the page of jobs opens: format 1, as it would have saved it itself."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import fields, is_dataclass
from typing import Any

from builder.model.records.fields import alias_of
from builder.model.records.job import Job
from builder.model.reference import Ref
from builder.view.here import Book

FORMAT = 1
OF_THE_BOOK = ("revision", "fingerprint", "title")
"""What a run keeps of its procedure; a record leaves it out, and then the book's own words hold."""


def job_example(book: Book, ref: Ref, job: Job, shorts: Mapping[str, Mapping[str, Any]]) -> dict[str, Any]:
    """Return the file; `shorts` holds each procedure as the list of a job shows it."""
    data = plain(job)
    for run in data["runs"]:
        known = shorts.get(run["procedure"], {})
        for key in OF_THE_BOOK:
            if key not in run and key in known:
                run[key] = known[key]
    site = book.site
    own = {"id": site.book_id, "title": site.title, "fingerprint": book.fingerprint}
    return {"format": FORMAT, "book": own, "job": {**data, "id": f"example-{ref.id}"}}


def plain(value: Any) -> Any:
    """Return a record as a file holds it: keys and values alone, without what nobody wrote."""
    if is_dataclass(value):
        held = ((alias_of(one.name, None), getattr(value, one.name)) for one in fields(value))
        return {key: plain(one) for key, one in held if one is not None and key != "was"}
    if isinstance(value, dict):
        return {key: plain(one) for key, one in value.items()}
    return [plain(one) for one in value] if isinstance(value, tuple) else value
