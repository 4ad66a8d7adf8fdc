"""Libraries of so many procedures, made of words alone -> what searching them costs and how well it answers."""

from __future__ import annotations

import shutil
from collections.abc import Iterator, Sequence
from pathlib import Path

from builder.render.assets import assets, sources
from builder.supplied import templates
from tests.bench.copies import kit_of
from tests.bench.figure import Figure
from tests.bench.seek import SLOWER, part, sought
from tests.bench.words import Indexed, indexed
from tests.search.asking import answered, written
from tests.search.known import shares

ASKED = 150
"""Records that questions are made for: some three hundred questions for supplied ones, and as many for copies."""
TIMED = 300
QUESTIONS = Path(__file__).resolve().parents[1] / "site" / "questions.txt"


def searched(content: Path, folder: Path, sizes: Sequence[int]) -> Iterator[Figure]:
    """Measure the search of the supplied library and of larger ones."""
    kit = kit_of(content)
    supplied = indexed(kit, content, 0, ASKED)
    for size in (0, *sizes):
        made = indexed(kit, content, size, ASKED) if size else supplied
        index = written(made.files, folder / f"words-{size}")
        name = f"{size:,} procedures" if size else "supplied library"
        yield from _costs(made, index, name)
        for about, asked in (("supplied", supplied.supplied), ("copies", made.copies)):
            found = shares(index, asked) if asked else {}
            for sort, share in found.items():
                yield Figure(f"{name}: {about}, {sort}: first", share.first, "")
                yield Figure(f"{name}: {about}, {sort}: in five", share.five, "")
                yield Figure(f"{name}: {about}, {sort}: reciprocal", share.rank, "")
        shutil.rmtree(folder / f"words-{size}")


def _costs(made: Indexed, index: Path, name: str) -> Iterator[Figure]:
    first = before_the_first(made)
    mixed = mixture(made)
    loaded = sorted(first + one.loaded for one in answered(index, mixed, 8))
    yield Figure(f"{name}: search, before the first query", first / 1e3, "kB", 60.0)
    yield Figure(f"{name}: search, a typical query", part(loaded, 0.5) / 1e3, "kB", 200.0)
    yield Figure(f"{name}: search, the worst query", loaded[-1] / 1e3, "kB", 300.0)
    cost = sought(index.parents[1], mixed)
    yield Figure(f"{name}: search, 95 of 100 answers within", part(cost.slowed, 0.95), "ms", 50.0)
    yield Figure(f"{name}: search, half of all answers within", part(cost.slowed, 0.5), "ms")
    yield Figure(f"{name}: search, 95 of 100, four times unslowed", SLOWER * part(cost.plain, 0.95), "ms")
    yield Figure(f"{name}: search, heap of the page", cost.heap_mb, "MB", 60.0)
    yield Figure(f"{name}: search, of it held", cost.held_mb, "MB")
    yield Figure(f"{name}: search, indexing a procedure's own page", 1000 * made.seconds_own / made.procedures, "ms")
    yield Figure(f"{name}: search, putting it into the index", 1000 * made.seconds_put / made.procedures, "ms", 0.5)


def before_the_first(made: Indexed) -> int:
    """Return the bytes loaded when the box is first used: the dictionary, and what searches as it is written."""
    return len(made.files["assets/search/dictionary.js"]) + len(assets(sources(templates()))["assets/js/finding.js"])


def mixture(made: Indexed) -> list[str]:
    """Questions of every sort: those judged by hand, for supplied records, and for copies; some still being typed."""
    judged = [line.split(" | ")[1] for line in QUESTIONS.read_text("utf-8").splitlines() if not line.startswith("#")]
    known = [one.text for one in (*made.supplied, *made.copies)]
    every = [*judged[::2], *known[:: max(1, len(known) // (TIMED - len(judged) // 2))]]
    return [f"{text} " if at % 2 else text for at, text in enumerate(every)]
