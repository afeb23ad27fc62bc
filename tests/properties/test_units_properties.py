"""Quantities survive being printed and read; no text of any kind ends in anything but a value or a refusal."""

from __future__ import annotations

import math
import re
from collections.abc import Callable
from decimal import Decimal
from typing import TypeVar

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from athwart.units import (
    QUANTITIES,
    SYSTEMS,
    CrankingCurrent,
    QuantityError,
    Reading,
    Unit,
    parse,
    parse_cranking,
    read,
    show,
    show_band,
    show_cranking,
    show_length_ft_in,
)
from athwart.units.gauges import BEAUFORT_TOPS, SAE_AREAS, awg_area, gauge_size
from athwart.units.quantities import INCH
from tests.properties.strategies import UNITS, cases, durations, lengths, number_texts, quantity_texts

T = TypeVar("T")
_PRINTED = re.compile(r"-?[0-9 ]+(?:\.[0-9]+)?(?:e-?[0-9]+)?")


def outcome(reading: Callable[[], T]) -> T | QuantityError:
    """What reading gives: a value or the refusal; anything else is raised."""
    try:
        return reading()
    except QuantityError as error:
        return error


def half_last_digit(plain: str) -> float:
    """Half of the last printed digit, read from the text by other means than the parser."""
    found = _PRINTED.match(plain)
    assert found, plain
    exponent = Decimal(found[0].replace(" ", "")).as_tuple().exponent
    assert isinstance(exponent, int)
    return 0.5 * 10.0**exponent


def survives(value: float, kind: str, unit: Unit, digits: int, text: str, plain: str) -> bool:
    """Whether a printed text reads back to the value: within half a printed digit, and within half of ``digits`` figures."""
    number = abs(unit.from_si(value))
    half = half_last_digit(plain)
    if digits and number > 0.0:
        half = max(half, 0.5 * 10.0 ** (math.floor(math.log10(number)) + 1 - digits))
    slack = half * unit.factor * (1.0 + 1e-9) + 1e-12 * (abs(value) + abs(unit.offset))
    return abs(parse(plain, kind) - value) <= slack and parse(text, kind) == parse(plain, kind)


@settings(max_examples=500)
@given(cases(), st.integers(1, 12))
def test_what_is_printed_with_digits_reads_back(case: tuple[str, Unit, float], digits: int) -> None:
    kind, unit, value = case
    text, plain = show(value, kind, unit.symbol, digits), show(value, kind, unit.symbol, digits, plain=True)
    assert survives(value, kind, unit, digits, text, plain), plain
    assert read(plain, kind).unit == unit.symbol


@settings(max_examples=500)
@given(cases())
def test_what_is_printed_by_rule_reads_back(case: tuple[str, Unit, float]) -> None:
    kind, unit, value = case
    text, plain = show(value, kind, unit.symbol), show(value, kind, unit.symbol, plain=True)
    assert survives(value, kind, unit, 3, text, plain), plain


@pytest.mark.parametrize(("kind", "unit"), [pytest.param(*pair, id=f"{pair[0]}: {pair[1].symbol}") for pair in UNITS])
def test_every_unit_is_printed_and_read(kind: str, unit: Unit) -> None:
    value = unit.to_si(7.0 if unit.symbol != "m³/rad" else 7e-6)
    assert parse(show(value, kind, unit.symbol), kind) == pytest.approx(value, rel=1e-12)


@given(cases(), st.floats(1e-6, 0.5))
def test_a_band_is_printed_to_two_figures_and_the_value_to_its_place(case: tuple[str, Unit, float], share: float) -> None:
    kind, unit, value = case
    band = abs(value - unit.offset) * share
    plain = show_band(value, band, kind, unit.symbol, plain=True)
    if "±" not in plain:
        assert band == 0.0
        return
    head, _, tail = plain.partition(" ± ")
    printed = float(tail.replace(" ", ""))
    number = float(head.removesuffix(unit.symbol or "?").strip().replace(" ", ""))
    assert printed == pytest.approx(unit.scaled(band), rel=0.051)
    place = 10.0 ** (math.floor(math.log10(printed) + 1e-9) - 1)
    assert abs(number - unit.from_si(value)) <= 0.5 * place * (1.0 + 1e-6) + 1e-9 * abs(number)
    assert abs(number / place - round(number / place)) < 1e-4 or number > 1e6 * place


@given(lengths(-60.0, 60.0), st.sampled_from((1, 2, 4, 8, 16, 32, 64)))
def test_feet_and_inches_read_back_within_half_a_fraction(value: float, denominator: int) -> None:
    for plain in (True, False):
        back = parse(show_length_ft_in(value, denominator=denominator, plain=plain), "length")
        assert abs(back - value) <= 0.5 * INCH / denominator + 1e-12


@given(durations())
def test_a_time_as_a_clock_reads_back(value: float) -> None:
    text = show(value, "time", plain=True)
    allowed = 30.0 if " h" in text else 0.006 * value
    assert abs(parse(text, "time") - value) <= allowed + 1e-9, text


