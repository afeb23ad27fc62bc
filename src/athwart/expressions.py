"""The expressions of formulas: read once with ``ast``, evaluated or printed, never run as code.

The language is small on purpose: numbers, texts, names, ``a.b`` of a record, arithmetic, comparison, ``and or not``,
``x if c else y``, tuples and calls of named functions. Everything else is refused with the place. The same reader serves
the contract tests (against the code, and with quantities that carry units) and the printer of explanations.
"""

from __future__ import annotations

import ast
import math
import operator
from collections.abc import Callable, Mapping
from functools import cache
from types import MappingProxyType

from athwart.errors import AthwartError


class ExpressionError(AthwartError, ValueError):
    """An expression that is not in the language, or a name in it that nobody knows."""


def sign(number: float) -> float:
    """Minus one, nought or one."""
    return float((number > 0.0) - (number < 0.0))


_OF_MATH = ("sqrt", "exp", "log", "log10", "sin", "cos", "tan", "asin", "acos", "atan2", "ceil", "floor")
FUNCTIONS: Mapping[str, Callable[..., object]] = MappingProxyType(
    {name: getattr(math, name) for name in _OF_MATH} | {"abs": abs, "min": min, "max": max, "sign": sign}
)
"""What an expression may call besides the functions it is given by name."""

CONSTANTS: Mapping[str, float] = MappingProxyType({"pi": math.pi})

_BINARY: dict[type[ast.operator], Callable[..., object]] = {
    ast.Add: operator.add,
    ast.Sub: operator.sub,
    ast.Mult: operator.mul,
    ast.Div: operator.truediv,
    ast.FloorDiv: operator.floordiv,
    ast.Mod: operator.mod,
    ast.Pow: operator.pow,
}
_COMPARE: dict[type[ast.cmpop], Callable[..., object]] = {
    ast.Lt: operator.lt,
    ast.LtE: operator.le,
    ast.Gt: operator.gt,
    ast.GtE: operator.ge,
    ast.Eq: operator.eq,
    ast.NotEq: operator.ne,
}
_UNARY: dict[type[ast.unaryop], Callable[..., object]] = {
    ast.USub: operator.neg,
    ast.UAdd: operator.pos,
    ast.Not: operator.not_,
}


@cache
def parse(expr: str) -> ast.expr:
    """The tree of an expression.

    Raises
    ------
    ExpressionError
        It is not an expression at all.
    """
    try:
        return ast.parse(expr.strip(), mode="eval").body
    except SyntaxError as error:
        raise ExpressionError(f"not an expression: {expr!r} ({error.msg})") from None


def names_in(expr: str) -> frozenset[str]:
    """Names an expression refers to, functions included."""
    return frozenset(node.id for node in ast.walk(parse(expr)) if isinstance(node, ast.Name))


def terms(expr: str) -> tuple[str, ...]:
    """The terms of a sum: ``a - b*c + d`` gives ``a``, ``b*c`` and ``d``; their signs are left out."""

    def split(node: ast.expr) -> list[ast.expr]:
        if isinstance(node, ast.BinOp) and isinstance(node.op, ast.Add | ast.Sub):
            return split(node.left) + split(node.right)
        if isinstance(node, ast.UnaryOp) and isinstance(node.op, ast.USub | ast.UAdd):
            return split(node.operand)
        return [node]

    return tuple(ast.unparse(node) for node in split(parse(expr)))


def evaluate(expr: str, names: Mapping[str, object], functions: Mapping[str, Callable[..., object]] = FUNCTIONS) -> object:
    """The value of an expression, with ``names`` for its names and ``functions`` for its calls.

    A function is looked up in ``functions`` first, then in ``names`` (a registered formula, say). Values may be any
    objects that bear the operators: floats, or quantities with units.

    Raises
    ------
    ExpressionError
        A name is unknown, or the expression is outside the language.

    Examples
    --------
    Half a volt and a little more, lost on a pair of conductors:

    >>> evaluate("current * 2 * run * resistance", {"current": 300.0, "run": 4.0, "resistance": 0.25e-3})
    0.6
    """
    return _value(parse(expr), names, functions)


