"""Results and their files -> a draft: as the last build made them where nothing they hang on changed, else made now."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from functools import partial
from typing import Any, Generic, NamedTuple, TypeVar

from builder import keeping
from builder.crew import CHUNK, spread
from builder.keeper import Keeper, Made
from builder.model.files import Piece, piece_of
from builder.model.ledger import numbers_of
from builder.publish import Desk

R = TypeVar("R")


class Unit(NamedTuple):
    """What is made as one."""

    name: str
    own: bytes
    """A mark of all that it is made from by name."""

    def __str__(self) -> str:
        return self.name


class Fresh(NamedTuple, Generic[R]):
    """What was made of a unit."""

    files: Mapping[str, bytes]
    result: R
    apart: object = None
    """What is seldom needed of the result, and lies apart from it."""


class Put(NamedTuple, Generic[R]):
    """What was made or taken of a unit and lies where it belongs."""

    paths: list[str]
    result: R
    apart: Callable[[], Any]


class Putting:
    """The desk of a draft and the memory of the last build."""

    def __init__(self, desk: Desk, keeper: Keeper) -> None:
        self.desk, self.keeper = desk, keeper

    def put(self, files: Mapping[str, bytes]) -> dict[str, Piece]:
        """Put files down; return their hashes."""
        for path, data in files.items():
            self.desk.put(path, data)
        return {path: piece_of(data) for path, data in files.items()}

    def put_always(self, files: Mapping[str, bytes]) -> list[str]:
        """Put down files that are made in each build, where they are not published as they are; return their paths."""
        pieces = {path: piece_of(data) for path, data in files.items()}
        lying = [path for path, piece in pieces.items() if self.keeper.lies(path, piece)]
        self.desk.keep(lying)
        for path in pieces.keys() - lying:
            self.desk.put(path, files[path])
        self.keeper.keep_pieces(pieces)
        return list(files)

    def one(self, unit: Unit, make: Callable[[], Fresh[R]]) -> Put[R]:
        """Take or make one unit."""
        return next(self.every([unit], lambda _: make(), 1))

    def every(
        self, units: Sequence[Unit], make: Callable[[Unit], Fresh[R]], processes: int,
        get_ready: Callable[[], object] = lambda: None,
    ) -> Iterator[Put[R]]:  # fmt: skip
        """Take or make units, in their order.

        What all that are made need is made ready once, before there are processes; where all are taken it is not.
        """
        taken = {unit.name: made for unit in units if (made := self._taken(unit)) is not None}

        def noted(unit: Unit) -> Made:
            with self.keeper.ledger.page() as facts:
                files, result, apart = make(unit)
            noted = numbers_of(facts) if self.keeper.is_on else b""
            return Made(result, self.put(files), noted, keeping.packed(apart) if apart is not None else b"")

        stale = [unit for unit in units if unit.name not in taken]
        if stale:
            get_ready()
        fresh = spread(noted, stale, processes if len(stale) > CHUNK else 1)
        for unit in units:
            made = taken.get(unit.name)
            if made is None:
                made = next(fresh)
                self.keeper.keep_unit(unit.name, unit.own, made)
            yield Put(list(made.pieces), made.result, partial(self.keeper.load, made.apart))

    def _taken(self, unit: Unit) -> Made | None:
        made = self.keeper.unit(unit.name, unit.own) if self.keeper.is_on else None
        if made is not None:
            self.desk.keep(made.pieces)
        return made
