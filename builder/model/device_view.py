"""What the page about this device shows before its script runs."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar


@dataclass(frozen=True, slots=True)
class DeviceDesk:
    """The place where a script tells what of the book this device keeps."""

    form: ClassVar[str] = "device"
    title: str
    anchor: str = "device"
