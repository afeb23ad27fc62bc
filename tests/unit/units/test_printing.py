"""How values look on screen and on paper."""

from __future__ import annotations

import math

import pytest

from athwart.units import CrankingCurrent, beaufort_of, parse, show, show_band, show_cranking, show_length_ft_in
from athwart.units.printing import fixed

N = "\u202f"


@pytest.mark.parametrize(
    ("value", "kind", "unit", "text"),
    [
        (1480.0, "force", None, "1 480 N"),
        (1479.6, "force", None, "1 480 N"),
        (999.6, "force", None, "1 000 N"),
        (1480.0, "force", "kN", "1.48 kN"),
        (24.0, "voltage", None, "24 V"),
        (22.604, "voltage", None, "22.60 V"),
        (9.6049, "voltage", None, "9.60 V"),
        (10.604, "voltage", None, "10.60 V"),
        (100.44, "voltage", None, "100 V"),
        (0.1204, "voltage", "mV", "120 mV"),
        (342.4, "current", None, "342 A"),
        (1234.4, "current", None, "1 234 A"),
        (12_345.6, "current", None, "12 346 A"),
        (12.345, "current", None, "12.3 A"),
        (7e-5, "conductor", None, "70 mm²"),
        (2.5e-6, "conductor", None, "2.5 mm²"),
        (7e-5, "conductor", "mm2", "70 mm²"),
        (67.43088e-6, "conductor", "AWG", "2/0 AWG"),
        (7e-5, "conductor", "AWG", "138 kcmil"),
        (63.389e-6, "conductor", "SAE", "2/0 SAE"),
        (0.0036, "resistance", None, "3.6 mΩ"),
        (0.00361234, "resistance", None, "3.61 mΩ"),
        (396_000.0, "charge", None, "110 Ah"),
        (268.15, "temperature", None, "−5 °C"),
        (273.15, "temperature", None, "0 °C"),
        (293.15, "temperature", "°F", "68 °F"),
        (315.73, "temperature", None, "42.6 °C"),
        (55 * math.pi / 180, "angle", None, "55°"),
        (-0.1, "angle", None, "−5.73°"),
        (0.8, "ratio", None, "80 %"),
        (0.8123, "ratio", None, "81.2 %"),
        (1.313, "ratio", "×", "1.31 ×"),
        (0.5, "ratio", "", "0.5"),
        (3.0, "count", None, "3"),
        (1200.0, "count", None, "1 200"),
        (0.0, "force", None, "0 N"),
        (-0.0, "force", None, "0 N"),
        (10.28888888888889, "wind_speed", "kn", "20 kn"),
        (10.3, "wind_speed", "Bft", "5 Bft"),
        (0.004, "time", None, "4 ms"),
        (30.0, "time", None, "30 s"),
        (300.0, "time", None, "5 min"),
        (4800.0, "time", None, "1 h 20 min"),
        (3599.0, "time", None, "1 h"),
        (864_000.0, "time", None, "10 d"),
        (4800.0, "time", "h", "1.33 h"),
        (14.1986, "length", "ft in", "46 ft 7 in"),
        (0.01999, "length", "mm", "20.0 mm"),
        (9.996, "length", None, "10.0 m"),
        (1.7241e-8, "resistivity", None, "1.72e−8 Ω·m"),
        (-1.5, "length", None, "−1.5 m"),
    ],
)
def test_a_value_is_printed(value: float, kind: str, unit: str | None, text: str) -> None:
    expected = text.replace(" ", N)
    assert show(value, kind, unit) == expected
    assert show(value, kind, unit, plain=True) == text.replace("−", "-")


@pytest.mark.parametrize(("digits", "text"), [(1, "20 V"), (2, "23 V"), (3, "22.6 V"), (4, "22.60 V"), (6, "22.6040 V")])
def test_digits_asked_for_are_kept_with_their_noughts(digits: int, text: str) -> None:
    assert show(22.604, "voltage", digits=digits, plain=True) == text
    assert show(24.0, "voltage", digits=4, plain=True) == "24.00 V"


@pytest.mark.parametrize(
    ("value", "band", "kind", "unit", "text"),
    [
        (1480.0, 180.0, "force", None, "1 480 N ± 180"),
        (1079.0, 210.0, "force", None, "1 080 N ± 210"),
        (1483.0, 99.6, "force", None, "1 480 N ± 100"),
        (1480.0, 1234.0, "force", None, "1 500 N ± 1 200"),
        (22.604, 0.0314, "voltage", None, "22.604 V ± 0.031"),
        (268.15, 2.0, "temperature", None, "−5.0 °C ± 2.0"),
        (268.15, 2.0, "temperature", "°F", "23.0 °F ± 3.6"),
        (0.8123, 0.05, "ratio", None, "81.2 % ± 5.0"),
        (14.2, 0.0, "length", None, "14.2 m"),
        (4800.0, 60.0, "time", None, "4 800 s ± 60"),
        (14.2, 0.1, "length", "ft in", "14.20 m ± 0.10"),
        (-1480.0, 180.0, "force", "lbf", "−333 lbf ± 40"),
    ],
)
def test_a_band_has_two_figures_and_the_value_ends_where_it_ends(
    value: float, band: float, kind: str, unit: str | None, text: str
) -> None:
    assert show_band(value, band, kind, unit) == text.replace(" ", N)
    assert show_band(value, band, kind, unit, plain=True) == text.replace("−", "-")


@pytest.mark.parametrize(
    ("value", "denominator", "text"),
    [
        (14.1986, 8, "46 ft 7 in"),
        (0.0, 8, "0 in"),
        (0.3048, 8, "1 ft"),
        (0.3047, 1, "1 ft"),
        (0.185, 8, "7 1/4 in"),
        (0.0127, 8, "1/2 in"),
        (1.6129, 8, "5 ft 3 1/2 in"),
        (1.5367, 8, "5 ft 1/2 in"),
        (-1.6129, 2, "-5 ft 3 1/2 in"),
        (-0.001, 1, "0 in"),
    ],
)
def test_feet_and_inches(value: float, denominator: int, text: str) -> None:
    assert show_length_ft_in(value, denominator=denominator, plain=True) == text
    assert abs(parse(text, "length") - value) <= 0.5 * 0.0254 / denominator


def test_a_cranking_current_is_printed_with_its_standard() -> None:
    assert show_cranking(CrankingCurrent(1250.0, "SAE")) == f"1{N}250{N}A{N}CCA{N}(SAE)"


def test_what_cannot_be_printed_is_refused() -> None:
    for value in (math.nan, math.inf):
        with pytest.raises(ValueError, match="cannot be printed"):
            show(value, "length")
        with pytest.raises(ValueError, match="cannot be printed"):
            show_band(1.0, value, "length")
    with pytest.raises(ValueError, match="cannot be printed"):
        show_band(1.0, -1.0, "length")
    with pytest.raises(ValueError, match="at least one is needed"):
        show(1.0, "length", digits=0)
    with pytest.raises(ValueError, match="inches are divided"):
        show_length_ft_in(1.0, denominator=3)


def test_force_12_is_printed_though_it_cannot_be_read() -> None:
    assert beaufort_of(32.65) == 11 if round(32.65, 1) == 32.6 else 12
    assert show(40.0, "wind_speed", "Bft", plain=True) == "12 Bft"


def test_fixed_places() -> None:
    assert fixed(1234.56, 1) == f"1{N}234.6"
    assert fixed(-0.04, 1) == "0.0"
