"""Words of Python's grammar: which operators the language takes over, and what to write for what it leaves out."""

from __future__ import annotations

import ast
import re

OPERATORS: dict[type, str] = {
    ast.Add: "+",
    ast.Sub: "-",
    ast.Mult: "*",
    ast.Div: "/",
    ast.Pow: "**",
    ast.Eq: "==",
    ast.NotEq: "!=",
    ast.Lt: "<",
    ast.LtE: "<=",
    ast.Gt: ">",
    ast.GtE: ">=",
    ast.And: "and",
    ast.Or: "or",
}

_BITS = ("bits are not worked with here", "write and, or, not for conditions and ** for powers")
_LISTS = ("lists are not part of the language", "write the values as arguments: min(a, b, c)")
_SUBSCRIPT = ("there are no indexes in the language", "use table(name, column, key) to look a value up")

NOT_HERE = ("this is not part of the language", "write it with the functions there are")
LEFT_OUT: dict[type, tuple[str, str]] = {
    ast.Mod: ('the language has no "%"', "write a - b * floor(a / b), or with_unit(5, percent)"),
    ast.FloorDiv: ('the language has no "//"', "write floor(a / b)"),
    ast.MatMult: ('the language has no "@"', "write * to multiply"),
    ast.BitAnd: _BITS,
    ast.BitOr: _BITS,
    ast.BitXor: _BITS,
    ast.LShift: _BITS,
    ast.RShift: _BITS,
    ast.Invert: _BITS,
    ast.UAdd: ("a plus sign in front changes nothing", "leave it out"),
    ast.Is: ('"is" is not a comparison here', "write =="),
    ast.IsNot: ('"is not" is not a comparison here', "write !="),
    ast.In: ('"in" is not a comparison here', 'write a == "x" or a == "y"'),
    ast.NotIn: ('"not in" is not a comparison here', 'write a != "x" and a != "y"'),
    ast.Lambda: ("functions cannot be defined here", "name the formula under work"),
    ast.NamedExpr: ("names cannot be given inside a formula", "name the formula under work"),
    ast.Attribute: ("there is no dot in names", "write the name alone"),
    ast.Subscript: _SUBSCRIPT,
    ast.Slice: _SUBSCRIPT,
    ast.JoinedStr: ("texts are not put together here", "write a decision with a row for each text"),
    ast.List: _LISTS,
    ast.Tuple: _LISTS,
    ast.Set: _LISTS,
    ast.Dict: _LISTS,
    ast.Starred: _LISTS,
    ast.ListComp: _LISTS,
    ast.SetComp: _LISTS,
    ast.DictComp: _LISTS,
    ast.GeneratorExp: _LISTS,
    ast.Await: ("this is not part of the language", "leave the word out"),
    ast.Yield: ("this is not part of the language", "leave the word out"),
    ast.YieldFrom: ("this is not part of the language", "leave the word out"),
}
"""What Python's grammar has and the language leaves out: message and what to do."""

NAMES_LEFT_OUT = {
    "True": "write a comparison",
    "False": "write a comparison",
    "None": "write a comparison",
    "e": "write exp(1)",
}

_CHARACTERS = {
    "#": ("comments have no place in a formula", "write the remark in a note field"),
    "\\": ("a backslash has no place in a formula", "leave it out"),
    "\0": ("the formula holds a NUL character", "leave it out"),
    "^": ('"^" is not the sign for powers', "write **"),
    "×": ('"×" is not the sign for multiplying', "write *"),
    "·": ('"·" is not the sign for multiplying', "write *"),
    "÷": ('"÷" is not the sign for dividing', "write /"),
    "−": ('"−" is not the keyboard\'s minus', "write -"),
    "–": ('"–" is not the keyboard\'s minus', "write -"),
    "≤": ('"≤" is not written so', "write <="),
    "≥": ('"≥" is not written so', "write >="),
    "≠": ('"≠" is not written so', "write !="),
    "°": ('"°" is not part of a name', "write degC or degree"),
    "“": ("curly quotes are not quotes here", 'write "'),
    "”": ("curly quotes are not quotes here", 'write "'),
    "π": ('"π" is not a name', "write pi"),
    "√": ('"√" is not a function', "write sqrt(x)"),
    ";": ("a formula is one expression", "leave the semicolon out"),
    "{": _LISTS,
    "[": _SUBSCRIPT,
    "]": _SUBSCRIPT,
    "&": _BITS,
    "|": _BITS,
    "~": _BITS,
}
_REFUSED = re.compile("[" + re.escape("".join(_CHARACTERS)) + "\x01-\x1f\x7f-\x9f\ud800-\udfff]")
_QUOTED = re.compile(r"\"[^\"]*\"|'[^']*'")


def refusal_of_character(text: str) -> tuple[int, str, str] | None:
    """Return place, message and what to do for the first character that has no place outside quotes."""
    bare = _QUOTED.sub(lambda found: " " * len(found[0]), text)
    for subject, always in ((text, "#\\\0"), (bare, "")):
        for found in _REFUSED.finditer(subject):
            if not always or found[0] in always or found[0] not in _CHARACTERS:
                message, do = _CHARACTERS.get(found[0], ("the formula holds a character nobody sees", "leave it out"))
                return found.start(), message, do
    return None
