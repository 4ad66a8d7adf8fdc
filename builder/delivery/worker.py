"""The parts of the worker and the edition -> `worker.js`: one file, since a browser finds the next edition by it."""

from __future__ import annotations

import json
from pathlib import Path

WORKER = "worker.js"
PARTS = ("edition", "hashes", "fetching", "keeping", "serving", "speaking")
"""In the order in which each needs those before it."""


def worker_of(templates: Path, book_id: str, edition: str) -> bytes:
    """Return the worker of one edition of a book."""
    own = f"self.seambookEdition = {json.dumps({'book': book_id, 'edition': edition})};\n"
    parts = [(templates / "worker" / f"{part}.js").read_text("utf-8") for part in PARTS]
    return "\n".join([own, *parts]).encode()
