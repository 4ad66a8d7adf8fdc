"""What a job takes up of procedures: rows of supplies, each with how its amount came about."""

from __future__ import annotations

from typing import NamedTuple


class Taken(NamedTuple):
    """One supply that one step uses."""

    supply: str
    step: str
    """The step's key."""
    amount: float | None
    """None where it cannot be worked out; then `how` says why, and nobody guesses."""
    unit: str
    """The supply's own unit, as it is bought."""
    how: str
    """In plain words and figures how the amount came about."""
    once: str = ""
    """What is counted once a job and side, whoever asks for it, by a name made of its subject and the supply."""
    sided: bool = True
    """Whether the other side of the car takes it again."""
    only: str = ""
    """The side of the work that alone takes it, where its subject is on one side of the car and nowhere else."""
