"""A proposal afloat: her hull in the water, the wind on her and her units in motion, ready for balances and rehearsals.

The hull's origin is the middle of the waterline, not amidships overall; places and yaw moments are moved there. Constants here
are own judgements, shipped as visible defaults.
"""

from __future__ import annotations

from dataclasses import dataclass

from athwart.design.brief import Brief, Thruster
from athwart.design.places import body_x, waterline_middle
from athwart.design.proposal import Bank, Lane, Proposal
from athwart.design.requirements import need as needing
from athwart.design.requirements.hull import lightest, loaded
from athwart.design.search import running
from athwart.errors import NotComputed
from athwart.plant.manoeuvres import berth_push
from athwart.plant.motion import Boat, Control, Pusher, SteadyThrust
from athwart.power.motor import run_brushed
from athwart.thruster.disc import OPEN, TUNNEL, class_thrust_of, jet_speed, thrust_in_weaker_sense
from athwart.thruster.response import LAGS, REVERSALS, STEPS
from athwart.thruster.speed_loss import moment_left
from athwart.units import Coulomb, Metre, MetrePerSecond, Newton, Radian, Ratio, Second
from athwart.vessel.balance import rudder_coefficient, rudder_side_force
from athwart.vessel.gusts import gust_factor
from athwart.vessel.harmonics import WindHarmonics, harmonics
from athwart.vessel.spectra import intensity_of_gust_factor, kaimal_length
from athwart.vessel.steady import beam_drift, twin_screw_moment
from athwart.vessel.underwater import HullInWater

ENGINE_LAG: Second = 1.0
LOSSES = tuple(moment_left(k / 100.0) for k in range(126))
HELM: Ratio = 30.0
IDLE_TIMES: Ratio = 1.5
"""Engine speed over idle that a careful hand uses in a berth; power goes with its cube."""
ENGINE_SHARE: Ratio = 0.15
"""Share of an engine's power used in a berth where idle and cruising speed are not both given."""
HELM_OVER_BOW: Ratio = 2.0
"""Most side force by helm over that of the bow units in a rehearsal: a hand gives no more helm than it needs."""
TEN_MINUTES: Second = 600.0


@dataclass(frozen=True, slots=True)
class Afloat:
    """A proposal as the simulations see it. ``shift`` is the middle of the waterline from amidships."""

    proposal: Proposal
    hull: HullInWater
    light: HullInWater
    wind: WindHarmonics
    """In the state of the need: the lightest, where one is given."""
    loaded_windage: Ratio
    """Windage loaded over that."""
    shift: Metre
    bows: tuple[Lane, ...]
    sterns: tuple[Lane, ...]
    gust_speed: MetrePerSecond  # at the silhouette, in the gust asked
    mean_speed: MetrePerSecond
    intensity: Ratio
    length_scale: Metre
    coefficient_sigma: Ratio
    notes: tuple[str, ...]

    @property
    def asked_per_gust(self) -> Ratio:
        """Wind as asked over the gust at the silhouette."""
        return self.proposal.brief.wind.speed / self.gust_speed

    @property
    def drift(self) -> MetrePerSecond:
        """Steady drift in the mean wind abeam."""
        side = abs(self.wind.loads_of(0.0, self.mean_speed)[1])
        return beam_drift(side, self.hull.flow.lateral_drag_area, self.hull.water_density)

    def place(self, thruster: Thruster) -> Metre:
        """Axis of a unit from the middle of the waterline."""
        return body_x(self.proposal.brief, thruster.tunnel.x) - self.shift

    def mean_place(self, lanes: tuple[Lane, ...]) -> Metre:
        """Of the units of one role."""
        return sum(self.place(lane.thruster) for lane in lanes) / len(lanes)


