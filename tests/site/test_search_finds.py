"""Questions judged by hand against what the book's own search finds, in Node; and the words it takes for a slip."""

from __future__ import annotations

import json
from collections import defaultdict
from pathlib import Path

import pytest

from tests.formula.node import ASSETS, run_node

QUESTIONS = [
    line.split(" | ") for line in (Path(__file__).parent / "questions.txt").read_text("utf-8").splitlines()
    if not line.startswith("#")
]  # fmt: skip
FLOORS = {"plain": (0.85, 0.97), "other name": (0.95, 0.95), "slip": (0.95, 0.95)}
"""Of each sort of question the share that finds what it should first, and among the first three: as measured, less one
question."""
FIND = (ASSETS / "find.js",)


def found(site: Path, asked: list[str]) -> list[list[str]]:
    """The pages found for each question, best first."""
    paths: list[list[str]] = run_node(
        f"""const index = seambook.search.unpack(seambook.index);
        const paths = (text) => seambook.search.find(index, text).slice(0, 10).map((one) => one.path);
        return {json.dumps(asked)}.map(paths);""",
        (*FIND, site / "assets/search/index.js"),
    )
    return paths


def test_questions_find_what_they_should(site: Path) -> None:
    ranks: dict[str, list[int]] = defaultdict(list)
    missed = []
    for (sort, text, wanted), paths in zip(QUESTIONS, found(site, [one[1] for one in QUESTIONS]), strict=True):
        right = wanted.split(", ")
        rank = next((at for at, path in enumerate(paths, 1) if path in right), 99)
        ranks[sort].append(rank)
        if rank > 1:
            missed.append(f"{text}: {rank}, {paths[:3]}")
    shares = {
        sort: tuple(sum(rank <= most for rank in all_) / len(all_) for most in (1, 3)) for sort, all_ in ranks.items()
    }
    print(shares, *missed, sep="\n")
    for sort, (first, three) in FLOORS.items():
        assert shares[sort][0] >= first, (sort, missed)
        assert shares[sort][1] >= three, (sort, missed)


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
    said = run_node(f"return {json.dumps(asked)}.map((one) => seambook.search.isSlip({json.dumps(word)}, one));", FIND)
    assert said == [distance_is_one(word, one) for one in asked]


def test_a_book_of_few_words_still_answers_nothing_well(site: Path) -> None:
    assert found(site, ["zzyzx", "", "   ", "!!"]) == [[], [], [], []]
