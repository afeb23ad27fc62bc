"""One lane in the netlist: from the bank to the unit and back, the stop loop, the link to the ship's negative."""

from __future__ import annotations

from typing import Any

from athwart.design.brief import Helm, LaneParts
from athwart.design.places import run_between
from athwart.design.proposal import Bank, CableChoice, Lane
from athwart.design.wiring_bank import CONTROL_FUSE, MAIN_FUSE, Poles
from athwart.design.wiring_build import FUSE_FROM_SOURCE, SWITCH_PIECE, Builder, Stretch, amps
from athwart.design.wiring_ship import Ship, Stud, ship_tap
from athwart.units import Metre

CONTROL_FUSE_LEAST, CONTROL_FUSE_MOST = 3.0, 30.0
"""Ratings of the fuse of a stop loop, whose wire is sized for it (own judgement)."""


def split_plus(total: Metre, from_source: Metre | None, pieces: int) -> tuple[Metre, ...]:
    """Lengths of the pieces of a plus route, which add up to ``total``; the last one, to the unit, takes the rest.

    The first is the run to the fuse; the pieces between parts of one board are :data:`SWITCH_PIECE`, less on a short route.
    """
    if pieces == 1:
        return (total,)
    first = min(FUSE_FROM_SOURCE if from_source is None else from_source, total / 2)
    board = min(SWITCH_PIECE, (total - first) / (2 * pieces))
    inner = (first, *([board] * (pieces - 2)))
    return (*inner, total - sum(inner))


def power_path(build: Builder, lane: Lane, bank: Bank, poles: Poles) -> Stud:
    """Plus from the bank to the unit and the return; gives back the stud the stop loop starts from."""
    number = lane.lane
    cable = lane.cable
    if cable is None:
        raise ValueError(f"lane {number} has a bank but no cable")
    parts = _parts_in_path(build, lane, bank)
    _unit(build, lane)
    lengths = split_plus(cable.plus, lane.fuse.from_source if lane.fuse else None, len(parts) + 1)
    stretch, common = Stretch.of(cable.cable, cable.parallel), _common(lane, cable)
    fuse: str | None = None
    before, control = poles.plus, poles.plus
    for tag, length in zip([*parts, f"M{number}.1"], lengths, strict=True):
        stud = "+" if tag.startswith("M") else "1"
        build.run(number, "P", before, (tag, stud), stretch, length, fuse=fuse, purpose=_purpose(build, tag), **common)
        fuse = tag if tag.startswith("F") else fuse
        before = (tag, "2")
        if not tag.startswith("M") and tag != f"Q{number}.2":
            control = before
    build.run(
        number, "N", (f"M{number}.1", "-"), poles.minus, stretch, cable.minus, fuse=fuse, purpose="return of the unit", **common
    )
    return control


def _purpose(build: Builder, tag: str) -> str:
    return f"to the {build.components[tag].name}"


def _common(lane: Lane, cable: CableChoice) -> dict[str, Any]:
    return {
        "current": lane.peak.current if lane.peak else None,
        "ampacity": cable.ampacity * cable.parallel,
        "ampacity_verified": cable.ampacity_verified,
        "route": cable.route,
        "engine_space": cable.engine_space,
        "aboard": cable.kept == "aboard",
    }


def aboard_of(build: Builder, lane: Lane) -> LaneParts:
    """What the brief has aboard or fixed in this lane."""
    parts = build.brief.fixed.lanes.get(lane.thruster.identity) or build.brief.aboard.lanes.get(lane.thruster.identity)
    return parts or LaneParts()


def _parts_in_path(build: Builder, lane: Lane, bank: Bank) -> list[str]:
    """Fuse, switch and contactor of the lane, those that are there, in order from the source."""
    number, made, aboard = lane.lane, list[str](), aboard_of(build, lane)
    common: dict[str, Any]
    build.reserve("F", number, CONTROL_FUSE)
    build.reserve("Q", number, 2)
    behind = bank.charging_volts, bank.fault_current_most
    build.behind.update({f"F{number}.{MAIN_FUSE}": behind, f"Q{number}.1": behind})
    if lane.fuse is not None:
        fuse = lane.fuse.fuse
        kept = lane.fuse.kept == "aboard"
        tag = f"F{number}.{MAIN_FUSE}"
        made.append(build.fuse(tag, number, fuse.rating, "main fuse", fuse, bank.place, behind=behind, aboard=kept))
    if lane.switch is not None:
        switch = lane.switch
        place = aboard.switch.place if aboard.switch and aboard.switch.place else bank.place
        facts = {"lockable off": switch.lockable}
        common = {"row": switch.id, "place": place, "resistance": switch.resistance, "facts": facts}
        made.append(
            build.add(f"Q{number}.1", "main switch", number, "main switch", (amps(switch.continuous),), ("1", "2"), **common)
        )
    if lane.stop is not None:
        stop = lane.stop
        common = {"row": stop.id, "place": bank.place, "resistance": stop.resistance, "stop": stop.stop_kind}
        made.append(
            build.add(f"Q{number}.2", "stop contactor", number, "stop contactor", (amps(stop.continuous),), ("1", "2"), **common)
        )
    return made


