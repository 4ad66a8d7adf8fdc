"""A server's port -> the addresses it is reached at, and a code that a phone's camera reads."""

from __future__ import annotations

import io
import socket

import segno

_ELSEWHERE = ("192.0.2.1", 9)
"""An address for documentation (RFC 5737): nothing is sent, the system only says by which way it would go."""
_LIGHT_ON_DARK, _PLAIN = "\x1b[97;40m", "\x1b[0m"


def on_this_network() -> str | None:
    """Return this computer's address on the network it is on; None where it is on none."""
    try:
        with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as asking:
            asking.connect(_ELSEWHERE)
            found = str(asking.getsockname()[0])
    except OSError:
        return None
    return None if found.startswith("127.") or found == "0.0.0.0" else found


def code(url: str) -> str:
    """Return a QR code (ISO/IEC 18004) of half blocks, light on dark whatever the terminal's own colours are."""
    drawn = io.StringIO()
    segno.make(url, micro=False, error="m").terminal(out=drawn, compact=True)
    return "\n".join(f"{_LIGHT_ON_DARK}{line}{_PLAIN}" for line in drawn.getvalue().splitlines())
