"""Data -> a script that puts it where pages look for it; from a folder a page may load scripts and nothing else."""

from __future__ import annotations

import json
from collections.abc import Mapping
from typing import Any


def assigned(name: str, data: Mapping[str, Any], key: str = "") -> bytes:
    """Return a script that assigns data to `seambook.name`, or with a key to `seambook.name[key]`."""
    text = json.dumps(data, ensure_ascii=True, separators=(",", ":"))
    lines = ["window.seambook = window.seambook || {};"]
    if key:
        lines.append(f"window.seambook.{name} = window.seambook.{name} || {{}};")
        lines.append(f"window.seambook.{name}[{json.dumps(key)}] = {text};")
    else:
        lines.append(f"window.seambook.{name} = {text};")
    return ("\n".join(lines) + "\n").encode()
