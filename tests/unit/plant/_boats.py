"""Boats and winds for the tests of motion: one hull, simple wind loads, units that differ in what is tested."""

from __future__ import annotations

from athwart.plant.motion import Boat, Pusher, SteadyThrust, Wind
from athwart.thruster.speed_loss import moment_left
from athwart.vessel.harmonics import WindHarmonics
from athwart.vessel.spectra import GustFilter, gust_filter
from athwart.vessel.underwater import Dimensions, HullInWater, hull_in_water

LOSSES = tuple(moment_left(k / 100.0) for k in range(126))
STILL = WindHarmonics((0.0, 0.0), (0.0, 0.0), (0.0, 0.0), 0.0)
SIMPLE = WindHarmonics((0.0, -3.0, 0.0, -0.2), (0.0, -14.0, 0.0, 1.0), (0.0, 0.0, -20.0, 0.3), 0.0)
"""Odd and even as a real boat's, and with few terms."""


def hull(kind: str = "motor yacht, displacement") -> HullInWater:
    return hull_in_water(Dimensions(kind, 12.8, 4.2, 1.2, 16_000.0))


def bow(thrust: float = 1400.0, *, control: str = "on/off", place: float = 5.2, lag: float = 0.25) -> Pusher:
    return Pusher(place, SteadyThrust(thrust, thrust), 6.0, lag, 0.5, control, 3, current=400.0, losses=LOSSES)  # type: ignore[arg-type]


def stern(thrust: float = 950.0, *, control: str = "on/off") -> Pusher:
    return Pusher(-5.0, SteadyThrust(thrust, thrust), 6.0, 0.3, 0.6, control, 3, current=250.0, losses=LOSSES)  # type: ignore[arg-type]


def boat(wind: WindHarmonics = SIMPLE, first: Pusher | None = None, second: Pusher | None = None) -> Boat:
    return Boat(hull(), wind, first or bow(), second)


def steady_wind(speed: float, comes_from: float) -> Wind:
    """No gusts."""
    return Wind(GustFilter(speed, (0.5, 0.5, 0.5), (0.0, 0.0, 0.0)), comes_from)


def gusty(speed: float, comes_from: float, chances: int = 12345, sigma: float = 1.0) -> Wind:
    return Wind(gust_filter(speed, sigma, 14.0, 0.1), comes_from, (0.5, -0.3, 1.0), chances)