def afloat(p: Proposal) -> Afloat:
    """The proposal in wind and water.

    Raises
    ------
    NotComputed
        A kind of boat outside the models.
    """
    brief = p.brief
    boat = brief.boat
    found = needing.loads(brief, p.need.rise)
    shift = waterline_middle(brief)
    hull, light = loaded(brief), lightest(brief)
    loaded_windage = 1.0
    if boat.lightest is not None:
        loaded_windage = 1.0 - boat.length_waterline * boat.lightest.waterline_lower / found.windage.lateral_area
    factor = found.wind.gust_factor
    notes = list(hull.notes)
    if found.wind.asked.is_ == "gust":
        factor = brief.wind.gust_factor or gust_factor(brief.wind.surroundings, TEN_MINUTES)
        notes.append(f"the mean under the gust asked: the gust over {factor:.2f}, {brief.wind.surroundings}")
    return Afloat(
        p,
        hull,
        light,
        harmonics(found.model, found.wind.speed, boat.length_overall, origin=shift),
        loaded_windage,
        shift,
        tuple(lane for lane in p.lanes if lane.thruster.role == "bow"),
        tuple(lane for lane in p.lanes if lane.thruster.role == "stern"),
        found.wind.speed,
        found.wind.speed / factor,
        intensity_of_gust_factor(factor),
        kaimal_length(max(found.windage.centroid_height, 0.5)),
        found.coefficient_sigma,
        tuple(notes),
    )


# ---- thrust


def design_thrust(lane: Lane) -> Newton:
    """Thrust with the bank cold, aged and 70 % charged."""
    state = lane.both_design or lane.design
    if state is None or state.thrust <= 0.0:
        raise NotComputed(f"{lane.thruster.identity}: no thrust to move her with ({lane.not_computed or 'its chain gives none'})")
    return state.thrust


def full_thrust(lane: Lane, bank: Bank | None) -> Newton:
    """Thrust with the bank full, warm and new, the motor at its nominal point."""
    if bank is None or lane.peak is None:
        return design_thrust(lane)
    unit = lane.unit
    resistance = bank.resistance_new + lane.peak.path_resistance
    if running.is_constant_power(unit):
        ratio = running.run(unit, "design", bank.open_volts_new, resistance).thrust_ratio
    else:
        ratio = run_brushed(running.motor_of(unit), bank.open_volts_new, resistance).thrust_ratio
    basis = running.GROSS_TO_NET if unit.thrust_basis == "gross" else 1.0
    return max(design_thrust(lane), running.thrust_delivered(unit.thrust, ratio, lane.immersion_factor, basis, lane.tunnel_share))


def pusher(a: Afloat, lanes: tuple[Lane, ...]) -> Pusher:
    """The units of one role as one in motion: thrusts add, the slowest and weakest figures count."""
    first = lanes[0]
    unit = first.unit
    thrust = sum(design_thrust(lane) for lane in lanes)
    diameter = unit.tunnel_diameter or 0.2
    jet = jet_speed(design_thrust(first), diameter, TUNNEL if unit.in_tunnel else OPEN)
    drive = unit.drive
    control: Control = unit.control
    reversal = unit.minimum_reversal if unit.minimum_reversal is not None else REVERSALS[drive]
    current = sum(lane.design.current for lane in lanes if lane.design is not None)
    return Pusher(
        a.mean_place(lanes),
        SteadyThrust(thrust, thrust_in_weaker_sense(thrust)),
        jet,
        LAGS[drive],
        reversal,
        control,
        STEPS,
        not unit.in_tunnel,
        current,
        min(_time_to_trip(lane) for lane in lanes),
        LOSSES,
    )


def _charge_until(lane: Lane) -> Coulomb:
    """What a bank gives until its protection circuit or a fuse opens at full thrust; endless where heat or charge comes first."""
    opens = lane.run_time_limit in ("battery protection circuit", "string fuse", "main fuse")
    if not opens or lane.run_time_full is None or lane.design is None:
        return float("inf")
    return lane.run_time_full * lane.design.current


def _time_to_trip(lane: Lane) -> Second:
    unit = lane.unit
    if unit.at_limit != "trips" or unit.rated_time is None or unit.rated_current is None or lane.peak is None:
        return float("inf")
    return running.time_to_trip(unit.rated_time, unit.rated_current, lane.peak.current)


@dataclass(frozen=True, slots=True)
class EngineAndRudder:
    """What engine and rudder push the stern with: side force each way; a line or the other engine takes the push ahead."""

    place: Metre
    thrust: Newton
    side: Newton
    words: str


