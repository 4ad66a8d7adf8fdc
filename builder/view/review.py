"""A date and the shop's review periods -> the day by which a procedure is looked at again.

The book says the day; whether it has passed is told by the device that shows the page, so that the same records make
the same book on any day.
"""

from __future__ import annotations

import calendar
from datetime import date

from builder.model.records.procedure import Procedure
from builder.model.views import Html, Row
from builder.view.here import Book, Here

SCRIPT = "assets/js/review.js"


def review_row(here: Here, procedure: Procedure) -> tuple[Row, ...]:
    """Say when the review of a procedure is due; nothing where there is no period for its status."""
    due = due_on(here.book, procedure.status, procedure.revision.date)
    if not due:
        return ()
    late = f"The review of this page was due on {due}."
    return (Row("Review due", Html(f'<time datetime="{due}" data-late="{late}">{due}</time>')),)


def due_on(book: Book, status: str, day: str) -> str:
    """Return the day by which a procedure of a status, last revised on a day, is looked at again; or nothing."""
    months = book.review.get(status)
    return "" if months is None else months_after(day, months)


def months_after(day: str, months: int) -> str:
    """Return the day so many months after another; the last of a month that has no such day."""
    found = date.fromisoformat(day)
    year, month = divmod(found.year * 12 + found.month - 1 + months, 12)
    last = calendar.monthrange(year, month + 1)[1]
    return date(year, month + 1, min(found.day, last)).isoformat()
