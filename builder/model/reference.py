"""References between records: written by kind and id, resolved only when everything has been read."""

from __future__ import annotations

import re
from functools import lru_cache
from typing import Literal, NamedTuple

Side = Literal["this", "other"]
ID_PATTERN = r"[a-z0-9]+(?:-[a-z0-9]+)*"
LONGEST_ID = 80
DEVICES = frozenset(
    ["CON", "PRN", "AUX", "NUL", "CONIN$", "CONOUT$"]
    + [port + digit for port in ("COM", "LPT") for digit in "0123456789¹²³"]
)
"""Names that mean devices on Windows, whatever ending follows (Microsoft, "Naming Files, Paths, and Namespaces")."""
RUN_STEP_PATTERN = rf"{ID_PATTERN}@(?:left|right|)#{ID_PATTERN}"
"""How a step of a job is named."""
_RUN_STEP = re.compile(rf"({ID_PATTERN})@(left|right|)#({ID_PATTERN})(?:/(.+))?")
_REFERENCE = re.compile(rf"(?:(other):)?(?:([a-z][a-z-]*):)?({ID_PATTERN})(?:#({ID_PATTERN}))?")

BODY = "body"
WELDER = "welder"
LONE_SUBJECTS = (BODY, WELDER)
"""Subjects of a step that are no records: there is one body and one welder a job."""


_WHOLE = ("", "this")


class Ref(NamedTuple):
    """What a reference points at."""

    kind: str
    id: str
    anchor: str = ""
    side: Side = "this"

    def __str__(self) -> str:
        side = "other:" if self.side == "other" else ""
        anchor = f"#{self.anchor}" if self.anchor else ""
        return f"{side}{self.kind}:{self.id}{anchor}" if self.kind != self.id else f"{side}{self.id}"

    @property
    def record(self) -> Ref:
        """The record itself, without anchor or side."""
        return self if self[2:] == _WHOLE else Ref(self.kind, self.id)


@lru_cache(maxsize=65536)
def parse_reference(text: str, kind: str = "") -> Ref | None:
    """Read `seam:rocker-lower`, `other:seam:x`, `procedure:x#step` or, where `kind` is given, a bare id.

    `body` and `welder` stand for themselves. None where the text has another form.
    """
    if text in LONE_SUBJECTS and not kind:
        return Ref(text, text)
    found = _REFERENCE.fullmatch(text)
    if found is None:
        return None
    side, own_kind, name, anchor = found.groups()
    if not (own_kind or kind):
        return None
    return Ref(own_kind or kind, name, anchor or "", "other" if side else "this")


class RunStep(NamedTuple):
    """A step of a job, and of what it measures one thing where that is named."""

    procedure: str
    side: str
    """Of the car: left, right, or empty where it has but one of what the procedure works on."""
    key: str
    measure: str = ""

    @property
    def ref(self) -> Ref:
        """The step in its procedure's record."""
        return Ref("procedure", self.procedure, self.key)


def is_file_id(name: str) -> bool:
    """Whether a file may be called so: its page must be able to lie on every system and USB stick."""
    return re.fullmatch(ID_PATTERN, name) is not None and len(name) <= LONGEST_ID and name.upper() not in DEVICES


def parse_run_step(text: str) -> RunStep | None:
    """Read `procedure@side#key`, and `/name of a measure` where that stands behind it."""
    found = _RUN_STEP.fullmatch(text)
    return None if found is None else RunStep(found[1], found[2], found[3], found[4] or "")


class Mention(NamedTuple):
    """A reference made by a record; each is kept once, and its places are found again by reading the file."""

    ref: Ref
    kinds: tuple[str, ...]
    """The kinds that may stand in this field; empty where any may."""
    field: str
    """The field it stands in, such as `phases.steps.on`, for the where-used lists."""
