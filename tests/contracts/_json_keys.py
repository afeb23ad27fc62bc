"""The page of JSON keys, made from real answers: every key, its type, the unit its name ends in, an example.

``python -m tests.contracts._json_keys`` writes the page anew; the contract test holds it current.
"""

from __future__ import annotations

from functools import partial
from pathlib import Path
from typing import Any

from athwart.catalogue.builtin import builtin
from athwart.design.robustness.rehearsal import rehearse_all
from athwart.design.search.propose import propose
from athwart.papers.as_json import SCHEMA, proposal_json
from athwart.resources import example, example_names
from athwart.store.briefs import parse_brief

PAGE = Path(__file__).parents[2] / "docs" / "reference" / "answer-json.md"
UNITS = {
    "N": "newton",
    "V": "volt",
    "A": "ampere",
    "Ah": "ampere-hour",
    "mohm": "milliohm",
    "ohm": "ohm",
    "mV": "millivolt",
    "m": "metre",
    "mm": "millimetre",
    "mm2": "square millimetre",
    "m2": "square metre",
    "s": "second",
    "kg": "kilogram",
    "kn": "knot",
    "deg": "degree",
    "C": "degree Celsius",
    "Pa": "pascal",
}
SECTIONS = {
    "athwart": "version, schema number, whether proposed or checked",
    "boat": "identification and the digest of the brief",
    "catalogue": "equipment the answer was made from",
    "answers": "the six answers; `unit` is the unit of `found`, `asked` and `band` (one standard deviation)",
    "need": "the brief in numbers",
    "cases": "the four cases beside the need that rules: what each asks and the largest wind it holds",
    "rehearsals": "what came of each manoeuvre rehearsed (`--rehearse N`); the interval holds the true share 19 times in 20",
    "not_rehearsed": "manoeuvres that could not be rehearsed, and why",
    "lanes": "one thruster each with its complete chain, in both states",
    "banks": "battery banks",
    "charging": "how each bank is charged",
    "network": "the control line, null where there is none",
    "trim": "weight and trim of the new parts",
    "findings": "checks that have something to say, the gravest first",
    "rejections": "units not taken, with the first rule that refused them",
    "conductors": "every piece of conductor, tagged once",
    "components": "every piece of equipment, tagged once",
    "to_be_verified": "what the answers rest on without proof",
    "defaults_used": "fields of the brief that were left out, with the value taken",
}


def keys(value: Any, path: str = "") -> dict[str, Any]:
    """Key path -> an example value, arrays as ``[]``."""
    if isinstance(value, dict):
        found: dict[str, Any] = {}
        for key, entry in value.items():
            found |= keys(entry, f"{path}.{key}" if path else key)
        return found
    if isinstance(value, list):
        found = {}
        for entry in value:
            for key, example_value in keys(entry, f"{path}[]").items():
                if found.get(key) is None:
                    found[key] = example_value
        return found or {f"{path}[]": None}
    return {path: value}


def unit_of(path: str) -> str:
    """The unit a key ends in."""
    tail = path.rsplit(".", 1)[-1].split("_")
    return UNITS.get(tail[-1], "kilobit a second" if path.endswith("kbit_s") else "") if len(tail) > 1 else ""


def all_keys() -> dict[str, Any]:
    """Keys of every example's answer."""
    found: dict[str, Any] = {}
    for name in example_names():
        file = parse_brief(example(name), name)
        rehearse = partial(rehearse_all, runs=16) if name.startswith("7") else None
        answer = propose(file.brief, builtin(), defaults=file.defaults, rehearse=rehearse)
        for key, value in keys(proposal_json(answer)).items():
            if found.get(key) is None:
                found[key] = value
    return found


def page() -> str:
    """The page as Markdown."""
    lines = [
        "# The answer as JSON",
        "",
        f"`athwart propose BRIEF --json` and `athwart check BRIEF --json` print it, `--papers DIR` writes it. Schema {SCHEMA}.",
        "A key that holds a number ends in its unit; a ratio has none. Numbers have six significant digits. `null` means that",
        "nothing applies or that it is not computed yet. This page is made from the answers to the examples.",
    ]
    found = all_keys()
    for section in dict.fromkeys(key.split(".")[0].split("[")[0] for key in found):
        lines += ["", f"## {section}", ""]
        if section in SECTIONS:
            lines += [SECTIONS[section] + ".", ""]
        lines += ["| key | type | unit |", "| --- | --- | --- |"]
        for key, value in found.items():
            if key.split(".")[0].split("[")[0] == section:
                kind = {bool: "yes or no", int: "number", float: "number", str: "text"}.get(type(value), "text or null")
                lines.append(f"| `{key}` | {kind} | {unit_of(key)} |")
    return "\n".join(lines) + "\n"


if __name__ == "__main__":
    PAGE.write_text(page(), encoding="utf-8")
