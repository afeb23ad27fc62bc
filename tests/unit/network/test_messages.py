"""Reassembly and decoding where the log is not as it should be."""

from __future__ import annotations

import pytest

from athwart.network.messages import MESSAGES, Field, Message, can_id, decode, identifier, reassemble

FIRST = bytes.fromhex("200B05020052FF1E")
SECOND = bytes.fromhex("2100A9006400FFFF")


def test_an_identifier_goes_there_and_back() -> None:
    for pgn in MESSAGES:
        found = identifier(can_id(pgn, 6, 0x23))
        assert (found.pgn, found.priority, found.source) == (pgn, 6, 0x23)


def test_a_message_to_one_node_leaves_its_address_out_of_the_number() -> None:
    assert identifier(0x18EA2301).pgn == 59904


@pytest.mark.parametrize("value", [-1, 1 << 29])
def test_what_is_no_identifier_is_refused(value: int) -> None:
    with pytest.raises(ValueError, match="29-bit"):
        identifier(value)


@pytest.mark.parametrize(
    ("frames", "words"),
    [
        ([], "no frames"),
        ([SECOND, FIRST], "not one whole message"),
        ([FIRST], "carry 6 bytes"),
        ([FIRST, bytes.fromhex("4100A9006400FFFF")], "not one whole message"),
        ([FIRST, SECOND, bytes.fromhex("2200000000000000")], "the message says 11"),
        ([FIRST[:7], SECOND], "8 bytes"),
    ],
)
def test_frames_that_are_not_one_message_are_refused(frames: list[bytes], words: str) -> None:
    with pytest.raises(ValueError, match=words):
        reassemble(frames)


def test_a_message_of_one_frame_is_whole() -> None:
    assert reassemble([bytes.fromhex("4003AABBCCFFFFFF")]) == bytes.fromhex("AABBCC")


def test_a_short_message_says_what_it_lacks() -> None:
    short = decode(127506, bytes.fromhex("050200 52FF1E00A900"))
    assert short.missing == ("capacity left",)
    assert short.values["ripple"] == pytest.approx(0.169)


def test_reserved_values_are_not_numbers() -> None:
    for raw in (0xFD, 0xFE, 0xFF):
        assert decode(128008, bytes([5, 0, 0, raw, 0, 0, 0, 0])).values["current"] is None
    assert decode(128008, bytes([5, 0, 0, 252, 0, 0, 0, 0])).values["current"] == 252.0
    assert decode(127508, bytes.fromhex("00FD7FFD7F0000FF")).values["volts"] is None
    assert decode(127508, bytes.fromhex("00FC7F00800000FF")).values["current"] == pytest.approx(-3276.8)


def test_flags_and_choices_have_names() -> None:
    motor = decode(128008, bytes.fromhex("0500090A00000000")).values
    assert motor["motor events"] == ("over-temperature", "oil hot")
    assert decode(128006, bytes.fromhex("0500070000000000")).values["direction"] == "reserved 7"
    assert decode(128006, bytes.fromhex("05000F00FF000000")).values["control events"] is None


def test_a_message_of_the_users_table_is_read() -> None:
    own = Message(65280, "own gear", (Field("", 4), Field("count", 4), Field("torque", 16, 0.5, "N·m", signed=True)))
    assert decode(65280, bytes.fromhex("70FEFF"), {65280: own}).values == {"count": 7, "torque": -1.0}
    with pytest.raises(ValueError, match="there are 128006"):
        decode(65280, b"")
