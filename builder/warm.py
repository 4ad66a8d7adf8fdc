"""What a process that builds again and again keeps in memory, so that its next build need not read or make it anew.

Everything here is known by a mark or is the very object that was kept: a build that finds another makes its own.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from typing import Any, TypeVar

B = TypeVar("B")
V = TypeVar("V")


@dataclass
class Warm:
    """One process's memory between builds."""

    marked: dict[str, tuple[object, Any]] = field(default_factory=dict)
    """By name what was made, behind a mark of what it was made from."""
    unpacked: dict[str, tuple[object, Any]] = field(default_factory=dict)
    """By name what was unpacked, behind the bytes that it was unpacked from, or where these lie."""

    def get(self, name: str, mark: object, make: Callable[[], V]) -> V:
        """Return what was made under this mark, or make it."""
        known = self.marked.get(name)
        if known is not None and known[0] == mark:
            found: V = known[1]
            return found
        made = make()
        self.put(name, mark, made)
        return made

    def known(self, name: str, mark: object) -> Any:
        """Return what was made under this mark; None where nothing was."""
        known = self.marked.get(name)
        return known[1] if known is not None and known[0] == mark else None

    def put(self, name: str, mark: object, made: object) -> None:
        """Keep what was made."""
        self.marked[name] = (mark, made)

    def unpack(self, name: str, data: B, unpacked: Callable[[B], Any]) -> Any:
        """Return what these bytes hold, or those that lie there."""
        known = self.unpacked.get(name)
        if known is not None and known[0] is data:
            return known[1]
        value = unpacked(data)
        self.unpacked[name] = (data, value)
        return value
