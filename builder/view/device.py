"""The book -> the page that tells what of it the device in hand keeps; a script fills it."""

from __future__ import annotations

from dataclasses import replace

from builder.model.device_view import DeviceDesk
from builder.model.reference import Ref
from builder.model.views import Html, Page
from builder.view.here import Book, Here
from builder.view.lists import DEVICE, plain_page
from builder.view.shared import shared

LEAD = "What of this book the phone or computer in hand keeps for itself, and whether it reads without a network."
SCRIPTS = shared("job_dom", "delivery_page")


def device_page(book: Book) -> Page:
    """Make the page."""
    here = Here(book, DEVICE)
    lead = Html(f"<p>{here.text(LEAD)}</p>")
    page = plain_page(here, Ref("page", "device"), "On this device", lead, (DeviceDesk("What is kept"),), is_found=True)
    return replace(page, scripts=SCRIPTS)
