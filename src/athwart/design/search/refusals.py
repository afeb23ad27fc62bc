"""The non-electrical rules a unit must pass, in a stated order; the first that refuses is the reason kept.

Drive kind against duty, housing against the boat's life, diameter against cover, hull and tunnel, box, mass, price, petrol,
quiet running. Each rule returns None or (rule, figure, limit, margin).
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from athwart import units
from athwart.catalogue.records import ThrusterUnit
from athwart.design.brief import Brief, Thruster

Refusal = tuple[str, str, str, float | None]

TIP_TO_KEEL = 0.1
"""Hull left below the tunnel, in diameters (own judgement)."""
COVER_LEAST = 0.5
TUNNEL_LONGEST = 7.0
TUNNEL_SHORTEST = 1.0
EXTERNAL_SPEED: float = 12 * units.KNOT
"""Above this speed under way an external pod is refused (own judgement)."""
HIRE_BURSTS = 3.0


@dataclass(frozen=True, slots=True)
class Setting:
    """What the rules look at beside the unit."""

    brief: Brief
    thruster: Thruster
    waterline_drop: float  # m that the waterline at the tunnel lies lower at the lightest trimmed state

    @property
    def petrol_vapour(self) -> bool:
        """Whether the unit's place may hold petrol vapour."""
        place = self.brief.place(self.thruster.place)
        return bool(place and place.petrol_space) and self.brief.boat.petrol_aboard != "no"

    def cover(self, unit: ThrusterUnit) -> float | None:
        """Water over the tunnel roof (or over a lowered rotor) at the lightest waterline, in metres."""
        if unit.tunnel_diameter is None:
            return None
        return self.thruster.tunnel.axis_depth - self.waterline_drop - unit.tunnel_diameter / 2


def _over(value: float, limit: float) -> float:
    return (limit - value) / abs(limit) if limit else -1.0


def _wanted_kind(unit: ThrusterUnit, s: Setting) -> Refusal | None:
    wanted = s.thruster.wanted
    for asked, has, word in (
        (wanted.drives, unit.drive, "drive"),
        (wanted.housings, unit.housing, "housing"),
        (wanted.controls, unit.control, "control"),
    ):
        if asked and has not in asked:
            return f"{word} not among those wanted", has, ", ".join(asked), None
    if wanted.volts and unit.volts is not None and not any(abs(unit.volts - volts) < 0.5 for volts in wanted.volts):
        return "voltage not among those wanted", f"{unit.volts:g} V", ", ".join(f"{v:g} V" for v in wanted.volts), None
    if not wanted.housings and unit.housing in ("retractable", "external") and s.thruster.tunnel.tunnel_length is not None:
        return "a tunnel is described and this unit does not use one", unit.housing, "tunnel or rim", None
    if not wanted.housings and unit.in_tunnel and s.thruster.tunnel.tunnel_length is None:
        return "no tunnel length is given for a tunnel unit", unit.housing, "tunnel_length", None
    return None


def _hydraulics(unit: ThrusterUnit, s: Setting) -> Refusal | None:
    if unit.drive != "hydraulic" or any(engine.take_off for engine in s.brief.propulsion.engines):
        return None
    return "no engine with a take-off for a pump", "none", "one take-off point", None


def _bank_volts(unit: ThrusterUnit, s: Setting) -> Refusal | None:
    wish = next((bank for bank in s.brief.bank if s.thruster.identity in bank.feeds), None)
    if unit.volts is None or wish is None or wish.volts is None or abs(wish.volts - unit.volts) < 0.5:
        return None
    return "the bank asked for has another voltage", f"{unit.volts:g} V", f"{wish.volts:g} V", None


def _duty(unit: ThrusterUnit, s: Setting) -> Refusal | None:
    duty = s.brief.duty
    hold = max(duty.longest_hold, duty.burst)
    if unit.at_limit == "trips" and unit.rated_time is not None and hold > unit.rated_time:
        return (
            "runs out of time: trips before the longest hold asked",
            units.show(unit.rated_time, "time", "min", plain=True),
            units.show(hold, "time", "min", plain=True),
            (unit.rated_time - hold) / hold,
        )
    asked = duty.bursts_per_docking * duty.burst * max(1.0, HIRE_BURSTS if duty.users == "hire fleet" else 1.0)
    allowed = unit.minutes_in_hour
    if unit.at_limit == "trips" and allowed is not None and asked > allowed:
        return (
            "duty: full-thrust time of the dockings in an hour",
            units.show(asked, "time", "min", plain=True),
            units.show(allowed, "time", "min", plain=True),
            _over(asked, allowed),
        )
    return None


def _quiet(unit: ThrusterUnit, s: Setting) -> Refusal | None:
    duty = s.brief.duty
    if duty.noise_most is not None and unit.noise is not None and unit.noise > duty.noise_most:
        return (
            "noise",
            f"{unit.noise:g} dBA {unit.noise_place or ''}".strip(),
            f"{duty.noise_most:g} dBA",
            _over(unit.noise, duty.noise_most),
        )
    if duty.noise_most is not None and unit.noise is None:
        return "noise limit asked and the unit's noise is unknown", "unknown", f"{duty.noise_most:g} dBA", None
    if duty.quiet and unit.control == "on/off":
        return "quiet running asked: an on/off unit always runs at full speed", unit.control, "stepped or proportional", None
    return None


