"""A formula's tree -> MathML as a reader sets it: fractions, roots, powers, cases; names and units in upright text.

`equation` and `condition` are the entry points. The pieces of a sum or product stand side by side at the top, so that
the style sheet may break the line between them. Only MathML Core is used.
"""

from __future__ import annotations

from collections.abc import Iterable
from html import escape

from builder.formula.units import unit
from builder.model.expression import Binary, Call, Choice, Conditional, Expression, Name, Number, Unary, UnitName
from builder.model.html import Html
from builder.model.signs import NO_BREAK, with_sign

_APPLY, _COMMA = "<mo>&#x2061;</mo>", '<mo form="infix" separator="true">,</mo>'
_SIGNS = {"+": "+", "-": "−", "*": "×", "==": "=", "!=": "≠", "<": "&lt;", "<=": "≤", ">": "&gt;", ">=": "≥"}
_FENCES = {"abs": ("|", "|"), "floor": ("⌊", "⌋"), "ceil": ("⌈", "⌉")}
_OF_MANY, _FEW = ("min", "max", "median"), 2
_TALL = ("<mfrac", "<mtr", "<msup")
_CASES, _LOGIC, _NOT, _COMPARED, _WORDS, _SUM, _SIGNED, _PRODUCT, _QUOTIENT, _POWER, _APPLIED, _ATOM = range(12)
"""How tightly a part holds together: one that holds less tightly than its place asks for is put in brackets."""
_LEVELS = {
    "or": _LOGIC, "and": _LOGIC, "+": _SUM, "-": _SUM, "*": _PRODUCT, "/": _QUOTIENT, "**": _POWER,
    **dict.fromkeys(("==", "!=", "<", "<=", ">", ">="), _COMPARED),
}  # fmt: skip


def equation(name: str, node: Expression) -> Html:
    """Write `name = formula`."""
    first = _row(_name(name), _infix("="))
    return Html(f'<math display="block" class="equation">{first}{"".join(_pieces(node))}</math>')


def condition(node: Expression) -> Html:
    """Write a condition, to stand in a line of text."""
    return Html(f'<math class="equation">{"".join(_pieces(node))}</math>')


def readable(name: str) -> str:
    """Return a name as it is read."""
    return name.replace("_", " ").replace("-", " ")


def _pieces(node: Expression) -> list[str]:
    """The parts between which a line may be broken, each with the sign before it."""
    if isinstance(node, Binary) and node.operator in ("+", "-", "*"):
        level = _LEVELS[node.operator]
        left = _pieces(node.left) if _level(node.left) == level else [_at(node.left, level)]
        right = _at(node.right, _PRODUCT if level == _SUM else _QUOTIENT)
        return [*left, _row(_infix(_SIGNS[node.operator]), right)]
    if isinstance(node, Binary) and node.operator in ("and", "or"):
        left = _pieces(node.left) if _is(node.left, node.operator) else [_at(node.left, _NOT)]
        return [*left, _row(_text(f"{NO_BREAK}{node.operator}{NO_BREAK}"), _at(node.right, _NOT))]
    if isinstance(node, Call) and node.function in _OF_MANY and len(node.arguments) > _FEW:
        return _listed_apart(node)
    return [_inner(node)]


def _listed_apart(node: Call) -> list[str]:
    """A long list of arguments, which may be broken after each comma."""
    first, *others = (_inner(one) for one in node.arguments)
    last = others.pop()
    head = _row(_name(node.function), _APPLY, _fence("(", "prefix", ""), first, _COMMA)
    return [head, *(_row(one, _COMMA) for one in others), _row(last, _fence(")", "postfix", ""))]


def _is(node: Expression, operator: str) -> bool:
    return isinstance(node, Binary) and node.operator == operator


def _level(node: Expression) -> int:
    match node:
        case Binary():
            return _LEVELS[node.operator]
        case Unary():
            return _NOT if node.operator == "not" else _SIGNED
        case Conditional():
            return _CASES
        case Call(function="table"):
            return _WORDS
        case Call(function="in_unit" | "with_unit"):
            return _WORDS if node.function == "in_unit" and _is_point(node.arguments[1]) else _QUOTIENT
        case Call(function="exp"):
            return _POWER
        case Call():
            return _ATOM if node.function in (*_FENCES, "sqrt", "pi") else _APPLIED
    return _ATOM


def _at(node: Expression, least: int) -> str:
    """A part in a place that asks for one that holds together so tightly."""
    return _inner(node) if _level(node) >= least else _fenced("(", _inner(node), ")")


def _inner(node: Expression) -> str:
    match node:
        case Number():
            return _number(node.text)
        case Name():
            return _name(node.name)
        case Choice():
            return _text(f"“{readable(node.id)}”")
        case Unary(operator="not"):
            return _row(_text(f"not{NO_BREAK}"), _at(node.operand, _COMPARED))
        case Unary():
            return _row('<mo form="prefix">−</mo>', _at(node.operand, _PRODUCT))
        case Conditional():
            return _cases(node)
        case Binary():
            return _binary(node)
        case Call():
            return _call(node)
        case UnitName():
            raise AssertionError("a unit stands only inside in_unit and with_unit")


