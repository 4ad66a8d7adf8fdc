"""A file and chance -> the same file spoiled: bytes, lines, or one value of its tree put in place of another.

Whatever chance is asked for comes from one seed, so an input that fails fails again.
"""

from __future__ import annotations

import json
import random
from collections.abc import Callable, Iterator
from typing import Any

import yaml

from tests.hostile.spoiled import ALL

WORDS = (
    "", " ", "none", "unknown", "true", "0", "-1", "1e308", "-1e-320", "9" * 40, "NaN", "inf", "0.0000001 mm", "1 mm",
    "7 parsec", "3 mm/mm", "1e9 h", "-300 degC", "12 V", "90 degC", "2026-02-30", "9999-12-31", "seam:cover-edge",
    "seam:cover-edge@left", "cover-edge#weld", "panel:nobody", "film-primer", "other:weld-cover", "body", "a" * 130,
    "a" * 5_000, "length", "length / pitch", "10**10**10", "1 / 0", "(" * 300, "a if b else c", "max()",
    "thickness > 1 mm",
    "\u202e", "\ud800", "\0", "\u2028", "\ufeff", "e\u0301", "\u00df", "con", "../x.png", "/etc/passwd", ".x.svg",
    "x\0.png", "[a](seam:cover-edge)", "[a](b:c) `", "**", "| a |\n| - |", "# a\n\n- b\n  - c", "{{ x }}", "__proto__",
    "name, x, y, z\na, 1, 2, 3", "M0 0H9", "M0 0C1 1 2 2 3 3Z", "50%", "1/3", "\\", "%s", "FILL IN",
)  # fmt: skip
"""Texts that mean something somewhere, and some that should mean nothing anywhere."""
BYTES = (
    b"\0", b"\xff", b"\xed\xa0\x80", b"\xef\xbb\xbf", b"\r", b"\r\n", b"\t", b"&a ", b"*a", b"!!", b"- ", b": ", b"? ",
    b"[", b"{", b"|\n", b">\n", b"'", b'"', b"#", b"---\n", b"...\n", b"%YAML 9\n", b"<", b"](", b"(" * 40,
)  # fmt: skip
Make = Callable[[bytes, random.Random], bytes]


def bytes_changed(data: bytes, chance: random.Random) -> bytes:
    """Take out, double, exchange or put in a few bytes."""
    for _ in range(chance.choice((1, 1, 2, 4))):
        first = chance.randrange(len(data) + 1)
        last = min(len(data), first + chance.choice((0, 0, 1, 2, 8, 40)))
        put = chance.choice((b"", chance.choice(BYTES), data[first:last] * chance.choice((2, 3)),
                             bytes([chance.randrange(256)]), chance.choice(ALL).encode()))  # fmt: skip
        data = data[:first] + put + data[last:]
    return data


def lines_changed(data: bytes, chance: random.Random) -> bytes:
    """Take out, double, exchange or set in a line."""
    lines = data.split(b"\n")
    at, other = chance.randrange(len(lines)), chance.randrange(len(lines))
    deed = chance.randrange(5)
    if deed == 0:
        del lines[at]
    elif deed == 1:
        lines.insert(other, lines[at])
    elif deed == 2:
        lines[at], lines[other] = lines[other], lines[at]
    elif deed == 3:
        lines[at] = b"  " * chance.randrange(3) + lines[at].lstrip()
    else:
        lines[at:at + 1] = [lines[at]] * chance.choice((2, 9, 300))
    return b"\n".join(lines)


def tree_changed(tree: Any, chance: random.Random) -> Any:
    """Change one or a few places of a tree of mappings, lists and texts, in place."""
    for _ in range(chance.choice((1, 1, 1, 2, 3))):
        places = list(_places(tree))
        if not places:
            return tree
        owner, key = chance.choice(places)
        _change(owner, key, chance.choice(places), chance)
    return tree


def _change(owner: Any, key: Any, other: tuple[Any, Any], chance: random.Random) -> None:
    deed = chance.randrange(12)
    if deed < 5:
        owner[key] = chance.choice(WORDS)
    elif deed == 5 and isinstance(owner[key], str):
        text = owner[key]
        at = chance.randrange(len(text) + 1)
        owner[key] = text[:at] + chance.choice((*WORDS, *ALL)) + text[at:]
    elif deed == 6:
        owner[key] = _copied(other[0][other[1]])
    elif deed == 7:
        del owner[key]
    elif deed == 8 and isinstance(owner, list):
        owner.insert(chance.randrange(len(owner) + 1), _copied(owner[key]))
    elif deed == 9 and isinstance(owner, dict):
        owner[str(other[1])] = _copied(other[0][other[1]])
    elif deed == 10:
        owner[key] = chance.choice(([], {}, [[]], {"a": []}, [owner[key]], None, 7, True, -0.5))
    else:
        owner[key] = chance.choice((*WORDS, *ALL))


def _places(node: Any) -> Iterator[tuple[Any, Any]]:
    keys = list(node) if isinstance(node, dict) else range(len(node)) if isinstance(node, list) else ()
    for key in keys:
        yield node, key
        yield from _places(node[key])


def _copied(node: Any) -> Any:
    return json.loads(json.dumps(node))


def record_changed(data: bytes, chance: random.Random) -> bytes:
    """Spoil a record's file: mostly its tree, so that what comes of it is often one that is shaped."""
    if chance.randrange(4):
        try:
            tree = yaml.load(data.decode(), Loader=yaml.CBaseLoader)
            return yaml.dump(tree_changed(tree, chance), Dumper=yaml.CSafeDumper, allow_unicode=True,
                             sort_keys=False).encode()  # fmt: skip
        except (yaml.YAMLError, UnicodeError, RecursionError):
            pass  # a file that was spoiled before
    return chance.choice((bytes_changed, lines_changed))(data, chance)


def json_changed(data: bytes, chance: random.Random) -> bytes:
    """Spoil a file of a job or of a training: mostly its tree."""
    if chance.randrange(5):
        return json.dumps(tree_changed(json.loads(data), chance)).encode()
    return chance.choice((bytes_changed, lines_changed))(data, chance)


def text_changed(data: bytes, chance: random.Random) -> bytes:
    """Spoil one line of text: words in place of words."""
    if not chance.randrange(3):
        return bytes_changed(data, chance)
    text = data.decode(errors="replace")
    for _ in range(chance.choice((1, 2, 5))):
        at = chance.randrange(len(text) + 1)
        word = chance.choice((*WORDS, *"*_`[]()<>&#!|-+/=~:\\\n ", "if", "else", "and", "not", "**", "//"))
        text = text[:at] + word * chance.choice((1, 1, 2, 30)) + text[at + chance.choice((0, 0, 1, 9)):]
    return text.encode(errors="replace")[:20_000]
