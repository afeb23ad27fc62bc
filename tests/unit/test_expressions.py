"""Expressions of formulas: read, evaluated, printed, and never run as code."""

from __future__ import annotations

import math
from types import SimpleNamespace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from athwart.expressions import ExpressionError, evaluate, names_in, render, terms


@pytest.mark.parametrize(
    ("expr", "value"),
    [
        ("1 + 2 * 3 ** 2 - 4 / 8", 18.5),
        ("-a ** 2", -9.0),
        ("sqrt(a * 3) + abs(-a) + pi", 6.0 + math.pi),
        ("min(a, b) if a < b else max(a, b)", 3.0),
        ("a if kind == 'closed' and not (b < 0) else b", 3.0),
        ("a < b < 10 or kind != 'closed'", True),
        ("7 // 2 + 7 % 2 + ceil(0.2) + floor(0.8) + sign(-3)", 4),
        ("atan2(a, a) + exp(0) + log(1) + log10(100)", math.pi / 4 + 3.0),
        ("double(b) + record.width", 18.5),
        ("double(number=b)", 16.0),
    ],
)
def test_values_are_those_of_arithmetic(expr: str, value: object) -> None:
    names = {"a": 3.0, "b": 8.0, "kind": "closed", "double": lambda number: 2.0 * number, "record": SimpleNamespace(width=2.5)}
    assert evaluate(expr, names) == pytest.approx(value)


@pytest.mark.parametrize(
    "expr",
    [
        "__import__('os')",
        "a.__class__",
        "(lambda: 1)()",
        "[a for a in b]",
        "open('x')",
        "a @ b",
        "a[0]",
        "f'{a}'",
        "{1: 2}",
        "record.width()",
        "unknown + 1",
        "~a",
        "a is b",
    ],
)
def test_anything_else_is_refused(expr: str) -> None:
    with pytest.raises(ExpressionError):
        evaluate(expr, {"a": 3, "b": 8, "record": SimpleNamespace(width=2.5)})


def test_a_text_that_is_no_expression_is_refused_with_the_text() -> None:
    with pytest.raises(ExpressionError, match="current \\*"):
        evaluate("current *", {})


@pytest.mark.parametrize(
    ("expr", "text"),
    [
        ("a * (b + c)", "a × (b + c)"),
        ("a - (b - c)", "a − (b − c)"),
        ("a - b - c", "a − b − c"),
        ("a / (b * c)", "a / (b × c)"),
        ("a / b / c", "a / b / c"),
        ("a * b / c", "a × b / c"),
        ("(a + b) ** 2", "(a + b)²"),
        ("-a ** 2", "−a²"),
        ("(-a) ** 2", "(−a)²"),
        ("a ** 0.5", "a^0.5"),
        ("a ** -2", "a^(−2)"),
        ("sqrt(a + b) * abs(c)", "√(a + b) × |c|"),
        ("log(a) + log10(b)", "ln(a) + lg(b)"),
        ("a if b >= c else 0", "a if b ≥ c, else 0"),
        ("a and (b or c)", "a and (b or c)"),
        ("max(a, 2 * pi)", "max(a, 2 × π)"),
    ],
)
def test_an_expression_is_printed_as_it_is_read(expr: str, text: str) -> None:
    assert render(expr, {}) == text


def test_numbers_and_texts_are_put_in_without_changing_the_meaning() -> None:
    names = {"a": -3.0, "b": "-5 °C", "c": "12 V", "d": 1.23456789e-8}
    assert render("a ** 2 * b - a", names) == "(−3)² × (-5 °C) − (−3)"
    assert render("c ** 2 / c", names) == "(12 V)² / (12 V)"
    assert render("d + e", names) == "1.23457e−08 + e"


def test_terms_and_names_are_told() -> None:
    assert terms("a - b * c + (d - e) - -f") == ("a", "b * c", "d", "e", "f")
    assert names_in("sqrt(a) + record.width") == {"sqrt", "a", "record"}


_LEAVES = st.sampled_from(["a", "b", "c", "2", "0.5"])


def _grown(inner: st.SearchStrategy[str]) -> st.SearchStrategy[str]:
    pair = st.tuples(inner, st.sampled_from(["+", "-", "*", "/"]), inner).map(lambda t: f"({t[0]}) {t[1]} ({t[2]})")
    return pair | inner.map(lambda text: f"-({text})") | inner.map(lambda text: f"({text}) ** 2")


@given(st.recursive(_LEAVES, _grown, max_leaves=12))
def test_the_printed_form_read_back_has_the_same_value(expr: str) -> None:
    names = {"a": 1.7, "b": 0.6, "c": 2.9}
    back = render(expr, {}).replace("×", "*").replace("−", "-").replace("²", "**2")
    try:
        value = evaluate(expr, names)
    except (ZeroDivisionError, OverflowError):
        return
    assert evaluate(back, names) == pytest.approx(value, rel=1e-9, nan_ok=True)
