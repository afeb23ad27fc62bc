"""Strategies shared by the property tests: quantities in any unit, and texts that look like quantities."""

from __future__ import annotations

import math

from hypothesis import strategies as st
from hypothesis.strategies import SearchStrategy

from athwart.units import QUANTITIES, Quantity, Unit

UNITS: tuple[tuple[str, Unit], ...] = tuple((kind, unit) for kind, quantity in QUANTITIES.items() for unit in quantity.units)
"""Every kind with every unit of it."""

_PIECES = (
    *(spelling for quantity in QUANTITIES.values() for spelling in quantity.table),
    *(
        "AWG",
        "SAE",
        "Bft",
        "force",
        "CCA",
        "EN",
        "(SAE)",
        "1/0",
        "2/0",
        "00",
        "1/2",
        "½",
        "'",
        '"',
        "-",
        "−",
        "+",
        ".",
        ",",
        "/",
        "^",
    ),
    *(
        "nan",
        "inf",
        "e",
        "E5",
        "1e400",
        "to",
        "±",
        "about",
        " ",
        "  ",
        "\u00a0",
        "\u202f",
        "\t",
        "\n",
        "",
        "٣",
        "²",
        "ſ",
        "\x00",
        "0x1F",
    ),
)


def values(quantity: Quantity, unit: Unit) -> SearchStrategy[float]:
    """SI values of a kind over many decades of a unit, well inside the bounds of the kind."""
    low, high = quantity.low * (0.5 if quantity.low < 0.0 else 2.0), 0.5 * quantity.high  # rounding to one figure stays inside
    low = max(low, 0.6 * unit.offset)  # and above absolute zero
    number = st.builds(lambda mantissa, power: mantissa * 10.0**power, st.floats(1.0, 9.999), st.integers(-5, 12))
    signed = st.builds(lambda size, sign: size * sign, number, st.sampled_from((1.0, -1.0)))
    return signed.map(unit.to_si).filter(lambda value: low <= value <= high)


def cases() -> SearchStrategy[tuple[str, Unit, float]]:
    """A kind, a unit of it and a value: counts are whole."""

    def of(pair: tuple[str, Unit]) -> SearchStrategy[tuple[str, Unit, float]]:
        kind, unit = pair
        drawn = st.integers(0, 10**6).map(float) if kind == "count" else values(QUANTITIES[kind], unit)
        return st.tuples(st.just(kind), st.just(unit), drawn)

    return st.sampled_from(UNITS).flatmap(of)


def lengths(low: float = 0.0, high: float = 60.0) -> SearchStrategy[float]:
    """Lengths of boats and of their parts. [m]"""
    return st.floats(low, high, allow_nan=False)


def durations() -> SearchStrategy[float]:
    """Times from a millisecond to years, evenly over the decades. [s]"""
    return st.floats(-3.0, 8.0).map(lambda power: math.pow(10.0, power))


def number_texts() -> SearchStrategy[str]:
    """Numbers with every separator in every place."""
    digits = st.text("0123456789", min_size=1, max_size=5)
    return st.lists(digits, min_size=1, max_size=4).flatmap(
        lambda groups: st.builds(
            lambda marks: "".join(a + b for a, b in zip(groups, [*marks, ""], strict=True)),
            st.lists(st.sampled_from((".", ",", " ", "\u202f", "'", "_")), min_size=len(groups) - 1, max_size=len(groups) - 1),
        )
    )


def quantity_texts() -> SearchStrategy[str]:
    """Anything a person or a broken file may hold where a quantity is asked: noise, pieces of quantities, long texts."""
    pieces = st.lists(st.one_of(st.sampled_from(_PIECES), number_texts()), max_size=8).map("".join)
    spaced = st.lists(st.one_of(st.sampled_from(_PIECES), number_texts()), max_size=6).map(" ".join)
    long = st.builds(
        lambda text, times: text * times,
        st.sampled_from(("1 ", "9", "1/", "1 000 ", ",5", "1' ", "a", " ")),
        st.integers(1, 3000),
    )
    return st.one_of(pieces, spaced, st.text(max_size=40), long)