def engine_and_rudder(a: Afloat) -> EngineAndRudder | None:
    """From the brief's engines, propeller and rudder; None where any of them is not given."""
    brief = a.proposal.brief
    drive = brief.propulsion
    powers = [engine.power for engine in drive.engines if engine.power is not None]
    if not powers or drive.propeller_diameter is None or drive.rudder_area is None:
        return None
    share = berth_share(brief)
    one = class_thrust_of(share * powers[0], drive.propeller_diameter, "open propeller", transmission="shaft line")
    coefficient = rudder_coefficient(1.1, 1.0, min(1.3, drive.rudder_area / drive.propeller_diameter**2))
    side = rudder_side_force(one * len(powers), coefficient, HELM)
    words = (
        f"{len(powers)} engine{'s' if len(powers) > 1 else ''} at {share:.0%} of power ahead, plain rudder over "
        f"{HELM:.0f} degrees"
    )
    return EngineAndRudder(-0.5 * brief.boat.length_waterline, one * len(powers), side, words)


def berth_share(brief: Brief) -> Ratio:
    """Share of an engine's power used in a berth: somewhat above idle, power by the cube of the speed."""
    engine = next(engine for engine in brief.propulsion.engines if engine.power is not None)
    if engine.idle is None or engine.cruise is None:
        return ENGINE_SHARE
    return float(min(1.0, IDLE_TIMES * engine.idle / engine.cruise) ** 3)


def helm_in_a_berth(a: Afloat, helper: EngineAndRudder) -> Newton:
    """Side force that helm gives in a berth, where no line takes the push ahead.

    Two engines: the other one astern takes it, up to what is used of it there. One engine: it has to go astern half of the time.
    Nor does a hand give much more than the bow unit.
    """
    brief = a.proposal.brief
    push = berth_push(brief.boat.displacement)
    both = sum(engine.power is not None for engine in brief.propulsion.engines) > 1
    kept = min(helper.side if both else 0.5 * helper.side, push * helper.side / helper.thrust)
    return min(kept, HELM_OVER_BOW * sum(design_thrust(lane) for lane in a.bows or a.sterns))


@dataclass(frozen=True, slots=True)
class Screws:
    """Two screws against each other: their turning moment."""

    moment: float
    words: str


def twin_screws(a: Afloat) -> Screws | None:
    """From the brief's two engines and the spacing of their propellers; None where they are not given."""
    drive = a.proposal.brief.propulsion
    powers = [engine.power for engine in drive.engines if engine.power is not None]
    if len(powers) != 2 or drive.propeller_spacing is None or drive.propeller_diameter is None:
        return None
    share = berth_share(a.proposal.brief)
    ahead, astern = (
        class_thrust_of(
            share * powers[0],
            drive.propeller_diameter,
            "open propeller",
            transmission="shaft line",
            reversed_sense=reverse,
        )
        for reverse in (False, True)
    )
    return Screws(
        twin_screw_moment(ahead, astern, drive.propeller_spacing),
        f"two screws {drive.propeller_spacing:.2f} m apart at {share:.0%} of power",
    )


def in_motion(a: Afloat, *, light: bool = False, with_engine: bool = False) -> Boat:
    """The boat of a simulation: her bow units and, where there are any, her stern units (else engine and rudder where asked).

    A boat with stern units alone is steered by them.
    """
    lanes = a.bows or a.sterns
    if not lanes:
        raise NotComputed("no thruster to move her with")
    first = pusher(a, lanes)
    second = pusher(a, a.sterns) if a.bows and a.sterns else None
    if second is None and with_engine:
        help_aft = engine_and_rudder(a)
        if help_aft is not None:
            side = helm_in_a_berth(a, help_aft)
            second = Pusher(help_aft.place, SteadyThrust(side, side), 100.0, ENGINE_LAG, 1.0, "proportional", losses=LOSSES)
    charge = _charge(a, lanes)
    apart = bool(a.bows and a.sterns) and a.sterns[0].bank != lanes[0].bank
    return Boat(a.light if light else a.hull, a.wind, first, second, charge, _charge(a, a.sterns) if apart else None)


def _charge(a: Afloat, lanes: tuple[Lane, ...]) -> Coulomb:
    bank = a.proposal.bank(lanes[0].bank)
    most = bank.capacity_design if bank is not None else float("inf")
    return min(most, *(_charge_until(lane) for lane in lanes))


def headings_asked(brief: Brief) -> tuple[Radian, ...] | None:
    """Wind angles asked, None for all round."""
    return None if brief.wind.headings == "all round" else tuple(brief.wind.headings)
