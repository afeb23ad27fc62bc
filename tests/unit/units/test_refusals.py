"""What is refused, and whether the reason is said."""

from __future__ import annotations

import pytest

from athwart.errors import UnknownName
from athwart.units import QUANTITIES, QuantityError, factor, parse, parse_cranking, show

REFUSED = [
    ("", "length", "it is empty"),
    ("   ", "length", "it is empty"),
    ("m", "length", "does not start with a number"),
    ("-", "length", "there is no number"),
    ("- 5 m", "length", "space between the sign"),
    ("14", "length", "14 is a bare number, a length needs its unit"),
    ("14.2", "temperature", "a temperature needs its unit"),
    ("nan", "length", "not a finite number"),
    ("inf m", "length", "not a finite number"),
    ("-inf m", "length", "not a finite number"),
    (".nan", "mass", "not a finite number"),
    ("1e400 m", "length", "not a finite number"),
    ("1e9 m", "length", "beyond what a length can be here (at most 1e6 m)"),
    ("-3 kg", "mass", "a mass cannot be negative"),
    ("0 mm2", "conductor", "cannot be below 0.001 mm²"),
    ("-300 °C", "temperature", "below absolute zero"),
    ("1,250 kg", "mass", "1,250 is ambiguous (comma between thousands or decimal comma?): write 1250 or 1.250"),
    ("-1,250 A", "current", "-1,250 is ambiguous"),
    ("12,500 kg", "mass", "ambiguous"),
    ("125,500 kg", "mass", "ambiguous"),
    ("1.250,5 kg", "mass", "a comma and a point"),
    ("1,250.5 kg", "mass", "a comma and a point"),
    ("1,250,000 kg", "mass", "more than one comma"),
    ("1.250.000 kg", "mass", "more than one decimal point"),
    ("12 3456 kg", "mass", "groups of three"),
    ("1 0001/min", "rotation", "groups of three"),
    ("1'250 kg", "mass", "is not known"),
    ("1_250 kg", "mass", "is not known"),
    ("5. m", "length", "without a digit"),
    ("٣ m", "length", "does not start with a number"),
    ("0x1F m", "length", "is not known"),
    ("4 furlong", "length", "'furlong' is not known"),
    ("4 metr", "length", "did you mean 'metre'?"),
    ("4 Mm", "length", "did you mean 'mm'?"),
    ("16 Kg", "mass", "did you mean 'kg'?"),
    ("4 KM", "length", "did you mean 'km'?"),
    ("5 kg", "length", "'kg' is a unit of mass; a length is needed"),
    ("5 m2", "length", "'m2' is a unit of area; a length is needed"),
    ("70 mm", "conductor", "'mm' is a unit of length; a conductor cross-section is needed"),
    ("4 kN", "speed", "'kN' is a unit of force; a speed is needed"),
    ("4 kn", "force", "'kn' is a unit of speed; a force is needed"),
    ("150 kg", "force", "'kg' is a unit of mass; a force is needed"),
    ("150 lb", "force", "'lb' is a unit of mass; a force is needed"),
    ("150 lbf", "mass", "'lbf' is a unit of force; a mass is needed"),
    ("6 Bft", "speed", "'Bft' is a unit of wind speed; a speed is needed"),
    ("110 Wh", "charge", "'Wh' is a unit of energy; a capacity is needed"),
    ("110 C", "charge", "coulomb, or a rate of discharge?"),
    ("110 A", "charge", "a current is not a capacity"),
    ("4 KN", "force", "knot or kilonewton?"),
    ("4 KN", "speed", "knot or kilonewton?"),
    ("4 Kn", "speed", "knot or kilonewton?"),
    ("20 MA", "current", "milliampere or megaampere?"),
    ("20 MV", "voltage", "millivolt or megavolt?"),
    ("20 MΩ", "resistance", "milliohm or megohm?"),
    ("20 Mohm", "resistance", "milliohm or megohm?"),
    ("20 mPa", "pressure", "millipascal or megapascal?"),
    ("4 MW", "power", "milliwatt or megawatt?"),
    ("5 T", "mass", "tonne or tesla?"),
    ("5 tons", "mass", "long ton or short ton?"),
    ("5 M", "length", "metre, minute or nautical mile?"),
    ("3 m", "time", "minutes or months?"),
    ("3 S", "time", "second or siemens?"),
    ("2:30", "time", "2 min 30 s or 1 h 20 min"),
    ("1 h 60 min", "time", "60 min beside h is too many"),
    ("1 h 80 min", "time", "80 min beside h is too many"),
    ("1.5 h 20 min", "time", "is not known"),
    ("10 gal", "volume", "US or imperial gallon?"),
    ("10 gal/min", "flow", "US or imperial gallon?"),
    ("68 dB", "sound", "weighted or not?"),
    ("250 kB/s", "bit_rate", "kilobytes?"),
    ("46 ft 7", "length", "the inches have no unit"),
    ("46'7", "length", "the inches have no unit"),
    ("1'250", "length", "the inches have no unit"),
    ("46 ft 12 in", "length", "a foot has twelve inches"),
    ("46 ft 14 in", "length", "a foot has twelve inches"),
    ("5 ft 3/2 in", "length", "is not a fraction"),
    ("1/0 in", "length", "is not a fraction"),
    ("5 1/2 m", "length", "digits again"),
    ("5-6 m", "length", "a range, a date or a fraction is not a value"),
    ("5 to 6 m", "length", "a range, a date or a fraction is not a value"),
    ("14 ± 1 m", "length", "a range, a date or a fraction is not a value"),
    ("1/2 m", "length", "a range, a date or a fraction is not a value"),
    ("<5 m", "length", "a limit or an estimate is not a value"),
    ("about 5 m", "length", "a limit or an estimate is not a value"),
    ("2/0", "conductor", "of which gauge? write 2/0 AWG or 2/0 SAE"),
    ("4 ga", "conductor", "which gauge?"),
    ("4 gauge", "conductor", "which gauge?"),
    ("-1 AWG", "conductor", "a gauge is a whole number"),
    ("4,5 AWG", "conductor", "a gauge is a whole number"),
    ("5/0 AWG", "conductor", "is not a gauge"),
    ("02 AWG", "conductor", "is not a gauge"),
    ("41 AWG", "conductor", "read from 4/0 to 40"),
    ("1 SAE", "conductor", "the area of 1 SAE is not known here (known: 2, 1/0, 2/0, 3/0, 4/0)"),
    ("4 SAE", "conductor", "the area of 4 SAE is not known here"),
    ("12 Bft", "wind_speed", "force 12 has no top speed"),
    ("13 Bft", "wind_speed", "there is no wind force 13"),
    ("5-6 Bft", "wind_speed", "one whole number from 0 to 11"),
    ("5.5 Bft", "wind_speed", "one whole number from 0 to 11"),
    ("3.5", "count", "a count is a whole number"),
    ("3 blocks", "count", "a count has no unit"),
    ("-3", "count", "cannot be negative"),
    ("5000 %", "sound", "'%' is a unit of ratio; a sound level is needed"),
    ("1 " * 60, "length", "longer than 80 characters"),
]


