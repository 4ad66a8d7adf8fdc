"""Stage 1: files -> trees with a place for every key and value. `discover` and `read` are the entry points."""

from builder.read.codes import CODES
from builder.read.files import (
    BOOK_FILE,
    PLANNING_FILE,
    SETTINGS_FILES,
    STYLE_FILE,
    TRAINING_FILE,
    UNITS_FILE,
    Places,
    digest,
    discover,
    read,
    read_at_once,
    read_settings,
)
from builder.read.text import bytes_of, read_text

__all__ = [
    "BOOK_FILE", "CODES", "PLANNING_FILE", "SETTINGS_FILES", "STYLE_FILE", "TRAINING_FILE", "UNITS_FILE", "Places",
    "bytes_of", "digest", "discover", "read", "read_at_once", "read_settings", "read_text",
]  # fmt: skip
