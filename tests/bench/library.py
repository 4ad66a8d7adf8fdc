"""A number -> a library of so many procedures beside the supplied one, the same for the same seed.

It is made of cars: copies of the supplied moulds, each with its own panels, seams, cavities and openings, which name
each other. No two are alike: lengths differ, and steps say more, some of it with a link, in words of which a few stand
everywhere and most in a few places, as in any text. To every twenty cars comes a rule.
"""

from __future__ import annotations

import random
import re
import shutil
from collections.abc import Callable, Iterator, Sequence
from functools import partial
from itertools import accumulate
from pathlib import Path

from tests.bench.moulds import PROCEDURES, Mould, moulds_of

CARS_TO_A_RULE = 20
RULE = "lap-is-protected"
MORE = 0.4
"""Of the lines of steps that can say more, how many do."""
LINKED = 0.3
"""Of what they say, how much leads to another record."""
LEAST_LONG = 0.85
"""The shortest copy of a seam, beside the seam."""
MADE_UP = 3_000
"""Words that stand in no supplied record: names of places, numbers of parts."""
_SAYS = re.compile(r"^( +(?:- )?(?:do|why|expect|key_point): (?![\"'|>&*\[{!%@`]).*\.)$", re.MULTILINE)
_LENGTH = re.compile(r"^( +length: )(\d+)( mm)$", re.MULTILINE)
_WORD = re.compile(r"[a-z]{4,}")
_DRAWN = re.compile(r"^drawn:\n(?:[ -].*\n)+", re.MULTILINE)
"""Where a panel stands on the drawing of the body: another car's has no drawing."""
_TITLE = re.compile(r"^title: (.*)$", re.MULTILINE)
_CAR_NAMES = ("alder", "bracken", "clover", "gorse", "hazel", "juniper", "larch", "linden", "rowan", "sedge", "sorrel",
              "thistle", "willow", "yarrow")  # fmt: skip


def library(content: Path, into: Path, procedures: int, seed: int = 1) -> Path:
    """Copy the supplied library and add that many procedures, to the next whole car; return the new folder."""
    shutil.copytree(content, into)
    moulds = moulds_of(content)
    words = vocabulary(content, seed)
    seams = [one.ref for one in moulds if one.ref.kind in ("seam", "panel")]
    rule = (content / "rules" / f"{RULE}.yaml").read_text("utf-8")
    for car in range(1, -(-procedures // len(PROCEDURES)) + 1):
        tail, name, chance = tail_of(car), name_of(car), random.Random(f"{seed} {car}")
        say = partial(_linked_more, words, chance, seams, tail)
        for path, text in copied(moulds, tail, name, partial(chance.uniform, LEAST_LONG, 1), say):
            (into / path).write_text(text, "utf-8")
        if car % CARS_TO_A_RULE == 0:
            (into / "rules" / f"{RULE}{tail}.yaml").write_text(_titled(rule, name), "utf-8")
    return into


def tail_of(car: int) -> str:
    """Return what the ids of one car's records end with."""
    return f"-k{car}"


def name_of(car: int) -> str:
    """Return what the titles of one car's records end with."""
    return f"{_CAR_NAMES[car % len(_CAR_NAMES)]} {car}"


def copied(
    moulds: Sequence[Mould], tail: str, name: str, length: Callable[[], float], more: Callable[[], str]
) -> Iterator[tuple[str, str]]:
    """Return the records of one car: path and text, each length as much shorter, each line of a step with more."""
    for one in moulds:
        text = _DRAWN.sub("", _titled(one.with_tail(tail), name))
        text = _LENGTH.sub(lambda found: f"{found[1]}{round(int(found[2]) * length())}{found[3]}", text)
        if one.ref.kind == "procedure":
            text = _SAYS.sub(lambda found: f"{found[1]}{more()}", text)
        folder, _, file = one.path.partition("/")
        yield f"{folder}/{file.removesuffix('.yaml')}{tail}.yaml", text


def more(words: Words, chance: random.Random, link: Callable[[str], str]) -> str:
    """Return what a line says more, or nothing; now and then a word of it is a link."""
    if chance.random() > MORE:
        return ""
    said = words.some(chance, chance.randint(4, 9))
    if chance.random() < LINKED:
        said[len(said) // 2] = link(said[len(said) // 2])
    return f" {said[0].capitalize()} {' '.join(said[1:])}."


def _linked_more(words: Words, chance: random.Random, seams: Sequence[object], tail: str) -> str:
    return more(words, chance, lambda word: f"[{word}]({chance.choice(seams)}{tail})")


def _titled(text: str, name: str) -> str:
    return _TITLE.sub(lambda found: f"title: {found[1]}, {name}", text, count=1)


class Words:
    """Words of which the n-th comes about 1/n as often as the first."""

    def __init__(self, words: Sequence[str]) -> None:
        self.words = words
        self.weights = list(accumulate(1 / (at + 3) for at in range(len(words))))

    def some(self, chance: random.Random, count: int) -> list[str]:
        return chance.choices(self.words, cum_weights=self.weights, k=count)


def vocabulary(content: Path, seed: int) -> Words:
    """Return the words of the supplied procedures, the most frequent first, with made-up ones among the later ones."""
    counts: dict[str, int] = {}
    for path in sorted((content / "procedures").glob("*.yaml")):
        for word in _WORD.findall(path.read_text("utf-8")):
            counts[word] = counts.get(word, 0) + 1
    known = sorted(counts, key=lambda word: (-counts[word], word))
    chance = random.Random(f"{seed} words")
    made_up = [_made_up(chance) for _ in range(MADE_UP)]
    common, rest = known[:400], [*known[400:], *made_up]
    chance.shuffle(rest)
    return Words([*common, *rest])


def _made_up(chance: random.Random) -> str:
    syllables = (chance.choice("bdfgklmnprstvw") + chance.choice("aeiou") for _ in range(chance.randint(2, 4)))
    word = "".join(syllables)
    return f"{word}{chance.randint(10, 99)}" if chance.random() < 0.3 else word + chance.choice("lnrst")