def _value(node: ast.expr, names: Mapping[str, object], functions: Mapping[str, Callable[..., object]]) -> object:
    def value(inner: ast.expr) -> object:
        return _value(inner, names, functions)

    match node:
        case ast.Constant(value=float() | int() | str() | None):
            return node.value
        case ast.Name(id=name):
            if name in names:
                return names[name]
            if name in CONSTANTS:
                return CONSTANTS[name]
            raise ExpressionError(f"unknown name {name!r}")
        case ast.Attribute(value=inner, attr=attr) if not attr.startswith("_"):
            return getattr(value(inner), attr)
        case ast.BinOp(left=left, op=op, right=right) if type(op) in _BINARY:
            return _BINARY[type(op)](value(left), value(right))
        case ast.UnaryOp(op=unary, operand=operand):
            if type(unary) in _UNARY:
                return _UNARY[type(unary)](value(operand))
        case ast.IfExp(test=test, body=body, orelse=orelse):
            return value(body) if value(test) else value(orelse)
        case ast.BoolOp(op=ast.And(), values=values):
            return all(value(inner) for inner in values)
        case ast.BoolOp(op=ast.Or(), values=values):
            return any(value(inner) for inner in values)
        case ast.Compare(left=left, ops=ops, comparators=comparators) if all(type(op) in _COMPARE for op in ops):
            sides = [value(left), *(value(inner) for inner in comparators)]
            return all(_COMPARE[type(op)](a, b) for op, a, b in zip(ops, sides, sides[1:], strict=False))
        case ast.Tuple(elts=elements):
            return tuple(value(inner) for inner in elements)
        case ast.Call(func=ast.Name(id=name), args=args, keywords=keywords):
            function = functions.get(name, names.get(name))
            if not callable(function):
                raise ExpressionError(f"unknown function {name!r}")
            named = {keyword.arg: value(keyword.value) for keyword in keywords if keyword.arg is not None}
            return function(*(value(inner) for inner in args), **named)
    raise ExpressionError(f"not in the language of expressions: {ast.unparse(node)!r}")


# ---- printing

_SUPERSCRIPT = str.maketrans("0123456789-", "⁰¹²³⁴⁵⁶⁷⁸⁹⁻")
_SIGNS: dict[type[ast.operator | ast.cmpop], tuple[str, int]] = {
    ast.Lt: (" < ", 4),
    ast.LtE: (" ≤ ", 4),
    ast.Gt: (" > ", 4),
    ast.GtE: (" ≥ ", 4),
    ast.Eq: (" = ", 4),
    ast.NotEq: (" ≠ ", 4),
    ast.Add: (" + ", 5),
    ast.Sub: (" − ", 5),
    ast.Mult: (" × ", 6),
    ast.Div: (" / ", 6),
    ast.FloorDiv: (" div ", 6),
    ast.Mod: (" mod ", 6),
}
_ATOM = 9
_NAMES_OF_FUNCTIONS = {"log": "ln", "log10": "lg", "asin": "arcsin", "acos": "arccos"}


def render(expr: str, names: Mapping[str, object]) -> str:
    """An expression in plain text with ``names`` put in: symbols, or numbers with their units.

    Texts are printed as they are, floats with six significant digits, other names stay. A text with a unit or a sign is
    bracketed where the reader could take its end for a part of the expression.

    Examples
    --------
    >>> render("current * RHO * 2 * run / area", {"current": "400 A", "run": "6 m", "area": "95 mm²", "RHO": "ρ"})
    '400 A × ρ × 2 × 6 m / (95 mm²)'
    >>> render("0.5 * rho * speed**2 * (area + 1)", {"speed": "10.3 m/s", "rho": 1.225})
    '0.5 × 1.225 × (10.3 m/s)² × (area + 1)'
    """
    return _text(parse(expr), names)[0]


