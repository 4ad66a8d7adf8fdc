"""What of the book was asked for while a result was made, so that the result is made anew exactly when that changes.

Everything that a page, or the judgement of a procedure, takes from beyond its own record is asked of a `Ledger`'s
watched views. Each such question is a fact: a space (`summary`, `uses`, `act` ...) and a key in it. Asking for what is
not there is a fact too, since it may come to be. What was found once and kept for others is kept with its facts, in a
`Remembered`: whoever finds it there depends on them as well.
"""

from __future__ import annotations

from array import array
from collections.abc import Callable, Iterable, Iterator, Mapping, Set
from contextlib import contextmanager
from functools import lru_cache
from hashlib import blake2b
from typing import Any, Generic, TypeVar

K = TypeVar("K")
V = TypeVar("V")
Fact = tuple[str, object]
EVERY = "*"
"""The key of a question for all that there are in a space."""


class Ledger:
    """Writes down what is asked while a page of it is open; with none open it writes nothing."""

    __slots__ = ("_open", "is_kept")

    def __init__(self, *, is_kept: bool) -> None:
        self.is_kept = is_kept
        """Whether results are kept for the next build; else no page is ever opened."""
        self._open: list[set[Fact]] = []

    def note(self, space: str, key: object) -> None:
        """Write one fact down on the innermost open page."""
        if self._open:
            self._open[-1].add((space, key))

    def note_all(self, facts: Set[Fact]) -> None:
        """Write several facts down."""
        if self._open:
            self._open[-1].update(facts)

    @contextmanager
    def page(self) -> Iterator[set[Fact]]:
        """Open a page; what is asked inside stands on it afterwards, and on the page around it."""
        facts: set[Fact] = set()
        if not self.is_kept:
            yield facts
            return
        self._open.append(facts)
        try:
            yield facts
        finally:
            self._open.pop()
            self.note_all(facts)


NO_LEDGER = Ledger(is_kept=False)


class _Asked(Generic[K]):
    """What watched views share: a key is asked for by itself, going through all as the space's `EVERY`."""

    __slots__ = ()
    _held: Mapping[K, Any] | Set[K]
    _space: str
    _ledger: Ledger

    def __contains__(self, key: object) -> bool:
        self._ledger.note(self._space, key)
        return key in self._held

    def __iter__(self) -> Iterator[K]:
        self._ledger.note(self._space, EVERY)
        return iter(self._held)

    def __len__(self) -> int:
        self._ledger.note(self._space, EVERY)
        return len(self._held)


class Watched(_Asked[K], Mapping[K, V]):
    """A mapping whose every question is written down."""

    __slots__ = ("_held", "_ledger", "_space")
    _held: Mapping[K, V]

    def __init__(self, held: Mapping[K, V], space: str, ledger: Ledger) -> None:
        self._held, self._space, self._ledger = held, space, ledger

    def __getitem__(self, key: K) -> V:
        self._ledger.note(self._space, key)
        return self._held[key]

    def get(self, key: K, default: V | None = None) -> V | None:  # type: ignore[override]
        """Return what is held by a key."""
        self._ledger.note(self._space, key)
        return self._held.get(key, default)

    def __bool__(self) -> bool:
        """Always: that there is nothing at all is a question about all of it, so ask key by key."""
        return True


class WatchedSet(_Asked[K], Set[K]):
    """A set whose every question is written down."""

    __slots__ = ("_held", "_ledger", "_space")
    _held: Set[K]

    def __init__(self, held: Set[K], space: str, ledger: Ledger) -> None:
        self._held, self._space, self._ledger = held, space, ledger

    @classmethod
    def _from_iterable(cls, found: Iterable[K]) -> frozenset[K]:  # type: ignore[override]
        """What is made of it by set operations is no longer watched: making it has asked for all."""
        return frozenset(found)


class Remembered(Generic[K, V]):
    """What was worked out once, with the facts that it rests on."""

    __slots__ = ("_facts", "_known", "_ledger")

    def __init__(self, ledger: Ledger = NO_LEDGER) -> None:
        self._ledger = ledger
        self._known: dict[K, V] = {}
        self._facts: dict[K, set[Fact]] = {}

    def get(self, key: K, make: Callable[[], V]) -> V:
        """Return what is known by a key, or make it."""
        # A key is long to hash, so it is looked up once where it is known and twice where it is not.
        found: V | None = self._known.get(key)
        ledger = self._ledger
        if found is not None:
            if ledger.is_kept:
                ledger.note_all(self._facts[key])
            return found
        if not ledger.is_kept:
            made = self._known[key] = make()
            return made
        with ledger.page() as facts:
            made = self._known[key] = make()
        self._facts[key] = facts
        return made

    def is_known(self, key: K) -> bool:
        """Whether a key was asked for before; what follows from that must not hang on it."""
        return key in self._known

    def clear(self) -> None:
        """Forget all of it."""
        self._known.clear()
        self._facts.clear()


@lru_cache(maxsize=1 << 19)
def number_of(fact: Fact) -> int:
    """Return a fact's number, the same in every process and every build: 64 bits of a hash of its space and key."""
    space, key = fact
    told = repr((space, tuple(key) if isinstance(key, tuple) else key)).encode()
    return int.from_bytes(blake2b(told, digest_size=8).digest(), "little")


def mark_of(said: object) -> bytes:
    """Return what differs for values that differ; of values whose representation says all of them."""
    return blake2b(said if isinstance(said, bytes) else repr(said).encode(), digest_size=8).digest()


def numbers_of(facts: Set[Fact]) -> bytes:
    """Return the numbers of facts, eight bytes each, in order."""
    return array("Q", sorted(map(number_of, facts))).tobytes()
