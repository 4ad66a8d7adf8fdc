"""The settings of the house style -> what the lint looks up by: patterns of words, verbs by their acts, titles."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from typing import NamedTuple

from builder.model.links import Catalogue
from builder.model.records.style import Danger, HouseStyle, Measured
from builder.model.reference import Ref


class Manner(NamedTuple):
    """The style of one book, ready to be asked."""

    hedges: re.Pattern[str] | None
    instead: Mapping[str, str]
    """By a hedge in small letters: what is written in its place."""
    verbs: Mapping[str, frozenset[str]]
    objects: frozenset[str]
    titles: re.Pattern[str] | None
    """Any title, of the kinds that a step lists, that is more than one word."""
    named: Mapping[str, Ref]
    """By a title in small letters: whose it is."""
    takes_away: frozenset[str]
    dangers: tuple[Danger, ...]
    measured: Measured | None

    def told(self) -> tuple[object, ...]:
        """Return all of it as values whose representation says them."""
        return (sorted(self.instead.items()), sorted((word, sorted(acts)) for word, acts in self.verbs.items()),
                sorted(self.objects), sorted(self.named.items()), sorted(self.takes_away), self.dangers,
                self.measured)  # fmt: skip


def make_manner(style: HouseStyle, catalogue: Catalogue) -> Manner:
    """Put the settings in order once; what they name beside the book is told elsewhere."""
    instead = {words.lower(): hedge.do for hedge in style.hedges for words in hedge.say}
    verbs: dict[str, frozenset[str]] = {}
    for verb in style.verbs:
        for word in verb.say:
            verbs[word] = verbs.get(word, frozenset()) | frozenset(verb.acts)
    named = {
        summary.title.lower(): ref for ref, summary in catalogue.summaries.items()
        if ref.kind in style.listed and " " in summary.title
    }  # fmt: skip
    return Manner(
        _any_of(instead), instead, verbs, frozenset(style.objects), _any_of(named), named,
        frozenset(style.takes_away), style.dangers, style.measured,
    )  # fmt: skip


def _any_of(phrases: Iterable[str]) -> re.Pattern[str] | None:
    """A pattern of whole words, the longest first; None where there is none."""
    words = sorted(phrases, key=lambda one: (-len(one), one))
    return re.compile(rf"\b(?:{'|'.join(map(re.escape, words))})\b", re.IGNORECASE) if words else None