def _text(node: ast.expr, names: Mapping[str, object]) -> tuple[str, int]:
    """Text of a node and how tightly it binds."""

    def inside(inner: ast.expr, binding: int) -> str:
        text, tight = _text(inner, names)
        return f"({text})" if tight < binding else text

    def bare(inner: ast.expr) -> str:
        return _text(inner, names)[0]

    match node:
        case ast.Constant(value=float() | int() as number):
            return _number(number)
        case ast.Constant():
            return str(node.value), _ATOM
        case ast.Name(id=name):
            shown = names.get(name, "π" if name == "pi" else name)
            return _number(shown) if isinstance(shown, float | int) else _given(str(shown))
        case ast.Attribute():
            shown = names.get(ast.unparse(node), ast.unparse(node))
            return _number(shown) if isinstance(shown, float | int) else _given(str(shown))
        case ast.BinOp(left=left, op=ast.Pow(), right=ast.Constant(value=int(power))):
            return inside(left, _ATOM) + str(power).translate(_SUPERSCRIPT), 8
        case ast.BinOp(left=left, op=ast.Pow(), right=right):
            return f"{inside(left, _ATOM)}^{inside(right, _ATOM)}", 8
        case ast.BinOp(left=left, op=op, right=right) if type(op) in _SIGNS:
            sign_, binding = _SIGNS[type(op)]
            tighter = binding + 2 if isinstance(op, ast.Div | ast.FloorDiv | ast.Mod) else binding + isinstance(op, ast.Sub)
            return inside(left, binding) + sign_ + inside(right, tighter), binding
        case ast.UnaryOp(op=ast.USub(), operand=operand):
            return "−" + inside(operand, 6), 5
        case ast.UnaryOp(op=ast.Not(), operand=operand):
            return "not " + inside(operand, 4), 3
        case ast.UnaryOp(operand=operand):
            return bare(operand), 5
        case ast.IfExp(test=test, body=body, orelse=orelse):
            return f"{inside(body, 2)} if {inside(test, 2)}, else {inside(orelse, 1)}", 1
        case ast.BoolOp(op=joint, values=values):
            word, binding = (" and ", 3) if isinstance(joint, ast.And) else (" or ", 2)
            return word.join(inside(inner, binding + 1) for inner in values), binding
        case ast.Compare(left=left, ops=ops, comparators=comparators) if all(type(op) in _SIGNS for op in ops):
            parts = [_SIGNS[type(op)][0] + inside(inner, 5) for op, inner in zip(ops, comparators, strict=True)]
            return inside(left, 5) + "".join(parts), 4
        case ast.Tuple(elts=elements):
            return f"({', '.join(bare(inner) for inner in elements)})", _ATOM
        case ast.Call(func=ast.Name(id="sqrt"), args=[inner]):
            return f"√({bare(inner)})", _ATOM
        case ast.Call(func=ast.Name(id="abs"), args=[inner]):
            return f"|{bare(inner)}|", _ATOM
        case ast.Call(func=ast.Name(id=name), args=args, keywords=keywords):
            shown_name = str(names.get(name, _NAMES_OF_FUNCTIONS.get(name, name)))
            inner_texts = [bare(inner) for inner in args] + [bare(keyword.value) for keyword in keywords]
            return f"{shown_name}({', '.join(inner_texts)})", _ATOM
    raise ExpressionError(f"not in the language of expressions: {ast.unparse(node)!r}")


def _number(number: float) -> tuple[str, int]:
    """A number as printed, and how tightly it binds: a negative one like a difference."""
    text = str(number) if isinstance(number, int) else f"{number:.6g}"
    return (text.replace("-", "−"), 5 if number < 0 else _ATOM)


def _given(text: str) -> tuple[str, int]:
    """A text from outside: a bare symbol binds tightly, one with a unit like a product, a signed one like a difference."""
    if text.startswith(("-", "−")):
        return text, 5
    return text, 7 if " " in text else _ATOM
