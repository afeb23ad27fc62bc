"""Steady balances of wind and thrusters: what each case demands, over all headings, and the wind a given thrust holds.

Case B, one end held: the boat turns about a place that stays put (stern made fast: the transom; bow made fast: the stem),
and one unit holds her. Case C, on station: a bow and a stern unit share force and moment, nothing else holds. Places are
metres from amidships, forward positive; only sizes of thrust are compared, for a unit pushes both ways.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from math import sqrt

from athwart.explain import formula
from athwart.units.names import Metre, MetrePerSecond, Newton, Radian, Ratio
from athwart.vessel.loads import BEAM, WindLoad, WindModel, over

SHORTEST_ARM: Metre = 0.1
RUDDER_PER_DEGREE: Ratio = 0.0126
RUDDER_MOST_DEGREES: Ratio = 30.0
SURGE_LOSS: Ratio = 0.02


@formula(
    "T", "N", "side_force * (wind_place - pivot_place) / (thruster_place - pivot_place)", source="own-arithmetic",
    valid="one end held, calm water; the boat may turn about the pivot only",
)  # fmt: skip
def thrust_about_pivot(side_force: Newton, wind_place: Metre, thruster_place: Metre, pivot_place: Metre) -> Newton:
    """Thrust that balances the wind about a place that is held (case B); with its sign.

    Parameters
    ----------
    side_force : Of the wind. [N]
    wind_place : Where it acts. [m]
    thruster_place : Axis of the unit. [m]
    pivot_place : What stays put: minus half the length for a stern made fast. [m]

    Examples
    --------
    2 kN amidships, stern of a 12 m boat made fast, unit 5.04 m forward of amidships:

    >>> round(thrust_about_pivot(2000.0, 0.0, 5.04, -6.0), 2)
    1086.96
    """
    if abs(thruster_place - pivot_place) < SHORTEST_ARM:
        raise ValueError(
            f"the unit at {thruster_place:g} m sits on the pivot at {pivot_place:g} m: lever {SHORTEST_ARM:g} m or more"
        )
    return side_force * (wind_place - pivot_place) / (thruster_place - pivot_place)


@formula("T_b", "N", "side_force * (wind_place - stern_place) / (bow_place - stern_place)", source="own-arithmetic")
def bow_thrust_on_station(side_force: Newton, wind_place: Metre, bow_place: Metre, stern_place: Metre) -> Newton:
    """Share of the bow unit when bow and stern unit hold the boat by themselves (case C).

    Parameters
    ----------
    side_force : Of the wind. [N]
    wind_place : Where it acts. [m]
    bow_place : Axis of the bow unit. [m]
    stern_place : Axis of the stern unit. [m]

    Examples
    --------
    >>> bow_thrust_on_station(2000.0, 1.0, 5.0, -5.0)
    1200.0
    """
    _apart(bow_place, stern_place)
    return side_force * (wind_place - stern_place) / (bow_place - stern_place)


@formula("T_s", "N", "side_force * (bow_place - wind_place) / (bow_place - stern_place)", source="own-arithmetic")
def stern_thrust_on_station(side_force: Newton, wind_place: Metre, bow_place: Metre, stern_place: Metre) -> Newton:
    """Share of the stern unit when bow and stern unit hold the boat by themselves (case C): the rest of the force.

    Parameters
    ----------
    side_force : Of the wind. [N]
    wind_place : Where it acts. [m]
    bow_place : Axis of the bow unit. [m]
    stern_place : Axis of the stern unit. [m]

    Examples
    --------
    >>> stern_thrust_on_station(2000.0, 1.0, 5.0, -5.0)
    800.0
    """
    _apart(bow_place, stern_place)
    return side_force * (bow_place - wind_place) / (bow_place - stern_place)


@formula("U_held", "m/s", "wind_speed * sqrt(thrust / need)", source="own-arithmetic",
         valid="height profile and gust factor that do not change with the wind")  # fmt: skip
def wind_held(wind_speed: MetrePerSecond, need: Newton, thrust: Newton) -> MetrePerSecond:
    """The wind a thrust holds, read where and as the wind asked was read.

    Parameters
    ----------
    wind_speed : Wind asked. [m/s]
    need : Thrust it demands. [N]
    thrust : Thrust there is. [N]

    Examples
    --------
    A need of 1.5 kN in 20 kn, and 1.2 kN to hold it with:

    >>> round(wind_held(10.29, 1500.0, 1200.0), 2)
    9.2
    """
    if need <= 0.0 or thrust < 0.0:
        raise ValueError(f"a need of {need:g} N and a thrust of {thrust:g} N")
    return wind_speed * sqrt(thrust / need)


@formula("C_Y", "1", "RUDDER_PER_DEGREE * section_factor * race_factor * rudder_area_ratio", source="dnv-st-0111")
def rudder_coefficient(section_factor: Ratio, race_factor: Ratio, rudder_area_ratio: Ratio) -> Ratio:
    """Side force of a rudder in the race of its propeller, as a share of the thrust, for each degree of helm.

    Parameters
    ----------
    section_factor : 1.1 plain, 1.4 fish-tail, 1.65 with a flap. [1]
    race_factor : How the rudder stands in the race; 1. [1]
    rudder_area_ratio : Rudder area over the square of the propeller's diameter. [1]
    """
    return RUDDER_PER_DEGREE * section_factor * race_factor * rudder_area_ratio


@formula("Y_R", "N", "thrust * coefficient * helm_degrees", source="dnv-st-0111", valid="ahead only, helm to 30 degrees")
def rudder_side_force(thrust: Newton, coefficient: Ratio, helm_degrees: Ratio) -> Newton:
    """Side force of the rudder when the engine goes ahead: what takes the stern unit's part in case C.

    Parameters
    ----------
    thrust : Of the propeller, ahead. [N]
    coefficient : Per degree of helm. [1]
    helm_degrees : Rudder angle in degrees. [1]

    Examples
    --------
    A plain rudder with the area of the square of the diameter, hard over:

    >>> round(rudder_side_force(1.0, rudder_coefficient(1.1, 1.0, 1.0), 30.0), 4)
    0.4158
    """
    _helm(helm_degrees)
    return thrust * coefficient * helm_degrees


@formula("X_R", "N", "thrust * (1 - SURGE_LOSS * coefficient * helm_degrees ** 2)", source="dnv-st-0111",
         valid="ahead only, helm to 30 degrees")  # fmt: skip
def thrust_behind_rudder(thrust: Newton, coefficient: Ratio, helm_degrees: Ratio) -> Newton:
    """Thrust ahead that is left with the rudder over; a line or the other engine must take it.

    Parameters
    ----------
    thrust : Of the propeller, ahead. [N]
    coefficient : Per degree of helm. [1]
    helm_degrees : Rudder angle in degrees. [1]
    """
    _helm(helm_degrees)
    return thrust * (1.0 - SURGE_LOSS * coefficient * helm_degrees**2)


# ---- over all headings


@formula("N", "N", "abs(thrust) / units", source="own-arithmetic", valid="units of one role share alike")
def need_of_one(thrust: Newton, units: Ratio = 1.0) -> Newton:
    """What one of several units of a role must give, without side.

    Parameters
    ----------
    thrust : That balances the wind, with its sign. [N]
    units : Of this role. [1]

    Examples
    --------
    >>> need_of_one(-1500.0, 2.0)
    750.0
    """
    return abs(thrust) / units


@dataclass(frozen=True, slots=True)
class AtHeading:
    """What one unit must give at one wind angle; ``thrust`` has the sign of the push that balances the wind."""

    wind_angle: Radian
    thrust: Newton
    load: WindLoad


@dataclass(frozen=True, slots=True)
class Demand:
    """What one unit must give in one case: on the beam as the trade quotes it, at the worst heading asked, and everywhere."""

    beam: AtHeading
    worst: AtHeading
    headings: tuple[AtHeading, ...]

    @property
    def beam_thrust(self) -> Newton:
        """Size of the thrust with the wind on the beam."""
        return abs(self.beam.thrust)

    @property
    def worst_thrust(self) -> Newton:
        """Size of the thrust at the worst heading asked."""
        return abs(self.worst.thrust)

    @property
    def worst_angle(self) -> Radian:
        """Where the worst heading lies, off the bow, without side."""
        return abs(self.worst.wind_angle)


@dataclass(frozen=True, slots=True)
class Station:
    """Case C: the demands on both units."""

    bow: Demand
    stern: Demand


def one_end_held(model: WindModel, headings: Sequence[Radian], thruster_place: Metre, pivot_place: Metre) -> Demand:
    """Case B over headings: the need of one unit while the other end is held at ``pivot_place``."""
    return _demand(model, headings, lambda load: -thrust_about_pivot(load.side, load.place, thruster_place, pivot_place))


def on_station(model: WindModel, headings: Sequence[Radian], bow_place: Metre, stern_place: Metre) -> Station:
    """Case C over headings: the needs of a bow and a stern unit that hold the boat by themselves."""
    return Station(
        _demand(model, headings, lambda load: -bow_thrust_on_station(load.side, load.place, bow_place, stern_place)),
        _demand(model, headings, lambda load: -stern_thrust_on_station(load.side, load.place, bow_place, stern_place)),
    )


def _demand(model: WindModel, headings: Sequence[Radian], thrust: Callable[[WindLoad], Newton]) -> Demand:
    if not headings:
        raise ValueError("a need wants one heading or more")
    at = tuple(AtHeading(load.wind_angle, thrust(load), load) for load in over(model, headings))
    abeam = model(BEAM)
    # among equal needs of a symmetric boat the one from starboard is named
    worst = max(at, key=lambda heading: (round(abs(heading.thrust), 6), heading.wind_angle))
    return Demand(AtHeading(abeam.wind_angle, thrust(abeam), abeam), worst, at)


def _apart(bow_place: Metre, stern_place: Metre) -> None:
    if bow_place - stern_place < SHORTEST_ARM:
        raise ValueError(f"the bow unit at {bow_place:g} m is not forward of the stern unit at {stern_place:g} m")


def _helm(degrees: Ratio) -> None:
    if not 0.0 <= degrees <= RUDDER_MOST_DEGREES:
        raise ValueError(f"a helm of {degrees:g} degrees; allowed are 0 to {RUDDER_MOST_DEGREES:g}")