def _life(unit: ThrusterUnit, s: Setting) -> Refusal | None:
    duty = s.brief.duty
    if duty.dries_out and unit.housing == "external":
        return "the boat dries out: an external pod takes the ground", "external", "tunnel or retracted", None
    speed = duty.speed_under_way
    if unit.housing == "external" and speed is not None and speed > EXTERNAL_SPEED:
        return (
            "speed under way for an external pod",
            units.show(speed, "speed", "kn", plain=True),
            units.show(EXTERNAL_SPEED, "speed", "kn", plain=True),
            _over(speed, EXTERNAL_SPEED),
        )
    return None


def _petrol(unit: ThrusterUnit, s: Setting) -> Refusal | None:
    if s.petrol_vapour and unit.drive != "hydraulic" and not unit.ignition_protected:
        return "petrol vapour may reach its place", "not ignition-protected", "ignition-protected", None
    return None


def _diameter(unit: ThrusterUnit, s: Setting) -> Refusal | None:
    diameter, tunnel = unit.tunnel_diameter, s.thruster.tunnel
    if diameter is None:
        return None
    most = s.thruster.wanted.diameter_most
    if most is not None and diameter > most + 1e-9:
        return (
            "diameter",
            units.show(diameter, "length", "mm", plain=True),
            units.show(most, "length", "mm", plain=True),
            _over(diameter, most),
        )
    below = tunnel.hull_below_axis
    if unit.in_tunnel and below is not None and below < diameter * (0.5 + TIP_TO_KEEL):
        need = diameter * (0.5 + TIP_TO_KEEL)
        return (
            "hull below the tunnel axis",
            units.show(below, "length", "mm", plain=True),
            units.show(need, "length", "mm", plain=True),
            _over(need, below),
        )
    cover = s.cover(unit)
    if cover is not None and cover < COVER_LEAST * diameter - 1e-9 and not _overridden(s.brief):
        return (
            "cover over the tunnel roof at the lightest waterline",
            f"{cover / diameter:.2f} D",
            f"{COVER_LEAST:.2f} D",
            (cover - COVER_LEAST * diameter) / (COVER_LEAST * diameter),
        )
    length = tunnel.tunnel_length
    if unit.in_tunnel and length is not None:
        if length < TUNNEL_SHORTEST * diameter:
            return "tunnel too short for the diameter", f"{length / diameter:.1f} D", f"{TUNNEL_SHORTEST:.0f} D", None
        most_length = min(unit.tunnel_length_most or TUNNEL_LONGEST * diameter, TUNNEL_LONGEST * diameter)
        if length > most_length:
            return (
                "tunnel too long",
                units.show(length, "length", "mm", plain=True),
                units.show(most_length, "length", "mm", plain=True),
                _over(length, most_length),
            )
    return None


def _overridden(brief: Brief) -> bool:
    return any(override.finding == "TUNNEL-01" for override in brief.choices.overrides)


def _box(unit: ThrusterUnit, s: Setting) -> Refusal | None:
    if unit.housing != "retractable":
        return None
    room, length = s.thruster.tunnel.height_above_waterline_for_box, s.thruster.tunnel.box_length_most
    if room is not None and unit.box_height is not None and unit.box_height > room:
        return (
            "height of the retracting box",
            units.show(unit.box_height, "length", "mm", plain=True),
            units.show(room, "length", "mm", plain=True),
            _over(unit.box_height, room),
        )
    if length is not None and unit.box_length is not None and unit.box_length > length:
        return (
            "length of the retracting box",
            units.show(unit.box_length, "length", "mm", plain=True),
            units.show(length, "length", "mm", plain=True),
            _over(unit.box_length, length),
        )
    return None


def _space(unit: ThrusterUnit, s: Setting) -> Refusal | None:
    place = s.brief.place(s.thruster.place)
    if place is None or place.space is None:
        return None
    room = sorted((place.space.length, place.space.width))
    size = sorted((unit.length, unit.width))
    if unit.height > place.space.height or size[0] > room[0] or size[1] > room[1]:
        return (
            "does not go into the space at its place",
            f"{unit.length * 1e3:.0f} x {unit.width * 1e3:.0f} x {unit.height * 1e3:.0f} mm",
            f"{place.space.length * 1e3:.0f} x {place.space.width * 1e3:.0f} x {place.space.height * 1e3:.0f} mm",
            None,
        )
    return None


def _mass_and_price(unit: ThrusterUnit, s: Setting) -> Refusal | None:
    wanted = s.thruster.wanted
    if wanted.mass_most is not None and unit.mass > wanted.mass_most:
        return "mass", f"{unit.mass:.0f} kg", f"{wanted.mass_most:.0f} kg", _over(unit.mass, wanted.mass_most)
    if wanted.price_most is not None and unit.price > wanted.price_most:
        return "price", f"{unit.price:.0f}", f"{wanted.price_most:.0f}", _over(unit.price, wanted.price_most)
    return None


RULES: tuple[Callable[[ThrusterUnit, Setting], Refusal | None], ...] = (
    _wanted_kind,
    _hydraulics,
    _bank_volts,
    _petrol,
    _life,
    _duty,
    _quiet,
    _diameter,
    _box,
    _space,
    _mass_and_price,
)


def refusal(unit: ThrusterUnit, setting: Setting) -> Refusal | None:
    """The first rule that refuses this unit, with its figure and limit, or None."""
    for rule in RULES:
        if (reason := rule(unit, setting)) is not None:
            return reason
    return None
