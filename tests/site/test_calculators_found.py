"""Each calculator is found by what a technician would type, as written down without looking at the search."""

from __future__ import annotations

from collections import defaultdict
from pathlib import Path

from tests.site.building import CONTENT
from tests.site.test_search_finds import found, is_right

PHRASES = [
    (name, text.strip())
    for file in sorted((Path(__file__).parent / "calculators").glob("*.txt"))
    for name, _, text in (line.partition(":") for line in file.read_text("utf-8").splitlines() if line.strip())
]
AMONG_THREE = 0.95
"""The share of all phrases that find their calculator among the first three."""


def test_every_calculator_has_three_phrases() -> None:
    names = sorted(path.stem for path in (CONTENT / "calculators").glob("*.yaml"))
    counted = {name: sum(one == name for one, _ in PHRASES) for name in names}
    assert {name for name, count in counted.items() if count < 3} == set()
    assert {name for name, _ in PHRASES} <= set(names)


def test_phrases_find_their_calculator(site: Path) -> None:
    ranks: dict[str, list[int]] = defaultdict(list)
    missed = []
    for (name, text), places in zip(PHRASES, found(site, [text for _, text in PHRASES]), strict=True):
        right = f"calculators/{name}.html"
        rank = next((at for at, place in enumerate(places, 1) if is_right(place, right)), 99)
        ranks[name].append(rank)
        if rank > 3:
            missed.append(f"{name}: {text}: {rank}, {places[:3]}")
    every = [rank for all_ in ranks.values() for rank in all_]
    print(len(every), sum(rank == 1 for rank in every) / len(every), sum(rank <= 3 for rank in every) / len(every))
    print(*missed, sep="\n")
    assert sum(rank <= 3 for rank in every) / len(every) >= AMONG_THREE, missed
    assert [name for name, all_ in ranks.items() if min(all_) > 1] == []  # each comes first for one of its phrases
