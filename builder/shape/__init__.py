"""Stage 2: trees -> typed records and summaries. `shape` is the entry point; `find_places` serves problems."""

from __future__ import annotations

from builder.model.files import SourceFile
from builder.model.place import Span
from builder.model.records import KIND
from builder.model.reference import Mention
from builder.model.tree import Mapping
from builder.shape.codes import CODES
from builder.shape.facts import Scales
from builder.shape.marks import marked
from builder.shape.mentions import places_of
from builder.shape.shaper import get_ready, shape, shape_at_once, shape_settings


def find_places(file: SourceFile, tree: Mapping, mention: Mention) -> tuple[Span, ...]:
    """Return every place where this file makes the mention."""
    return places_of(marked(KIND[file.ref.kind].type, tree), mention, file.shown)


__all__ = ["CODES", "Scales", "find_places", "get_ready", "shape", "shape_at_once", "shape_settings"]