@pytest.mark.parametrize(("text", "kind", "reason"), REFUSED, ids=[f"{kind}: {text[:20]!r}" for text, kind, _ in REFUSED])
def test_a_text_is_refused_with_its_reason(text: str, kind: str, reason: str) -> None:
    with pytest.raises(QuantityError) as caught:
        parse(text, kind)
    message = str(caught.value)
    assert reason in message
    assert repr(text[:40])[:-1] in message, "what was read is quoted"
    assert QUANTITIES[kind].allowed in message, "what is allowed is listed"
    assert QUANTITIES[kind].example in message, "an example is given"


def test_the_error_carries_a_mistake_to_which_a_place_can_be_added() -> None:
    with pytest.raises(QuantityError) as caught:
        parse("14", "length")
    (mistake,) = caught.value.mistakes
    assert mistake.read == "14"
    assert mistake.allowed.endswith("for example 14.2 m or 46 ft 7 in")
    assert isinstance(caught.value, ValueError), "pydantic takes it as a mistake of the field"


@pytest.mark.parametrize(
    ("text", "reason"),
    [
        ("", "it is empty"),
        ("700 A CCA", "by which standard?"),
        ("700 A", "by which standard?"),
        ("700", "there is no current with CCA or A"),
        ("700 A MCA", "MCA is measured in warmth"),
        ("700 CA", "CA is measured in warmth"),
        ("JIS 55D23L", "JIS sizes name a case"),
        ("700 A CCA (JIS)", "JIS sizes name a case"),
        ("EN 700 A (SAE)", "the standard is given twice"),
        ("1,250 A CCA (EN)", "1,250 is ambiguous"),
        ("0 A CCA (EN)", "between 1 A and 10 000 A"),
        ("99999 A CCA (EN)", "between 1 A and 10 000 A"),
        ("about 700 A CCA (EN)", "it is not a current followed by CCA and its standard"),
        ("7 0 A EN", "is not a number"),
        ("9" * 90 + " A (EN)", "it is not a current followed by CCA"),
    ],
)
def test_a_cranking_current_is_refused_with_its_reason(text: str, reason: str) -> None:
    with pytest.raises(
        QuantityError, match=r"allowed: amperes with CCA and one of SAE, EN, IEC, DIN, for example 700 A CCA \(EN\)"
    ) as caught:
        parse_cranking(text)
    assert reason in str(caught.value)


def test_unknown_kinds_and_units_of_the_programmer_are_named_with_a_guess() -> None:
    with pytest.raises(UnknownName, match="did you mean 'length'"):
        parse("3 m", "lenght")
    with pytest.raises(UnknownName, match="did you mean 'kn'"):
        show(3.0, "speed", "kN")
    with pytest.raises(UnknownName):
        factor("wind_speed", "Bft")
    with pytest.raises(UnknownName):
        show(3.0, "voltage", "AWG")