@pytest.mark.parametrize("size", range(-3, 41))
def test_every_awg_size_reads_back_from_its_name(size: int) -> None:
    text = show(awg_area(size), "conductor", "AWG", plain=True)
    assert gauge_size(text.removesuffix(" AWG")) == size
    assert parse(text, "conductor") == awg_area(size)


@pytest.mark.parametrize("size", SAE_AREAS)
def test_every_sae_size_reads_back_from_its_name(size: int) -> None:
    text = show(SAE_AREAS[size], "conductor", "SAE")
    assert parse(text, "conductor") == SAE_AREAS[size]


@pytest.mark.parametrize(("force", "top"), list(enumerate(BEAUFORT_TOPS)))
def test_every_wind_force_reads_as_its_top(force: int, top: float) -> None:
    assert show(top, "wind_speed", "Bft", plain=True) == f"{force} Bft"
    assert (
        parse(f"{force} Bft", "wind_speed") == parse(f"Bft {force}", "wind_speed") == parse(f"force {force}", "wind_speed") == top
    )


@given(st.floats(0.0, 32.6))
def test_a_wind_force_never_understates_the_speed_it_was_printed_from(speed: float) -> None:
    assert parse(show(speed, "wind_speed", "Bft"), "wind_speed") >= round(speed, 1) - 1e-12


@given(st.integers(1, 9_999), st.sampled_from(("SAE", "EN", "IEC", "DIN")))
def test_a_cranking_current_reads_back(amperes: int, standard: str) -> None:
    current = CrankingCurrent(float(amperes), standard)
    assert parse_cranking(show_cranking(current)) == parse_cranking(show_cranking(current, plain=True)) == current


@pytest.mark.parametrize("system", SYSTEMS)
@pytest.mark.parametrize("kind", QUANTITIES)
def test_every_preferred_unit_can_be_printed_and_read(system: str, kind: str) -> None:
    value = (
        70e-6
        if kind == "conductor"
        else 293.15
        if kind == "temperature"
        else 12.0
        if kind == "count"
        else QUANTITIES[kind].units[0].to_si(2.0)
    )
    back = parse(show(value, kind, SYSTEMS[system][kind]), kind)
    assert back == pytest.approx(value, rel=6e-3)


@settings(max_examples=1200)
@given(quantity_texts(), st.sampled_from(sorted(QUANTITIES)))
@example("1e400 m", "length")
@example("٣ m", "length")
@example("1 000 000 000 000 000 000 m", "length")
@example("1/0 in", "length")
@example("99999999999999999999999999999999999 Bft", "wind_speed")
@example("9" * 80, "ratio")
@example("1'" + "9" * 70 + '"', "length")
@example("9" * 60 + " h 1 min", "time")
@example("-0 kg", "mass")
def test_any_text_is_a_finite_value_within_bounds_or_refused(text: str, kind: str) -> None:
    quantity = QUANTITIES[kind]
    value = outcome(lambda: parse(text, kind))
    again = outcome(lambda: read(text, kind))
    if isinstance(value, QuantityError):
        assert quantity.example in str(value)
        assert quantity.allowed in str(value)
        assert value.mistakes[0].read == text
        assert len(str(value)) < 900
        assert str(again) == str(value)
    else:
        assert math.isfinite(value)
        assert quantity.low <= value <= quantity.high
        assert isinstance(again, Reading)
        assert again.value == value


@settings(max_examples=500)
@given(quantity_texts())
def test_any_text_is_a_cranking_current_or_refused(text: str) -> None:
    current = outcome(lambda: parse_cranking(text))
    if isinstance(current, QuantityError):
        assert "700 A CCA (EN)" in str(current)
    else:
        assert 1.0 <= current.amperes <= 1e4
        assert current.standard in ("SAE", "EN", "IEC", "DIN")


@settings(max_examples=500)
@given(number_texts())
def test_a_number_is_read_as_one_thing_or_refused(number: str) -> None:
    """What is accepted has one decimal sign at most, and its digits are kept in order."""
    try:
        value = parse(f"{number} ohm", "resistance")
    except QuantityError:
        return
    tidy = number.replace("\u202f", "").replace(" ", "")
    assert tidy.count(",") + tidy.count(".") <= 1
    assert value == float(tidy.replace(",", "."))
    assert not re.fullmatch(r"[1-9][0-9]{0,2},[0-9]{3}", number)


@given(st.sampled_from([(kind, text) for kind, q in QUANTITIES.items() for text in q.table if text]), st.data())
def test_another_case_of_a_letter_is_never_another_unit(pair: tuple[str, str], data: st.DataObject) -> None:
    kind, spelling = pair
    place = data.draw(st.integers(0, len(spelling) - 1))
    other = spelling[:place] + spelling[place].swapcase() + spelling[place + 1 :]
    try:
        swapped = parse(f"7 {other}", kind)
    except QuantityError:
        return
    assert swapped == parse(f"7 {spelling}", kind), f"{spelling} and {other} are two units"
