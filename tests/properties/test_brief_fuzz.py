"""Ten thousand spoilt briefs: each reads, or says where it does not. No other exception, no hang.

The five examples are spoilt by a fixed seed in the ways people and machines spoil text. A brief that still reads is held
against a second reader of YAML, and reading it must not have changed a byte of what was typed.
"""

from __future__ import annotations

import random
import signal
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from types import FrameType
from typing import Any

import pytest
import yaml
from ruamel.yaml import YAML
from ruamel.yaml.error import YAMLError

from athwart.errors import BriefError, Mistake
from athwart.resources import example, example_names
from athwart.store.briefs import BriefFile, defaults_used, parse_brief

SEED = 20_260_302
BRIEFS = 10_000
PARTS = 10
LONGEST = 5.0
"""Seconds for one brief; they take about a hundredth."""

GARBAGE = (
    "", "-", "?", ":", "4", "-4 m", "4,5 m", "1,250 kg", "1e400 m", "9" * 400 + " m", "nan", "inf V", "KN", "20 KN",
    "12 v", "70 mm²", "2/0 AWG", "0/0 AWG", "99 Bft", "-300 °C", "5 ft 99 in", "1/0 m", "½ m", "−5 °C", "٣ m", "true",
    "no", "null", "~", "0x1F", "1_000", "12:30", "[", "]", "{", "}", "[]", "{}", "[[]]", "{a: {b: {c: d}}}", "[" * 40,
    "{a: " * 40, "- - - -", "&a x", "*a", "!!python/object:os.system x", "!x y", "<<", "|", ">", "'", "\"", "''",
    "\"\\x00\"", "\"\\ud800\"", "\\", "%", "@", "`", "#", " # ", "\t", "\x00", "\x1b[31m", "\x85", "\u2028", "\ufeff",
    "\ud800", "é", "船", "🚤", "a" * 5000, "---", "...", "%YAML 1.1", "? a", "k: v", "k: v: w", "{k}", "a: b, c", "=",
    "..", "1.2.3 m",
)  # fmt: skip
KEYS = (
    "boat",
    "athwart",
    "from",
    "is",
    "windage",
    "lanes",
    "__class__",
    "model_config",
    "0",
    "[0]",
    "a.b",
    "",
    "<<",
    "bow",
    "thruster",
    "Boat",
)

Spoil = Callable[[random.Random, list[str]], list[str]]


def _delete(rng: random.Random, lines: list[str]) -> list[str]:
    start = rng.randrange(len(lines))
    return lines[:start] + lines[start + rng.randint(1, 6) :]


def _double(rng: random.Random, lines: list[str]) -> list[str]:
    start = rng.randrange(len(lines))
    end = start + rng.randint(1, 5)
    return lines[:end] + lines[start:end] + lines[end:]


def _move(rng: random.Random, lines: list[str]) -> list[str]:
    start, to = rng.randrange(len(lines)), rng.randrange(len(lines))
    block, rest = lines[start : start + 3], lines[:start] + lines[start + 3 :]
    return rest[:to] + block + rest[to:]


def _shuffle(rng: random.Random, lines: list[str]) -> list[str]:
    start = rng.randrange(len(lines))
    block = lines[start : start + 8]
    rng.shuffle(block)
    return lines[:start] + block + lines[start + 8 :]


def _indent(rng: random.Random, lines: list[str]) -> list[str]:
    at = rng.randrange(len(lines))
    line = rng.choice((" ", "  ", "\t", "    ")) + lines[at] if rng.random() < 0.5 else lines[at][rng.randint(1, 2) :]
    return [*lines[:at], line, *lines[at + 1 :]]


def _value(rng: random.Random, lines: list[str]) -> list[str]:
    at = rng.randrange(len(lines))
    key, colon, _ = lines[at].partition(":")
    return [*lines[:at], f"{key}{colon} {rng.choice(GARBAGE)}", *lines[at + 1 :]]


def _other_value(rng: random.Random, lines: list[str]) -> list[str]:
    at, other = rng.randrange(len(lines)), rng.choice(lines)
    key, colon, _ = lines[at].partition(":")
    return [*lines[:at], key + colon + other.partition(":")[2], *lines[at + 1 :]]


def _key(rng: random.Random, lines: list[str]) -> list[str]:
    at = rng.randrange(len(lines))
    key, colon, value = lines[at].partition(":")
    lead = key[: len(key) - len(key.lstrip(" -"))]
    return [*lines[:at], lead + rng.choice(KEYS) + colon + value, *lines[at + 1 :]]


def _typo(rng: random.Random, lines: list[str]) -> list[str]:
    at = rng.randrange(len(lines))
    line = lines[at] or " "
    spot = rng.randrange(len(line))
    new = rng.choice(
        (line[spot].swapcase(), "", line[spot] * 2, chr(rng.randrange(1, 0x250)), rng.choice(":,[]{}#'\"&*!|>%@`\\"))
    )
    return [*lines[:at], line[:spot] + new + line[spot + 1 :], *lines[at + 1 :]]


