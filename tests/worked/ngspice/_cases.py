"""Which circuits are checked, how they are run, kept and compared."""

from __future__ import annotations

import re
import subprocess
import tempfile
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path

from athwart.design.proposal import Lane, LaneState, Proposal
from athwart.design.search import running
from athwart.design.search.propose import check, propose
from athwart.store.briefs import parse_brief
from athwart.store.catalogues import catalogue_for
from tests.worked.ngspice._deck import VARIANTS, deck_of

HERE = Path(__file__).parent
EXAMPLES = HERE.parents[2] / "examples"
OUTPUTS = HERE / "outputs"
ONE_BANK_BOAT = "7-one-bank-for-both"
AS_FOUND = "6-as-found"
BOATS = ("1-motor-yacht", "2-sailing-yacht", "4-day-boat", "6-old-installation", AS_FOUND, "7-stern-unit-added", ONE_BANK_BOAT)
FILES = {ONE_BANK_BOAT: "7-stern-unit-added", AS_FOUND: "6-old-installation"}
ONE_BANK = """bank:
  - name: common bank
    feeds: [bow, stern]
    place: bow locker
    volts: 24 V
    chemistries: [agm, thin plate agm]

"""
A_ROUTE = """    - between: [bow locker, transom box]
      plus: 11.5 m
      minus: 11.5 m

"""
TOLERANCE = 1e-3
LEAST_DROP = 1e-3
"""Volts below which a drop is compared absolutely, to a thousandth of this."""

Figures = Mapping[str, float]


@dataclass(frozen=True, slots=True)
class Case:
    """One circuit: a bank with some of its units running in one state, and what athwart says of it."""

    name: str
    deck: str
    athwart: Figures


@lru_cache(maxsize=8)
def proposal_of(boat: str) -> Proposal:
    """An example proposed. Two are made of others: 6 examined as it is, 7 built new with one bank for both units."""
    text = (EXAMPLES / f"{FILES.get(boat, boat)}.yaml").read_text(encoding="utf-8")
    if boat == ONE_BANK_BOAT:
        text = re.sub(r"^aboard:\n(?:[ #].*\n|\n)*", "", text, flags=re.MULTILINE)
        text = re.sub(r"^bank:\n(?:[ #].*\n|\n)*", ONE_BANK, text, flags=re.MULTILINE)
        text = re.sub(r"^helms:\n", f"{A_ROUTE}helms:\n", text, flags=re.MULTILINE)
        text = re.sub(r"^choices:\n", "choices:\n  strings_most: 4\n", text, flags=re.MULTILINE)
    return (check if boat == AS_FOUND else propose)(parse_brief(text).brief, catalogue_for(None, False))


def cases(boat: str) -> Iterator[Case]:
    """Each lane alone in both states, and all units of a bank together."""
    p = proposal_of(boat)
    for bank in p.banks:
        on = tuple(lane for lane in p.lanes if lane.bank == bank.name and lane.design is not None)
        for lane in on:
            for found in (lane.design, lane.peak):
                assert found is not None
                for variant in VARIANTS[found.state] if _is_brushed(lane) else VARIANTS["design"]:
                    name = f"{lane.thruster.identity}, {found.state}" + (f", {variant}" if _is_brushed(lane) else "")
                    deck = deck_of(p, bank, (lane,), found.state, variant, f"{boat}: {name}")
                    yield Case(name, deck, _figures(((lane, found),)))
        if len(on) > 1:
            together = tuple((lane, lane.both_design) for lane in on)
            name = f"all units of the {bank.name}, design"
            deck = deck_of(p, bank, on, "design", VARIANTS["design"][0], f"{boat}: {name}")
            yield Case(name, deck, _figures(together))


def _is_brushed(lane: Lane) -> bool:
    return lane.unit.drive == "brushed" and not lane.unit.step_up_inside


