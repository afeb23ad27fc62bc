"""canboat/canboat, open database of marine network messages, commit 01d0dc3dd24328c05cbeee384c477d36ea8066f6. Read.

docs/canboat.json; database/pgns; database/lookups; a recorded sample in database/pgns/127508-batteryStatus.yaml. The bytes of the
other messages were laid out by hand after the database; the framing of two-frame messages is from memory.
"""

from __future__ import annotations

from collections.abc import Callable
from math import pi

import pytest

from athwart.network.messages import MOTOR_CURRENT_MOST, carries_current, decode, identifier, reassemble
from tests.published._check import Check, each

KEY = "canboat"
DETAILED = reassemble([bytes.fromhex("20 0B 05 02 00 52 FF 1E"), bytes.fromhex("21 00 A9 00 64 00 FF FF")])


def number(pgn: int, data: bytes, name: str, scale: float = 1.0) -> Callable[[], float]:
    def read() -> float:
        value = decode(pgn, data).values[name]
        assert isinstance(value, float | int)
        return value * scale

    return read


STATUS = bytes.fromhex("05 00 12 50 00 32 FF FF")
INFORMATION = bytes.fromhex("00 F1 40 1F 74 95 80 3E")
BATTERY = bytes.fromhex("02 B7 08 E8 EF FF FF 05")
SAMPLE = bytes.fromhex("00 33 0a ed ff 02 71 ff")

CHECKS = [
    Check(KEY, "speed control", 80.0, number(128006, STATUS, "speed control", 100.0), "%", 0.5, "128006"),
    Check(KEY, "command timeout", 0.25, number(128006, STATUS, "command timeout"), "s", 0.005, "128006"),
    Check(KEY, "power rating", 8000.0, number(128007, INFORMATION, "power rating"), "W", 0.5, "128007"),
    Check(KEY, "greatest temperature", 382.6, number(128007, INFORMATION, "greatest temperature"), "K", 0.05, "128007"),
    Check(KEY, "greatest speed", "4000.0", number(128007, INFORMATION, "greatest speed", 30.0 / pi), "rpm", 0.05, "128007"),
    Check(KEY, "most the motor's current field holds", 252.0, lambda: MOTOR_CURRENT_MOST, "A", 0.5, "128008"),
    Check(KEY, "volts", 22.31, number(127508, BATTERY, "volts"), "V", 0.005, "127508"),
    Check(KEY, "current", "-412.0", number(127508, BATTERY, "current"), "A", 0.05, "127508"),
    Check(KEY, "volts of the recorded sample", 26.11, number(127508, SAMPLE, "volts"), "V", 0.005, "127508-batteryStatus.yaml"),
    Check(KEY, "current of the recorded sample", -1.9, number(127508, SAMPLE, "current"), "A", 0.05, "127508-batteryStatus.yaml"),
    Check(KEY, "temperature of the sample", 289.3, number(127508, SAMPLE, "temperature"), "K", 0.05, "127508-batteryStatus.yaml"),
    Check(KEY, "state of charge", 82.0, number(127506, DETAILED, "state of charge", 100.0), "%", 0.5, "127506"),
    Check(KEY, "time left", 1800.0, number(127506, DETAILED, "time left"), "s", 0.5, "127506"),
    Check(KEY, "ripple", 0.169, number(127506, DETAILED, "ripple"), "V", 0.0005, "127506"),
    Check(KEY, "capacity left", 100.0, number(127506, DETAILED, "capacity left", 1.0 / 3600.0), "Ah", 0.5, "127506"),
]


@each(CHECKS)
def test_a_field(check: Check) -> None:
    check.holds()


@pytest.mark.parametrize(
    ("pgn", "data", "words"),
    [
        (
            128006,
            STATUS,
            {
                "sequence": 5,
                "identifier": 0,
                "direction": "to port",
                "power": "on",
                "retract": "off",
                "control events": (),
                "azimuth": None,
            },
        ),
        (128007, INFORMATION, {"identifier": 0, "motor": "24 V d.c."}),
        (127508, BATTERY, {"instance": 2, "temperature": None, "sequence": 5}),
        (127508, SAMPLE, {"instance": 0, "sequence": None}),
        (127506, DETAILED, {"sequence": 5, "instance": 2, "type": "battery", "state of health": None}),
    ],
)
def test_words_and_gaps_of_a_message(pgn: int, data: bytes, words: dict[str, object]) -> None:
    values = decode(pgn, data).values
    assert {name: values[name] for name in words} == words


@pytest.mark.parametrize(
    ("can_id", "pgn", "priority"),
    [("09F40623", 128006, 2), ("1DF40723", 128007, 7), ("19F21423", 127508, 6), ("19F21223", 127506, 6)],
)
def test_an_identifier(can_id: str, pgn: int, priority: int) -> None:
    found = identifier(int(can_id, 16))
    assert (found.pgn, found.priority, found.source) == (pgn, priority, 0x23)


def test_a_unit_of_400_amperes_does_not_fit_the_field() -> None:
    assert not carries_current(400.0)
    assert decode(128008, bytes.fromhex("05 00 00 FD FF FF FF FF")).values["current"] is None
