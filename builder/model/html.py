"""Mark-up, told apart from plain text by its type."""

from __future__ import annotations

from typing import NewType

Html = NewType("Html", str)
"""Mark-up that is safe to put into a page as it stands; everything else is escaped by the template."""

NO_HTML = Html("")
