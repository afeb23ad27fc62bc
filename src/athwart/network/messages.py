"""Messages of the marine network that a log holds: identifier, reassembly, and fields by our own table.

Five messages matter to a thruster: its control status (128006), what it is (128007), its motor (128008), the battery (127508)
and the bank in detail (127506, two frames). Fields stand little-endian in a row of bits from byte 0; the highest values mean
"not available". Makers' own messages need the user's table of the same form.

Traps that the fields themselves show: the motor's current field ends at 252 A, so a big 12 or 24 V unit cannot report its
own; a battery message every 1.5 s misses the lowest volts of a short burst; the sign of amperes must be checked once.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from types import MappingProxyType

from athwart.units.names import Ampere

Value = float | int | str | tuple[str, ...] | None
SOURCE = "canboat"
FRAMING_SOURCE = "vehicle-bus-framing"
MOTOR_CURRENT_MOST: Ampere = 252.0


@dataclass(frozen=True, slots=True)
class Identifier:
    """What a 29-bit identifier of a broadcast message says."""

    pgn: int
    priority: int
    source: int


@dataclass(frozen=True, slots=True)
class Field:
    """A stretch of bits: number (``unit`` and ``step``), choice (``names``) or flags (``bits``)."""

    name: str
    width: int
    step: float = 1.0
    unit: str = ""
    signed: bool = False
    names: Mapping[int, str] | None = None
    bits: Mapping[int, str] | None = None


@dataclass(frozen=True, slots=True)
class Message:
    """Layout of one message."""

    pgn: int
    name: str
    fields: tuple[Field, ...]


@dataclass(frozen=True, slots=True)
class Decoded:
    """A message read: ``values`` by field name, SI, None where not available; ``missing`` fields lay beyond its end."""

    message: Message
    values: Mapping[str, Value]
    missing: tuple[str, ...] = ()


def _spare(width: int) -> Field:
    return Field("", width)


_SID = Field("sequence", 8)
_OFF_ON = {0: "off", 1: "on"}

MESSAGES: Mapping[int, Message] = MappingProxyType(
    {
        message.pgn: message
        for message in (
            Message(
                128006,
                "thruster control status",
                (
                    _SID,
                    Field("identifier", 8),
                    Field("direction", 4, names={0: "off", 1: "ready", 2: "to port", 3: "to starboard"}),
                    Field("power", 2, names=_OFF_ON),
                    Field("retract", 2, names={0: "off", 1: "extend", 2: "retract"}),
                    Field("speed control", 8, 0.01, "1"),
                    Field("control events", 8, bits={0: "another device controls", 1: "boat too fast"}),
                    Field("command timeout", 8, 0.005, "s"),
                    Field("azimuth", 16, 0.0001, "rad"),
                ),
            ),
            Message(
                128007,
                "thruster information",
                (
                    Field("identifier", 8),
                    Field(
                        "motor",
                        4,
                        names={0: "12 V d.c.", 1: "24 V d.c.", 2: "48 V d.c.", 3: "24 V a.c.", 4: "hydraulic"},
                    ),
                    _spare(4),
                    Field("power rating", 16, 1.0, "W"),
                    Field("greatest temperature", 16, 0.01, "K"),
                    Field("greatest speed", 16, 0.25 * 2.0 * 3.141592653589793 / 60.0, "rad/s"),
                ),
            ),
            Message(
                128008,
                "thruster motor status",
                (
                    _SID,
                    Field("identifier", 8),
                    Field(
                        "motor events",
                        8,
                        bits={
                            0: "over-temperature",
                            1: "over-current",
                            2: "low oil",
                            3: "oil hot",
                            4: "controller under-voltage",
                            5: "defined by the maker",
                        },
                    ),
                    Field("current", 8, 1.0, "A"),
                    Field("temperature", 16, 0.01, "K"),
                    Field("operating time", 16, 60.0, "s"),
                ),
            ),
            Message(
                127508,
                "battery status",
                (
                    Field("instance", 8),
                    Field("volts", 16, 0.01, "V", signed=True),
                    Field("current", 16, 0.1, "A", signed=True),
                    Field("temperature", 16, 0.01, "K"),
                    _SID,
                ),
            ),
            Message(
                127506,
                "d.c. detailed status",
                (
                    _SID,
                    Field("instance", 8),
                    Field("type", 8, names={0: "battery", 1: "alternator", 2: "converter", 3: "solar", 4: "wind"}),
                    Field("state of charge", 8, 0.01, "1"),
                    Field("state of health", 8, 0.01, "1"),
                    Field("time left", 16, 60.0, "s"),
                    Field("ripple", 16, 0.001, "V"),
                    Field("capacity left", 16, 3600.0, "C"),
                ),
            ),
        )
    }
)


def identifier(can_id: int) -> Identifier:
    """Priority, message number and source address of a broadcast message's identifier.

    >>> identifier(0x19F21423)
    Identifier(pgn=127508, priority=6, source=35)
    """
    if not 0 <= can_id < 1 << 29:
        raise ValueError(f"{can_id:#x} is not a 29-bit identifier")
    pgn = can_id >> 8 & 0x3FFFF
    if pgn >> 8 & 0xFF < 240:  # sent to one node: the low byte is its address, not part of the number
        pgn &= 0x3FF00
    return Identifier(pgn, can_id >> 26 & 0x7, can_id & 0xFF)


def can_id(pgn: int, priority: int, source: int) -> int:
    """The identifier of a broadcast message.

    >>> f"{can_id(127506, 6, 0x23):08X}"
    '19F21223'
    """
    return priority << 26 | pgn << 8 | source


def reassemble(frames: Iterable[bytes]) -> bytes:
    """One message out of its frames, in order: length in the second byte of the first, six bytes there, seven in the others.

    >>> frames = [bytes.fromhex("200B05020052FF1E"), bytes.fromhex("2100A9006400FFFF")]
    >>> reassemble(frames).hex(" ")
    '05 02 00 52 ff 1e 00 a9 00 64 00'
    """
    parts = list(frames)
    if not parts:
        raise ValueError("no frames")
    if any(len(part) != 8 for part in parts):
        raise ValueError("a frame of a longer message has 8 bytes")
    sequences = {part[0] >> 5 for part in parts}
    numbers = [part[0] & 0x1F for part in parts]
    if len(sequences) != 1 or numbers != list(range(len(parts))):
        raise ValueError(f"frames {numbers} of sequences {sorted(sequences)} are not one whole message in order")
    length = parts[0][1]
    body = parts[0][2:] + b"".join(part[1:] for part in parts[1:])
    if len(body) < length or len(body) - length >= 7 + 6 * (len(parts) == 1):
        raise ValueError(f"{len(parts)} frames carry {len(body)} bytes, the message says {length}")
    return body[:length]


def decode(pgn: int, data: bytes, table: Mapping[int, Message] = MESSAGES) -> Decoded:
    """Read a message by the table; a message cut short leaves its last fields missing.

    >>> round(decode(127508, bytes.fromhex("02B708E8EFFFFF05")).values["volts"], 2)
    22.31
    """
    if pgn not in table:
        raise ValueError(f"message {pgn} is not in the table; there are {', '.join(map(str, table))}")
    message = table[pgn]
    bits, length = int.from_bytes(data, "little"), 8 * len(data)
    values: dict[str, Value] = {}
    missing: list[str] = []
    offset = 0
    for field in message.fields:
        if offset + field.width > length:
            missing.append(field.name)
        elif field.name:
            values[field.name] = _value(field, bits >> offset & (1 << field.width) - 1)
        offset += field.width
    return Decoded(message, MappingProxyType(values), tuple(name for name in missing if name))


def _value(field: Field, raw: int) -> Value:
    """A raw number as a value. Of a byte or more the three highest are "reserved", "error" and "not available": all None."""
    top = (1 << field.width) - 1 >> field.signed
    if field.bits is not None:
        return None if raw == top else tuple(name for bit, name in field.bits.items() if raw >> bit & 1)
    if field.names is not None:
        return None if raw == top else field.names.get(raw, f"reserved {raw}")
    if field.signed and raw > top:
        raw -= 1 << field.width
    elif raw > top - (3 if field.width >= 8 else 1):
        return None
    return raw if field.step == 1.0 and not field.unit else raw * field.step


def carries_current(current: Ampere) -> bool:
    """Whether the motor's status message can carry a current: its field ends at 252 A.

    >>> carries_current(180.0), carries_current(400.0)
    (True, False)
    """
    return current <= MOTOR_CURRENT_MOST
