"""A drawing as a page holds it in, the same in fewer letters out.

Places are told from the place before, strokes of one kind that follow each other are one path, and of the names of
classes those are left that `templates/pocket/pocket.css` knows, a letter each.
"""

from __future__ import annotations

import re

CLASSES = {
    "sheet": "s", "paper": "p", "sealer": "e", "film": "f", "film-line": "f", "solid": "d", "thin": "t", "hatch": "t",
}  # fmt: skip
"""What has a look of its own, by its letter; film is drawn as its line is, a hatch as thin lines are."""
_FILLED = frozenset("spe")
"""Areas: two in one path might take each other away where they overlap."""
_SIZE = ' font-size="13"'
"""The size of most letters, which the style sheet gives."""
_DRAWING = re.compile(r"<svg\b.*?</svg>", re.DOTALL)
_NAMED = re.compile(r' class="([^"]*)"')
_PATH = re.compile(r'<path((?: class=\w)?) d="([^"]*)"/>')
_RUN = re.compile(r'(?:<path(?: class=\w)? d="[^"]*"/>){2,}')
_COMMAND = re.compile(r"([A-Za-z])([^A-Za-z]*)")
_NUMBER = re.compile(r"-?\d+(?:\.\d+)?")
_TAKES = {"M": 2, "L": 2, "H": 1, "V": 1, "A": 7}


def fewer_letters(html: str) -> str:
    """Return a page with each of its drawings in fewer letters."""
    return _DRAWING.sub(lambda found: _drawing(found[0]), html)


def _drawing(svg: str) -> str:
    named = _NAMED.sub(_short, svg).replace(_SIZE, "")
    drawn = _PATH.sub(lambda path: f'<path{path[1]} d="{relative(path[2])}"/>', named)
    return _RUN.sub(_joined, drawn)


def _short(named: re.Match[str]) -> str:
    letters = [CLASSES[name] for name in named[1].split() if name in CLASSES]
    return f" class={letters[0]}" if letters else ""


def _joined(run: re.Match[str]) -> str:
    """Put paths of one kind that follow each other into one."""
    out: list[tuple[str, str]] = []
    for name, drawn in _PATH.findall(run[0]):
        if out and out[-1][0] == name and name[-1:] not in _FILLED:
            out[-1] = (name, out[-1][1] + drawn)
        else:
            out.append((name, drawn))
    return "".join(f'<path{name} d="{drawn}"/>' for name, drawn in out)


def relative(drawn: str) -> str:
    """Return a path with every place told from the one before; one that holds other curves stays as it is."""
    pieces = [(letter, [float(one) for one in _NUMBER.findall(numbers)]) for letter, numbers in _COMMAND.findall(drawn)]
    if any(letter != "Z" and (letter not in _TAKES or len(at) != _TAKES[letter]) for letter, at in pieces):
        return drawn
    out: list[str] = []
    x = y = 0.0
    start = (0.0, 0.0)
    for letter, at in pieces:
        if letter == "Z":
            out.append("z")
            x, y = start
            continue
        to_x = x if letter == "V" else at[0] if letter == "H" else at[-2]
        to_y = y if letter == "H" else at[-1]
        if letter == "M":
            out.append(_said("M", to_x, to_y))
            start = (to_x, to_y)
        elif letter == "A":
            out.append(_said("a", *at[:5], to_x - x, to_y - y))
        else:
            out.append(_line(to_x - x, to_y - y))
        x, y = to_x, to_y
    return "".join(out)


def _line(right: float, down: float) -> str:
    if not down:
        return _said("h", right)
    return _said("l", right, down) if right else _said("v", down)


def _said(letter: str, *numbers: float) -> str:
    out = letter
    for number in numbers:
        said = f"{number:g}"
        out += said if out == letter or said.startswith("-") else f" {said}"
    return out