def _binary(node: Binary) -> str:
    if node.operator == "/":
        return f"<mfrac>{_at(node.left, _CASES)}{_at(node.right, _CASES)}</mfrac>"
    if node.operator == "**":
        return f"<msup>{_at(node.left, _ATOM)}{_at(node.right, _CASES)}</msup>"
    if node.operator in ("+", "-", "*", "and", "or"):
        return _row(*_pieces(node))
    return _row(_at(node.left, _WORDS), _infix(_SIGNS[node.operator]), _at(node.right, _WORDS))


def _cases(node: Conditional) -> str:
    rows = []
    rest: Expression = node
    while isinstance(rest, Conditional):
        rows.append((_at(rest.then, _LOGIC), _text(f"if{NO_BREAK}") + _inner(rest.condition)))
        rest = rest.otherwise
    rows.append((_inner(rest), _text("otherwise")))
    table = "".join(f"<mtr><mtd>{_row(value)}</mtd><mtd>{_row(when)}</mtd></mtr>" for value, when in rows)
    return _row(_fence("{", "prefix", table), f'<mtable class="cases">{table}</mtable>')


def _call(node: Call) -> str:
    arguments = node.arguments
    match node.function:
        case "pi":
            return '<mi mathvariant="normal">π</mi>'
        case "sqrt":
            return f"<msqrt>{_inner(arguments[0])}</msqrt>"
        case "exp":
            return f"<msup><mi>e</mi>{_row(_inner(arguments[0]))}</msup>"
        case "abs" | "floor" | "ceil":
            before, behind = _FENCES[node.function]
            return _fenced(before, _inner(arguments[0]), behind)
        case "in_unit" | "with_unit":
            return _with_unit(node.function, *arguments)
        case "table":
            return _table(*arguments)
        case "log10":
            return _row("<msub><mi>log</mi><mn>10</mn></msub>", _APPLY, _listed(arguments))
    return _row(_name(node.function), _APPLY, _listed(arguments))


def _with_unit(function: str, value: Expression, named: Expression) -> str:
    """A number with its unit; or a quantity over one of its unit, and a temperature's reading in words."""
    assert isinstance(named, UnitName)
    behind = _text(with_sign("", named.name))
    if function == "with_unit":
        return _row(_at(value, _QUOTIENT), behind)
    if _is_point(named):
        return _row(_at(value, _SUM), _text(f"{NO_BREAK}in"), behind)
    return f"<mfrac>{_at(value, _CASES)}{_row('<mn>1</mn>', behind)}</mfrac>"


def _is_point(named: Expression) -> bool:
    found = unit(named.name) if isinstance(named, UnitName) else None
    return found is not None and found.is_point


def _table(table: Expression, column: Expression, *keys: Expression) -> str:
    assert isinstance(table, Name)
    assert isinstance(column, Name)
    return _row(_name(column.name), _text(f"{NO_BREAK}from table{NO_BREAK}"), _name(table.name),
                _text(f"{NO_BREAK}at{NO_BREAK}"), _listed(keys))  # fmt: skip


def _listed(arguments: Iterable[Expression]) -> str:
    return _fenced("(", _COMMA.join(_inner(one) for one in arguments), ")")


def _fenced(before: str, inner: str, behind: str) -> str:
    return _row(_fence(before, "prefix", inner), inner, _fence(behind, "postfix", inner))


def _fence(sign: str, form: str, inner: str) -> str:
    """A bracket, as tall as what it holds where that is more than a line of words."""
    is_tall = any(tag in inner for tag in _TALL)
    stretchy = "true" if is_tall else "false"
    return f'<mo form="{form}" fence="true" stretchy="{stretchy}">{sign}</mo>'


def _infix(sign: str) -> str:
    """A sign keeps its room on both sides though a piece begins with it."""
    return f'<mo form="infix">{sign}</mo>'


def _number(text: str) -> str:
    digits, _, power = text.lower().partition("e")
    if not power:
        return f"<mn>{digits}</mn>"
    raised = f"<msup><mn>10</mn><mn>{power.lstrip('+').replace('-', '−')}</mn></msup>"
    return _row(f"<mn>{digits}</mn>", _infix("×"), raised)


def _name(name: str) -> str:
    """A lone letter would be set slanting, as if it were another sort of name."""
    upright = ' mathvariant="normal"' if len(name) == 1 else ""
    return f"<mi{upright}>{escape(readable(name))}</mi>"


def _text(text: str) -> str:
    return f"<mtext>{escape(text)}</mtext>"


def _row(*parts: str) -> str:
    """A group; a single part that is whole already needs none."""
    return f"<mrow>{''.join(parts)}</mrow>"
