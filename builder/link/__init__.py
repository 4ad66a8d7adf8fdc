"""Stage 3: references -> records, who uses what, and the link writer. `resolve` is the entry point."""

from builder.link.codes import CODES
from builder.link.resolver import resolve
from builder.link.writer import FolderLinks, SingleFileLinks

__all__ = ["CODES", "FolderLinks", "SingleFileLinks", "resolve"]
