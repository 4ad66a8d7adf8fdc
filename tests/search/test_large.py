"""A library of some two hundred procedures: what a search loads, how well it finds, and what one changed page moves."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pytest

from builder.model.views import Page
from builder.search import IndexWriter, page_words
from tests.bench.copies import Kit, kit_of, pages_of
from tests.bench.searched import before_the_first, mixture
from tests.bench.seek import part
from tests.bench.words import Indexed, indexed
from tests.search.asking import answered, written
from tests.search.known import Share, shares
from tests.site.building import CONTENT
from tests.sweeps import examples, share

pytestmark = pytest.mark.slow

PROCEDURES = 150
ASKED = examples(60, 2)
BEFORE, TYPICAL, WORST = 60_000, 200_000, 300_000
"""Bytes that may be loaded before the first query, for half of all, and for any, all that came before counted."""
FLOORS = {"supplied": (0.92, 0.97), "copies": (0.93, 0.97)}
"""Of all questions made from records, the share whose record stands first and among the first five: as measured at this
size, less two hundredths."""
LESS = 0.02
"""By so much at most may a share be worse in the large library than in the supplied one: two or three questions of a
hundred and more."""
MOST_MOVED = 12
"""Files of the index that may change with two words of one page, of some five hundred: as measured it is 6."""


@pytest.fixture(scope="module")
def kit() -> Kit:
    return kit_of(CONTENT)


@pytest.fixture(scope="module")
def supplied(kit: Kit) -> Indexed:
    return indexed(kit, CONTENT, 0, ASKED)


@pytest.fixture(scope="module")
def large(kit: Kit) -> Indexed:
    return indexed(kit, CONTENT, PROCEDURES, ASKED)


@pytest.fixture(scope="module")
def index(large: Indexed, tmp_path_factory: pytest.TempPathFactory) -> Path:
    return written(large.files, tmp_path_factory.mktemp("large"))


def test_words_alone_give_the_index_that_is_built(supplied: Indexed, site: Path) -> None:
    """What the bench measures without drawing is what a build writes, but for what a record says of its uses."""
    built = {path.name: path.stat().st_size for path in (site / "assets/search").iterdir()}
    made = {path.rpartition("/")[2]: len(data) for path, data in supplied.files.items()}
    for sort in ("dictionary", "list", "words", "rest", "texts"):
        sizes = [sum(size for name, size in one.items() if name.startswith(sort)) for one in (built, made)]
        assert sizes[1] == pytest.approx(sizes[0], rel=0.01), sort


def test_a_search_loads_little(large: Indexed, index: Path) -> None:
    first = before_the_first(large)
    loaded = sorted(first + one.loaded for one in answered(index, share(mixture(large), 3), 8))
    assert large.procedures >= PROCEDURES
    assert first <= BEFORE
    assert part(loaded, 0.5) <= TYPICAL
    assert loaded[-1] <= WORST
    assert loaded[-1] > part(loaded, 0.5) > first  # else nothing was counted


def test_no_query_loads_more_than_it_may(large: Indexed, index: Path) -> None:
    """Questions as bad as they come: a whole step, common words alone, one letter, a slip in a common word."""
    asked = [
        "brush the primer on every mating face of the flange and let it flash as its data sheet says before welding",
        "rear panel flange edge side seam door rocker quarter", "the", "flange", "s", "w", "1", "rocekr", "qzxv jkwq",
    ]  # fmt: skip
    first = len(large.files["assets/search/dictionary.js"])
    loaded = [first + one.loaded for one in answered(index, asked, 8)]
    assert max(loaded) <= WORST, dict(zip(asked, loaded, strict=True))


def test_quality_does_not_fall_with_size(supplied: Indexed, large: Indexed, index: Path, tmp_path: Path) -> None:
    small = shares(written(supplied.files, tmp_path), supplied.supplied)
    found = {"supplied": shares(index, supplied.supplied), "copies": shares(index, large.copies)}
    print(small, *found.items(), sep="\n")
    for sort, before in small.items():
        assert _is_as_good(found["supplied"][sort], before), (sort, found["supplied"][sort], before)
    for about, (first, five) in FLOORS.items():
        assert found[about]["all"].asked > ASKED
        assert found[about]["all"].first >= first, about
        assert found[about]["all"].five >= five, about


def _is_as_good(now: Share, before: Share) -> bool:
    few = LESS + 1 / before.asked
    return now.first >= before.first - few and now.five >= before.five - few and now.rank >= before.rank - few


def test_a_small_change_moves_few_shards(kit: Kit, large: Indexed) -> None:
    """A word that stood nowhere before is put where shards were cut, and one that is known is added to a page."""
    changed = {path: data for path, data in _files(kit, _with_words(kit)).items() if large.files.get(path) != data}
    print(sorted(changed))
    assert 2 <= len(changed) <= MOST_MOVED


def _with_words(kit: Kit) -> Iterator[Page]:
    for page in pages_of(kit, PROCEDURES):
        last = page.passages[-1] if page.path == "procedures/close-out-k3.html" else None
        more = last and last._replace(text=f"{last.text} Hold the lampzzz and a lamp.")
        yield replace(page, passages=(*page.passages[:-1], more)) if more else page


def _files(kit: Kit, pages: Iterator[Page]) -> dict[str, bytes]:
    writer = IndexWriter()
    for page in pages:
        writer.add(page_words(page))
    return writer.files(kit.supplied.names, kit.supplied.quiet)