def _insert(rng: random.Random, lines: list[str]) -> list[str]:
    at = rng.randrange(len(lines))
    return [*lines[:at], " " * rng.randint(0, 8) + rng.choice(GARBAGE), *lines[at:]]


def _truncate(rng: random.Random, lines: list[str]) -> list[str]:
    text = "\n".join(lines)
    return text[: rng.randrange(len(text) + 1)].split("\n")


def _deep(rng: random.Random, lines: list[str]) -> list[str]:
    at, depth = rng.randrange(len(lines)), rng.choice((10, 100, 3000))
    form = rng.randrange(4)
    if form == 0:
        return [*lines[:at], "notes: " + "[" * depth + "]" * depth, *lines[at:]]
    if form == 1:
        return [*lines[:at], "notes: " + "{a: " * depth, *lines[at:]]
    if form == 2:
        return [*lines[:at], "- " * depth, *lines[at:]]
    return [*lines[:at], *(" " * n + "a:" for n in range(min(depth, 300))), *lines[at:]]


def _units(rng: random.Random, lines: list[str]) -> list[str]:
    old, new = rng.choice(
        ((" m", " M"), (" V", " v"), (" kn", " KN"), (" mm", " mn"), (" s", " sec."), (" A", ""), (".", ","), (" t", " ton"))
    )
    spots = [n for n, line in enumerate(lines) if old in line] or [0]
    at = rng.choice(spots)
    return [*lines[:at], lines[at].replace(old, new, 1), *lines[at + 1 :]]


SPOILS: tuple[Spoil, ...] = (
    *(_delete, _double, _move, _shuffle, _indent, _value, _value, _other_value, _key),
    *(_typo, _typo, _insert, _truncate, _deep, _units, _units),
)


def spoilt(number: int, seed: int = SEED) -> str:
    """One spoilt brief by number; the same number gives the same text."""
    rng = random.Random(seed + number)
    lines = example(example_names()[number % len(example_names())]).split("\n")
    for _ in range(rng.choice((1, 1, 1, 2, 3, 5))):
        lines = rng.choice(SPOILS)(rng, lines) or [""]
    return rng.choice(("\n", "\n", "\n", "\r\n", "\r")).join(lines) if rng.random() < 0.1 else "\n".join(lines)


@contextmanager
def _at_most(seconds: float, what: str) -> Iterator[None]:
    """Stop a hang: the test ends with the brief's number instead of never."""

    def ring(signum: int, frame: FrameType | None) -> None:
        raise TimeoutError(f"{what} took more than {seconds} s")

    before = signal.signal(signal.SIGALRM, ring)
    signal.setitimer(signal.ITIMER_REAL, seconds)
    try:
        yield
    finally:
        signal.setitimer(signal.ITIMER_REAL, 0)
        signal.signal(signal.SIGALRM, before)


def _second_reader(text: str) -> Any:
    """The text as PyYAML sees it, every scalar as the text that was typed."""
    reader: Any = yaml
    return reader.load(text, Loader=reader.BaseLoader)


def _located(text: str, mistake: Mistake) -> bool:
    """Whether a mistake points into the text, and can be printed."""
    lines = 1 + sum(text.count(sign) for sign in "\n\r\x85\u2028\u2029")
    str(mistake).encode("utf-8", "backslashreplace")
    return bool(mistake.message) and 1 <= (mistake.line or 0) <= lines and (mistake.column or 0) >= 1


@pytest.mark.parametrize("seed", [SEED])
@pytest.mark.parametrize("part", range(PARTS))
def test_every_spoilt_brief_reads_or_says_where_it_does_not(part: int, seed: int) -> None:
    read = refused = 0
    for number in range(part, BRIEFS, PARTS):
        text = spoilt(number, seed)
        with _at_most(LONGEST, f"brief {number} of seed {seed}"):
            file, mistakes = _outcome(text)
        assert (file is None) == bool(mistakes), number
        for mistake in mistakes:
            assert _located(text, mistake), (number, str(mistake))
        refused += file is None
        if file is not None:
            read += 1
            assert file.text == text.removeprefix("\ufeff"), number
            assert defaults_used(file), number
            if read % 3 == 0:
                assert file.doc.data == _second_reader(text), number
    assert (read > 20, refused > 500) == (True, True), (read, refused)


def _outcome(text: str) -> tuple[BriefFile | None, tuple[Mistake, ...]]:
    try:
        return parse_brief(text, "spoilt.yaml"), ()
    except BriefError as error:
        return None, error.mistakes


def test_what_reads_is_also_good_yaml_as_a_whole() -> None:
    """Sections are parsed one by one; this holds that against ruamel.yaml reading the whole text at once."""
    checked = 0
    for number in range(0, BRIEFS, 53):
        text = spoilt(number)
        if _outcome(text)[0] is None:
            continue
        try:
            whole = YAML(typ="safe", pure=True).load(text)
        except YAMLError as error:
            raise AssertionError(f"brief {number} reads here and not as a whole: {error}") from error
        assert list(whole), number
        checked += 1
    assert checked > 5