def reversing(lane: Lane) -> str:
    """How the unit turns round: contactors for a brushed motor switched on and off, else a drive."""
    if lane.unit.drive == "hydraulic":
        return "valve"
    return "contactors" if lane.unit.drive == "brushed" and lane.unit.control == "on/off" else "drive"


def _unit(build: Builder, lane: Lane) -> None:
    unit, number = lane.unit, lane.lane
    hydraulic = unit.drive == "hydraulic"
    facts: dict[str, float | str | bool] = {
        "reversing": reversing(lane),
        "drive": unit.drive,
        "housing": unit.housing,
        "thrust": unit.thrust,
        "step up inside": unit.step_up_inside,
    }
    for name, value in (("network isolated", unit.network_isolated), ("isolated case", unit.isolated_case)):
        if value is not None:
            facts[name] = value
    rating = f"{unit.thrust:.0f} N" + (f" {unit.volts:g} V" if unit.volts else "")
    current = lane.peak.current if lane.peak else unit.rated_current
    lines = (rating,) if current is None or hydraulic else (rating, amps(current))
    build.add(
        f"M{number}.1",
        "unit",
        number,
        f"{lane.thruster.identity} unit",
        lines,
        ("in", "out", "net") if hydraulic else ("+", "-", "net"),
        row=unit.id,
        place=lane.thruster.place,
        aboard=lane.kept == "aboard",
        facts=facts,
    )


def stop_loop(build: Builder, ship: Ship, lane: Lane, poles: Poles, control: Stud) -> None:
    """Coil of the stop contactor with a button at each helm.

    Energise to run: bank, control fuse, buttons in series (each breaks), coil, bank minus. Latching: the ship's supply over its
    own fuse, buttons side by side (each makes a pulse), coil, ship's minus. An energise-to-run coil that the brief has on the
    ship's bank is fed from there too.
    """
    if lane.stop is None:
        return
    number, stop = lane.lane, lane.stop
    latching = stop.stop_kind == "latching"
    aboard = aboard_of(build, lane).stop
    from_ship = latching or bool(aboard and aboard.fed_from == "ship bank")
    current = stop.coil_current or 1.0
    tap = (ship.source(None) if from_ship else None) or control
    fuse, rating = build.small_fuse(max(CONTROL_FUSE_LEAST, 1.5 * current), tap, CONTROL_FUSE_MOST)
    cable = build.branch(rating)
    source = ship_tap(build, ship, None, cable, rating, f"stop fuse, {lane.thruster.identity}", fuse) if from_ship else None
    fed_by_ship = source is not None
    if source is None:
        source = build.tapped(control, f"F{number}.{CONTROL_FUSE}", number, cable, rating, "control fuse", fuse)
    coil = _coil(build, lane, latching, "ship's supply" if fed_by_ship else "bank of the unit")
    buttons = _buttons(build, lane, latching)
    place = build.components[source[0]].place or ""
    last = (_pulse_pieces if latching else _break_pieces)(build, number, source, buttons, cable, place)
    home = build.components[f"Q{number}.2"].place or ""
    run = run_between(build.brief, last[1], home)
    build.run(
        number, "C", last[0], (coil, "1"), cable, run.plus, fuse=source[0], purpose="stop loop to the coil", route=run.words
    )
    back = run_between(build.brief, home, place) if fed_by_ship else None
    minus = ship.minus if fed_by_ship else poles.minus
    length = back.minus if back else 2 * SWITCH_PIECE
    words = back.words if back else "in the bank"
    build.run(number, "C", (coil, "2"), minus, cable, length, fuse=source[0], purpose="stop loop, return", route=words)


