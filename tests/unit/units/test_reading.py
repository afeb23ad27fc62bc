"""What is read, and to which value."""

from __future__ import annotations

import math

import pytest

from athwart.units import QUANTITIES, CrankingCurrent, parse, parse_cranking, read
from athwart.units.quantities import FOOT, INCH, quantity, unit
from athwart.units.refusals import TWO_MEANINGS, TWO_MEANINGS_IN

NBSP, NARROW = "\u00a0", "\u202f"


@pytest.mark.parametrize(
    ("text", "kind", "value"),
    [
        ("14.2 m", "length", 14.2),
        ("14.2m", "length", 14.2),
        ("  14.2 m  ", "length", 14.2),
        ("4,5 m", "length", 4.5),
        ("0,125 m", "length", 0.125),
        ("4,50 m", "length", 4.5),
        ("1,2345 m", "length", 1.2345),
        ("1250,500 kg", "mass", 1250.5),
        ("1 250,500 kg", "mass", 1250.5),
        (".5 m", "length", 0.5),
        ("1e-05 m", "length", 1e-5),
        ("2.5E3 kg", "mass", 2500.0),
        ("+3 m", "length", 3.0),
        ("−1.5 m", "length", -1.5),
        ("1 250 kg", "mass", 1250.0),
        (f"1{NBSP}250{NBSP}kg", "mass", 1250.0),
        (f"1{NARROW}250{NARROW}kg", "mass", 1250.0),
        ("1 250 000.5 kg", "mass", 1250000.5),
        ("1.250 kg", "mass", 1.25),
        ("46 ft 7 in", "length", 46 * FOOT + 7 * INCH),
        ("46ft7in", "length", 46 * FOOT + 7 * INCH),
        ("46'7\"", "length", 46 * FOOT + 7 * INCH),
        ("46′ 7″", "length", 46 * FOOT + 7 * INCH),
        ("46' 7''", "length", 46 * FOOT + 7 * INCH),
        ("46 feet 7 inches", "length", 46 * FOOT + 7 * INCH),
        ("46'", "length", 46 * FOOT),
        ('7"', "length", 7 * INCH),
        ("5 ft 3 1/2 in", "length", 63.5 * INCH),
        ("5 ft 3-1/2 in", "length", 63.5 * INCH),
        ("5'3½\"", "length", 63.5 * INCH),
        ("5 ft 1/2 in", "length", 60.5 * INCH),
        ("5 ft 3.25 in", "length", 63.25 * INCH),
        ("-5 ft 3 in", "length", -63 * INCH),
        ("7/8 in", "length", 0.875 * INCH),
        ("1 7/8 in", "length", 1.875 * INCH),
        ("5 1/2 ft", "length", 5.5 * FOOT),
        ("27.6 m2", "area", 27.6),
        ("27.6 m^2", "area", 27.6),
        ("27.6 m²", "area", 27.6),
        ("297 sq ft", "area", 297 * FOOT**2),
        ("297 sqft", "area", 297 * FOOT**2),
        ("297 ft2", "area", 297 * FOOT**2),
        ("70 mm2", "conductor", 70e-6),
        ("70mm²", "conductor", 70e-6),
        ("250 kcmil", "conductor", 126.6768697743744e-6),
        ("2/0 AWG", "conductor", 67.43088223591077e-6),
        ("00 AWG", "conductor", 67.43088223591077e-6),
        ("AWG 2/0", "conductor", 67.43088223591077e-6),
        ("AWG 4", "conductor", 21.15063942544283e-6),
        ("#4 AWG", "conductor", 21.15063942544283e-6),
        ("4awg", "conductor", 21.15063942544283e-6),
        ("2/0 SAE", "conductor", 63.38910563509696e-6),
        ("3.6 mohm", "resistance", 0.0036),
        ("3.6 mΩ", "resistance", 0.0036),
        ("250 µohm", "resistance", 250e-6),
        ("250 uohm", "resistance", 250e-6),
        ("120 ohm", "resistance", 120.0),
        ("120 \N{OHM SIGN}", "resistance", 120.0),
        ("110 Ah", "charge", 396_000.0),
        ("2.4 kWh", "energy", 8.64e6),
        ("4 kW", "power", 4000.0),
        ("1.2 kN", "force", 1200.0),
        ("150 kgf", "force", 1470.9975),
        ("16.5 t", "mass", 16_500.0),
        ("20 kn", "wind_speed", 20 * 1852 / 3600),
        ("20 knots", "wind_speed", 20 * 1852 / 3600),
        ("36 km/h", "speed", 10.0),
        ("5 Bft", "wind_speed", 10.7),
        ("Bft 6", "wind_speed", 13.8),
        ("force 6", "wind_speed", 13.8),
        ("F6", "wind_speed", 13.8),
        ("Beaufort 0", "wind_speed", 0.2),
        ("180 deg", "angle", math.pi),
        ("180°", "angle", math.pi),
        ("90 deg/s", "angular_rate", math.pi / 2),
        ("750 rpm", "rotation", 750 * 2 * math.pi / 60),
        ("750 1/min", "rotation", 750 * 2 * math.pi / 60),
        ("2 1/s", "rotation", 4 * math.pi),
        ("250 kbit/s", "bit_rate", 250_000.0),
        ("-5 °C", "temperature", 268.15),
        ("-5 degC", "temperature", 268.15),
        ("−5 C", "temperature", 268.15),
        ("32 °F", "temperature", 273.15),
        ("-459.67 °F", "temperature", 0.0),
        ("35 K", "temperature_difference", 35.0),
        ("18 °F", "temperature_difference", 10.0),
        ("200 bar", "pressure", 2e7),
        ("10 gal US", "volume", 0.03785411784),
        ("10 imp gal", "volume", 0.0454609),
        ("60 l/min", "flow", 1e-3),
        ("92 cc/rev", "displacement_per_rev", 92e-6 / (2 * math.pi)),
        ("80 %", "ratio", 0.8),
        ("80%", "ratio", 0.8),
        ("0.8", "ratio", 0.8),
        ("1.5 ×", "ratio", 1.5),
        ("68 dB(A)", "sound", 68.0),
        ("250 ms", "time", 0.25),
        ("1 h 20 min", "time", 4800.0),
        ("1h20min", "time", 4800.0),
        ("2 min 30 s", "time", 150.0),
        ("2 min 30,5 s", "time", 150.5),
        ("1 d 6 h", "time", 108_000.0),
        ("6 months", "time", 15_778_800.0),
        ("3", "count", 3.0),
        ("3.0", "count", 3.0),
        ("12 Nm", "moment", 12.0),
        ("0.0172 ohm mm2/m", "resistivity", 1.72e-8),
    ],
)
def test_a_text_is_read(text: str, kind: str, value: float) -> None:
    assert parse(text, kind) == pytest.approx(value, rel=1e-14, abs=1e-15)