def _figures(states: tuple[tuple[Lane, LaneState | None], ...]) -> dict[str, float]:
    found: dict[str, float] = {}
    for lane, state in states:
        assert state is not None
        n = lane.lane
        parts = [name for name, part in (("fuse", lane.fuse), ("switch", lane.switch), ("stop", lane.stop)) if part is not None]
        pieces = [*(word for part in parts for word in (f"to_{part}", part)), "to_unit", "return"]
        for piece, drop in zip(pieces, state.drops, strict=True):
            found[f"drop{n}_{piece}"] = drop.volts
        found[f"terminal{n}"] = state.terminal_volts
        found[f"current{n}"] = state.current
        basis = 0.9 if lane.unit.thrust_basis == "gross" else 1.0
        ratio = state.thrust / (lane.unit.thrust * lane.immersion_factor * lane.tunnel_share * basis)
        if state.state == "peak":  # the thrust told is the nominal motor's; simulated is the one with the largest current
            ratio = running.run(lane.unit, "peak", state.terminal_volts, 0.0).thrust_ratio
        found[f"thrust{n}"] = ratio
        found["bank"] = state.bank_volts
    return found


# ---- the simulator


def version() -> str:
    """Name and version of the simulator installed."""
    words = subprocess.run(["ngspice", "--version"], capture_output=True, text=True, check=False).stdout
    found = re.search(r"ngspice-[0-9.]+", words)
    return found.group(0) if found else "ngspice, version unknown"


def run(deck: str) -> dict[str, float]:
    """What the simulator prints for a deck."""
    with tempfile.TemporaryDirectory() as folder:
        file = Path(folder) / "deck.cir"
        file.write_text(deck, encoding="utf-8")
        done = subprocess.run(["ngspice", "-b", str(file)], capture_output=True, text=True, check=False, timeout=60, cwd=folder)
    found = {m[1]: float(m[2]) for m in re.finditer(r"^(\w+) = ([-+0-9.eE]+)$", done.stdout, re.MULTILINE)}
    wanted = re.findall(r"^print (\w+)$", deck, re.MULTILINE)
    if set(found) != set(wanted):
        raise RuntimeError(f"the simulator gave no answer\n{done.stdout}\n{done.stderr}\n{deck}")
    return found


# ---- kept outputs


def write_outputs(boat: str) -> Path:
    """Run every circuit of a boat and keep decks and answers."""
    parts = [f"# simulator: {version()}\n# made by: python -m tests.worked.ngspice.regenerate\n"]
    for case in cases(boat):
        answer = "\n".join(f"{name} = {value:.9e}" for name, value in run(case.deck).items())
        parts.append(f"=== {case.name}\n{case.deck}--- answer\n{answer}\n")
    OUTPUTS.mkdir(exist_ok=True)
    file = OUTPUTS / f"{boat}.txt"
    file.write_text("\n".join(parts), encoding="utf-8")
    return file


@lru_cache(maxsize=8)
def kept(boat: str) -> tuple[str, dict[str, tuple[str, dict[str, float]]]]:
    """The simulator's name and, by circuit, deck and answer as kept in the repository."""
    text = (OUTPUTS / f"{boat}.txt").read_text(encoding="utf-8")
    head, *blocks = text.split("=== ")
    name = re.search(r"^# simulator: (.+)$", head, re.MULTILINE)
    assert name is not None
    found: dict[str, tuple[str, dict[str, float]]] = {}
    for block in blocks:
        title, rest = block.split("\n", 1)
        deck, answer = rest.split("--- answer\n")
        pairs = (line.split(" = ") for line in answer.split("\n") if line)
        found[title] = deck, {key: float(value) for key, value in pairs}
    return name.group(1), found


def ruling(answers: Mapping[str, Figures]) -> dict[str, Figures]:
    """Of the motor's variants in the peak state the one that takes more current, as circuits without the variant's name."""
    best: dict[str, Figures] = {}
    for name, figures in answers.items():
        plain = ", ".join(name.split(", ")[:2])
        current = next(value for key, value in figures.items() if key.startswith("current"))
        if plain not in best or current > next(value for key, value in best[plain].items() if key.startswith("current")):
            best[plain] = figures
    return best


def differences(ours: Figures, theirs: Figures, tolerance: float = TOLERANCE) -> list[str]:
    """Figures further apart than the tolerance, in words; both sides must name the same figures."""
    if set(ours) != set(theirs):
        return [f"only one side has {', '.join(sorted(set(ours) ^ set(theirs)))}"]
    return [
        f"{name}: athwart {ours[name]:.6g}, simulator {theirs[name]:.6g}"
        for name in ours
        if abs(ours[name] - theirs[name]) > tolerance * max(abs(theirs[name]), LEAST_DROP)
    ]