def _coil(build: Builder, lane: Lane, latching: bool, fed: str) -> str:
    stop = lane.stop
    assert stop is not None
    volts = f"{stop.coil_volts:g} V" if stop.coil_volts else ""
    words = (
        "pulse opens" if latching else "energise to run",
        f"{volts} {amps(stop.coil_current)}".strip() if stop.coil_current else volts,
    )
    rating = tuple(word for word in words if word)
    facts = {"fed from": fed}
    tag = f"Q{lane.lane}.2 coil"
    place = build.components[f"Q{lane.lane}.2"].place
    return build.add(
        tag,
        "stop coil",
        lane.lane,
        "coil of the stop contactor",
        rating,
        ("1", "2"),
        place=place,
        stop=stop.stop_kind,
        facts=facts,
    )


def _buttons(build: Builder, lane: Lane, latching: bool) -> list[tuple[str, str]]:
    """A button at each helm with wires to it; at the main switch where no helm has one. (tag, place)."""
    helms = [helm for helm in build.brief.helms if helm.stop_within_reach and not helm.wireless]
    bank_place = build.components[f"Q{lane.lane}.2"].place or ""
    at = helms or [Helm(name="at the contactor", place=bank_place)]
    made = []
    for helm in at:
        tag = build.tag("S", lane.lane)
        rating = ("makes" if latching else "breaks",)
        build.add(tag, "stop button", lane.lane, f"stop, {helm.name}", rating, ("1", "2"), place=helm.place)
        made.append((tag, helm.place))
    return made


def _break_pieces(
    build: Builder, lane: int, source: Stud, buttons: list[tuple[str, str]], cable: Stretch, place: str
) -> tuple[Stud, str]:
    """Buttons one behind the other; gives back the last stud and where it is."""
    before, here = source, place
    for tag, there in buttons:
        run = run_between(build.brief, here, there)
        build.run(lane, "C", before, (tag, "1"), cable, run.plus, fuse=source[0], purpose="stop loop", route=run.words)
        before, here = (tag, "2"), there
    return before, here


def _pulse_pieces(
    build: Builder, lane: int, source: Stud, buttons: list[tuple[str, str]], cable: Stretch, place: str
) -> tuple[Stud, str]:
    """Buttons side by side: one wire brings the supply from button to button, another brings the pulse back to the first."""
    before, here = source, place
    for tag, there in buttons:
        run = run_between(build.brief, here, there)
        build.run(lane, "C", before, (tag, "1"), cable, run.plus, fuse=source[0], purpose="stop pulse, supply", route=run.words)
        before, here = (tag, "1"), there
    for (tag, there), (first, home) in zip(buttons[:0:-1], buttons[-2::-1], strict=True):
        run = run_between(build.brief, there, home)
        build.run(lane, "C", (tag, "2"), (first, "2"), cable, run.plus, fuse=source[0], purpose="stop pulse", route=run.words)
    return (buttons[0][0], "2"), buttons[0][1]


def negative_link(build: Builder, ship: Ship, poles: Poles, area: float | None, length: Metre, route: str) -> str | None:
    """The bank's minus to the ship's negative bar, no fuse in it; none where the minus is kept apart."""
    if area is None or area <= 0 or build.brief.supply.common_negative == "isolated":
        return None
    return build.run(
        poles.lane, "N", poles.minus, ship.minus, build.at_least(area), length, purpose="common negative link", route=route
    )


def hydraulic_lane(build: Builder, lane: Lane) -> None:
    """Engine-driven pump and the two lines; hoses are sized with the hydraulic calculation, not here."""
    number, unit = lane.lane, lane.unit
    engine = next((entry for entry in build.brief.propulsion.engines if entry.take_off), None)
    name = f"pump on {engine.name}" if engine else "pump on the engine"
    pressure = f"{unit.hydraulic_pressure / 1e5:.0f} bar" if unit.hydraulic_pressure else ""
    flow = f"{unit.hydraulic_flow * 60e3:.0f} l/min" if unit.hydraulic_flow else ""
    rating = tuple(word for word in (pressure, flow) if word)
    pump = build.add(build.tag("P", number), "pump", number, name, rating, ("out", "in"))
    _unit(build, lane)
    run = run_between(build.brief, "", lane.thruster.place)
    hose = Stretch(0.0, "hose", 0.0)
    build.run(number, "H", (pump, "out"), (f"M{number}.1", "in"), hose, run.plus, purpose="pressure line", route=run.words)
    build.run(number, "H", (f"M{number}.1", "out"), (pump, "in"), hose, run.minus, purpose="return line", route=run.words)
