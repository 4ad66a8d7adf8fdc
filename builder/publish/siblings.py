"""A target folder in, the hidden names a build uses beside it out.

    .seambook-lock-site         held while a build of `site` runs
    .seambook-new-4711-site     the draft of process 4711; with its build ended, rubbish
    .seambook-kept-site         what the last build made, for the next one to take what has not changed
    .seambook-spare-site        the book before the last, which the next build brings up to date instead of linking all
    .seambook-old-4711-site     the whole old book, away between two renames; its name is the recovery note

The names say all, because a name is on the disk or is not: the text of a note could be lost in a power cut
that its name survives. No name of one target can be taken for another's: digits and a dash stand before it.
"""

import itertools
import os
import re
from pathlib import Path
from typing import Literal

Kind = Literal["new", "old"]


def lock_of(target: Path) -> Path:
    """The lock file of a target."""
    return target.with_name(f".seambook-lock-{target.name}")


def kept_of(target: Path) -> Path:
    """Where results for a target are kept."""
    return target.with_name(f".seambook-kept-{target.name}")


def spare_of(target: Path) -> Path:
    """Where the book before the last stays."""
    return target.with_name(f".seambook-spare-{target.name}")


def free_beside(target: Path, kind: Kind, pid: int) -> Path:
    """The first name of this kind, counting from the process number, that is free."""
    names = (target.with_name(f".seambook-{kind}-{number}-{target.name}") for number in itertools.count(pid))
    return next(name for name in names if not os.path.lexists(name))


def all_new(target: Path) -> list[Path]:
    """Every draft, copy in the making and piece of rubbish beside the target, sorted."""
    return _found(target, "new")


def all_old(target: Path) -> list[Path]:
    """Every old folder that is away, sorted."""
    return _found(target, "old")


def number_of(beside: Path) -> int:
    """The number in a name that this module gave: of the process, or the next that was free."""
    return int(beside.name.split("-")[2])


def _found(target: Path, kind: Kind) -> list[Path]:
    form = re.compile(rf"\.seambook-{kind}-\d+-{re.escape(target.name)}")
    return sorted(beside for beside in target.parent.iterdir() if form.fullmatch(beside.name))
