"""MathML -> the line a reader would read from it, and the formula that this line says: told by what is seen alone.

It knows nothing of the trees that the MathML was made of: brackets are where they stand, and elsewhere the usual order
of signs holds.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from xml.etree import ElementTree
from xml.etree.ElementTree import Element

from builder.model.html import Html

_OPENING = {"⌊": "floor(", "⌈": "ceil(", "|": "abs(", "(": "(", "{": ""}
_CLOSING = {"⌋": ")", "⌉": ")", "|": ")", ")": ")"}
_SIGNS = {"−": "-", "×": "*", "=": "==", "≠": "!=", "≤": "<=", "≥": ">="}


def element(math: Html) -> Element:
    """The math element."""
    return ElementTree.fromstring(math.replace("&#x2061;", ""))


def line(nodes: Iterable[Element]) -> str:
    """What a reader reads, with one blank on both sides of a sign between two things."""
    return re.sub(r" +", " ", "".join(map(_line, nodes))).strip()


def _line(node: Element) -> str:
    below = list(node)
    text = (node.text or "").replace("\u00a0", " ")
    match node.tag:
        case "mfrac":
            return f"{{{line(below[:1])} over {line(below[1:])}}}"
        case "msup":
            return f"{{{line(below[:1])} ^ {line(below[1:])}}}"
        case "msub":
            return f"{line(below[:1])}_{line(below[1:])}"
        case "msqrt":
            return f"root{{{line(below)}}}"
        case "mtable":
            return "cases[" + "; ".join(" ".join(line(cell) for cell in row) for row in below) + "]"
        case "mo" if text == ",":
            return ", "
        case "mo" if text == "{":
            return ""
        case "mo":
            return f" {text} " if node.get("form") == "infix" else text
        case "mi" | "mn" | "mtext":
            return text
    return "".join(map(_line, below))


def formula(nodes: Iterable[Element]) -> str:
    """The same in the formula language: brackets are those that are seen, and those that a bar or a root stands for."""
    return "".join(map(_formula, nodes))


def _formula(node: Element) -> str:
    below = list(node)
    text = (node.text or "").replace("\u00a0", " ")
    match node.tag:
        case "mfrac":
            return f"(({formula(below[:1])}) / ({formula(below[1:])}))"
        case "msup" if below[0].text == "e":
            return f"exp({formula(below[1:])})"
        case "msup":
            return f"({formula(below[:1])} ** ({formula(below[1:])}))"
        case "msub":
            return "log10"
        case "msqrt":
            return f"sqrt({formula(below)})"
        case "mtable":
            return f"({''.join(_case(*row) for row in below)})"
        case "mo":
            return _sign(text, node.get("form"))
        case "mi" | "mn":
            return "pi" if text == "π" else text.replace(" ", "_").replace("−", "-")
        case "mtext":
            return f'"{text.strip("“”")}"' if text.startswith("“") else text
    return formula(below)


def _sign(text: str, form: str | None) -> str:
    if form == "prefix" and text in _OPENING:
        return _OPENING[text]
    if form == "postfix":
        return _CLOSING[text]
    return f" {_SIGNS.get(text, text)} "


def _case(value: Element, when: Element) -> str:
    """`(value) if (condition) else ` of a row with a condition; the last says otherwise."""
    first, *condition = list(when[0])
    if not condition:
        assert first.text == "otherwise"
        return f"({formula(value)})"
    return f"({formula(value)}) if ({formula(condition)}) else "
