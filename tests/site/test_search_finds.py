"""Questions judged by hand against what the book's own search finds, in Node; and the words it takes for a slip."""

from __future__ import annotations

import json
from collections import defaultdict
from math import log2
from pathlib import Path

import pytest

from tests.formula.node import run_node
from tests.search.asking import SCRIPTS, answered

QUESTIONS = [
    line.split(" | ") for line in (Path(__file__).parent / "questions.txt").read_text("utf-8").splitlines()
    if not line.startswith("#")
]  # fmt: skip
FLOORS = {
    "plain": (0.81, 0.95), "other name": (0.96, 0.98), "slip": (0.9, 0.97), "number": (0.93, 0.95), "all": (0.88, 0.97),
}  # fmt: skip
"""Of each sort of question the share that finds what it should first, and among the first three: as measured, less a
question or two; among the first three never below 0.95 of all, and 0.9 of other names and slips."""
LEAST_NDCG = 0.745
"""As measured, less a hundredth. It was 0.815 of a book of eight procedures, most of whose questions had one to three
answers; many steps of sixty-five procedures now answer "when do I prime" equally well, and ten places show few."""


def found(site: Path, asked: list[str], most: int = 10) -> list[list[str]]:
    """The places found for each question, best first, with no shards but those that the question says it needs."""
    return [one.places for one in answered(site / "assets/search", asked, most)]


def is_right(place: str, right: str) -> bool:
    """A target without a step takes any place on its page."""
    return right in (place, place.partition("#")[0])


def gain(place: str, rights: list[str]) -> int:
    """What a place is worth: 3 for the best target, 2 for the next, 1 for any other."""
    return next((max(3 - at, 1) for at, right in enumerate(rights) if is_right(place, right)), 0)


def ndcg(places: list[str], rights: list[str]) -> float:
    """Normalized discounted cumulative gain at 10 (Järvelin and Kekäläinen 2002, ACM TOIS 20(4); here with log2)."""
    gains = [gain(place, rights) if at == _of_page(place, places) else 0 for at, place in enumerate(places[:10])]
    best = [gain(right, rights) for at, right in enumerate(rights) if at == _of_page(right, rights)]
    return _discounted(gains) / _discounted(best[:10])


def _of_page(place: str, places: list[str]) -> int:
    """Where the first place on the same page stands: a page counts once, as the search shows one place of a record."""
    return [one.partition("#")[0] for one in places].index(place.partition("#")[0])


def _discounted(gains: list[int]) -> float:
    return sum(one / log2(at + 1) for at, one in enumerate(gains, 1))


def test_the_measure_is_the_published_one() -> None:
    """Worked by hand: gains 3, 0, 1 against the best order 3, 2, 1."""
    assert ndcg(["a", "x", "c#s"], ["a", "b", "c"]) == pytest.approx((3 + 0.5) / (3 + 2 / log2(3) + 0.5))
    assert ndcg(["x"], ["a"]) == 0
    assert ndcg(["a#here", "b"], ["a", "b"]) == 1
    assert ndcg(["a#two", "b"], ["a#two", "a#three", "b"]) == 1
    assert ndcg(["a#two", "a#three"], ["a", "b"]) == pytest.approx(3 / (3 + 2 / log2(3)))


def test_questions_find_what_they_should(site: Path) -> None:
    ranks: dict[str, list[int]] = defaultdict(list)
    worth, missed = [], []
    for (sort, text, wanted), places in zip(QUESTIONS, found(site, [one[1] for one in QUESTIONS]), strict=True):
        rights = wanted.split(", ")
        rank = next((at for at, place in enumerate(places, 1) if gain(place, rights)), 99)
        ranks[sort].append(rank)
        worth.append(ndcg(places, rights))
        if rank > 1:
            missed.append(f"{text}: {rank}, {places[:3]}")
    every = [rank for all_ in ranks.values() for rank in all_]
    ranks["all"] = every
    shares = {
        sort: tuple(sum(rank <= most for rank in all_) / len(all_) for most in (1, 3)) for sort, all_ in ranks.items()
    }
    print(len(QUESTIONS), shares, sum(worth) / len(worth), *missed, sep="\n")
    assert len(QUESTIONS) >= 80
    for sort, (first, three) in FLOORS.items():
        assert shares[sort][0] >= first, (sort, missed)
        assert shares[sort][1] >= three, (sort, missed)
    assert sum(worth) / len(worth) >= LEAST_NDCG


def test_every_target_of_a_question_is_there(site: Path) -> None:
    wanted = {right for _, _, rights in QUESTIONS for right in rights.split(", ")}
    for right in sorted(wanted):
        path, _, anchor = right.partition("#")
        assert (site / path).is_file(), right
        assert not anchor or f'id="{anchor}"' in (site / path).read_text("utf-8"), right


def distance_is_one(one: str, other: str) -> bool:
    """By trying every edit of the first word: a letter put in, left out, changed, or swapped with the next."""
    letters = "abcdefghijklmnopqrstuvwxyz"
    parts = [(one[:at], one[at:]) for at in range(len(one) + 1)]
    edits = {a + c + b for a, b in parts for c in letters} | {a + b[1:] for a, b in parts if b}
    edits |= {a + c + b[1:] for a, b in parts if b for c in letters}
    edits |= {a + b[1] + b[0] + b[2:] for a, b in parts if len(b) > 1}
    return other in edits and other != one


@pytest.mark.parametrize("word", ["rocker", "nugget", "weld", "aab", "abab", "primer"])
def test_a_slip_is_one_edit(word: str) -> None:
    letters = "abcdeklnoprtuw"
    others = {word[:at] + c + word[at:] for at in range(len(word) + 1) for c in letters}
    others |= {word[:at] + word[at + 1:] for at in range(len(word))} | {word[::-1], word, "", word * 2, word + "xy"}
    others |= {word[:at] + word[at + 1:at + 2] + word[at:at + 1] + word[at + 2:] for at in range(len(word))}
    others |= {word[:at] + "x" + word[at + 1:] for at in range(len(word))} | {f"x{word[1:]}y", word[1:] + "q"}
    asked = sorted(others)
    body = f"return {json.dumps(asked)}.map((one) => seambook.words.isSlip({json.dumps(word)}, one));"
    said = run_node(body, SCRIPTS)
    assert said == [distance_is_one(word, one) for one in asked]


def test_a_book_of_few_words_still_answers_nothing_well(site: Path) -> None:
    assert found(site, ["zzyzx", "", "   ", "!!"]) == [[], [], [], []]
