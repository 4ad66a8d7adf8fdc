"""Words of the trade's table -> whether they hold of an act where it is done."""

from __future__ import annotations

from collections.abc import Callable

from builder.model.reference import Ref
from tests.mutation.body import Body, Steps

Walk = tuple[Body, Steps, int, Ref, Ref]
"""The body, the steps, the position of the act, its subject and whose guard is meant."""


def _every(fact: str, *words: object) -> Callable[[Walk], bool]:
    return lambda walk: all(found in words for found in walk[0].says(walk[3], fact) or [None])


def _any(fact: str, *words: object) -> Callable[[Walk], bool]:
    return lambda walk: any(found in words for found in walk[0].says(walk[3], fact))


def _of_target(fact: str, word: str) -> Callable[[Walk], bool]:
    return lambda walk: word in walk[0].says(walk[4], fact)


def _method(*names: str) -> Callable[[Walk], bool]:
    return lambda walk: walk[1][walk[2]].method in names


def _kind(name: str) -> Callable[[Walk], bool]:
    return lambda walk: walk[3].kind == name


def _is_opened(walk: Walk) -> bool:
    body, steps, at, _, opening = walk
    return any(step.act in ("cut-out", "section-cut", "free-welds") and opening in body.openings(ref)
               for step in steps[:at] for ref in step.subjects)  # fmt: skip


def _bears_load(walk: Walk) -> bool:
    return any("yes" in walk[0].says(panel, "load_bearing") for panel in walk[0].panels(walk[3]))


WHEN: dict[str, Callable[[Walk], bool]] = {
    "load": lambda walk: walk[3].kind == "panel" and _bears_load(walk),
    "load-subject": _bears_load,
    "load-bearing": lambda walk: walk[3].record in walk[0].handed and _bears_load(walk),
    "load-in-body": lambda walk: walk[3].kind == "panel" and _bears_load(walk) and not walk[0].openings(walk[3]),
    "lap": _every("joint", "lap"), "filmed": _every("filmed", "yes"), "sealed": _every("sealed", "yes"),
    "unfilmed": lambda walk: not (_every("joint", "lap")(walk) and _every("filmed", "yes")(walk)),
    "closes-nothing": _every("closes", "no"),
    "seam": _kind("seam"), "panel": _kind("panel"), "opening": _kind("opening"),
    "carries": lambda walk: walk[3].kind == "panel" and not _every("carries", "no")(walk),
    "plug": _method("mag-plug"), "spot-or-plug": _method("resistance-spot", "mag-plug"),
    "out-of-reach": lambda walk: "yes" not in walk[0].says(walk[4], "reachable"),
    "lives-inside": _of_target("lives_inside", "yes"),
    "drains": lambda walk: any(isinstance(n, float) and n > 0 for n in walk[0].says(walk[4], "drains")),
    "four": lambda walk: any(isinstance(n, float) and n > 3 for n in walk[0].says(walk[3], "layers")),
    "hard": _any("strongest", "advanced", "unknown"), "hard-panel": _any("strength", "advanced", "unknown"),
    "opened": _is_opened, "no-zone": _every("may_section", "no"),
}  # fmt: skip
