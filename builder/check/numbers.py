"""States of subjects and acts on them <-> numbers, which a walk through a procedure compares in place of names."""

from __future__ import annotations

from collections.abc import Iterable

from builder.model.reference import Ref

Held = tuple[str, Ref]
"""A state and whose it is."""


class Numbers:
    """The numbers of one book: each subject has as many in a row as there are states."""

    def __init__(self, states: Iterable[str]) -> None:
        self.states = tuple(sorted(states))
        self.place_of = {state: at for at, state in enumerate(self.states)}
        self._owners: list[Ref] = []
        self._states_of: dict[Ref, tuple[int, ...]] = {}
        self._tags: dict[tuple[str, Ref | None], int] = {}
        self._acts: tuple[tuple[str, Ref | None], ...] = ()

    def states_of(self, owner: Ref) -> tuple[int, ...]:
        """Return the numbers of a subject's states, by their place among all states."""
        found = self._states_of.get(owner)
        if found is None:
            first = len(self._owners) * len(self.states)
            found = self._states_of[owner] = tuple(range(first, first + len(self.states)))
            self._owners.append(owner)
        return found

    def number(self, held: Held) -> int:
        """Return the number of a state of a subject."""
        state, owner = held
        return self.states_of(owner)[self.place_of[state]]

    def held(self, number: int) -> Held:
        """Return the state and whose it is."""
        owner, place = divmod(number, len(self.states))
        return self.states[place], self._owners[owner]

    def of_state(self, state: str, numbers: Iterable[int]) -> list[int]:
        """Return those that are of one state, whoever's it is."""
        place, count = self.place_of.get(state), len(self.states)
        return [number for number in numbers if number % count == place]

    def tag(self, act: str, subject: Ref | None) -> int:
        """Return the number of an act on a subject, or on any."""
        return self._tags.setdefault((act, subject), len(self._tags))

    def tagged(self, tag: int) -> tuple[str, Ref | None]:
        """Return the act of a number and on whom; the numbers were given in order."""
        if len(self._acts) < len(self._tags):
            self._acts = tuple(self._tags)
        return self._acts[tag]