def test_a_value_typed_in_a_decimal_unit_is_the_nearest_float() -> None:
    """Millimetres are divided by a thousand, not multiplied by its rounded inverse: 9 mm is 0.009 m to the last bit."""
    assert [parse(f"{n} mm", "length") for n in range(1, 1000)] == [n / 1000 for n in range(1, 1000)]


@pytest.mark.parametrize(
    ("text", "kind", "unit"),
    [
        ("46 ft 7 in", "length", "ft in"),
        ("7 inches", "length", "in"),
        ("70 mm2", "conductor", "mm²"),
        ("2/0 AWG", "conductor", "AWG"),
        ("2/0 SAE", "conductor", "SAE"),
        ("5 Bft", "wind_speed", "Bft"),
        ("1 h 20 min", "time", "h min"),
        ("0.8", "ratio", ""),
        ("3.6 mohm", "resistance", "mΩ"),
    ],
)
def test_a_reading_keeps_the_text_and_the_unit_used(text: str, kind: str, unit: str) -> None:
    reading = read(text, kind)
    assert (reading.text, reading.value, reading.unit) == (text, parse(text, kind), unit)


@pytest.mark.parametrize(
    ("text", "amperes", "standard"),
    [
        ("700 A CCA (EN)", 700.0, "EN"),
        ("700 A CCA EN", 700.0, "EN"),
        ("700 CCA (SAE)", 700.0, "SAE"),
        ("700 A (DIN)", 700.0, "DIN"),
        ("700 A iec", 700.0, "IEC"),
        ("EN 700 A", 700.0, "EN"),
        ("1 250 A CCA (SAE)", 1250.0, "SAE"),
    ],
)
def test_a_cranking_current_is_read_with_its_standard(text: str, amperes: float, standard: str) -> None:
    assert parse_cranking(text) == CrankingCurrent(amperes, standard)


@pytest.mark.parametrize("kind", QUANTITIES)
def test_the_examples_of_a_kind_are_read(kind: str) -> None:
    for text in QUANTITIES[kind].example.split(" or "):
        parse(text, kind)


def test_a_spelling_of_two_units_is_a_mistake_of_the_table() -> None:
    twice = (unit("m", 1.0), unit("km", 1e3, "m"))
    with pytest.raises(ValueError, match="'m' is a spelling of two units"):
        quantity("length", "a length", "m", (0.0, 1.0), "1 m", twice, "m")


def test_no_table_holds_a_spelling_of_two_meanings() -> None:
    held = {spelling for quantity in QUANTITIES.values() for spelling in quantity.table}
    assert held.isdisjoint(TWO_MEANINGS)
    assert [pair for pair in TWO_MEANINGS_IN if pair[1] in QUANTITIES[pair[0]].table] == []
