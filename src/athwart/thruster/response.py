"""How a unit answers its lever in time: it lags, it waits before it pushes the other way, and it knows steps or all or nothing.

Lags and pauses by kind of drive are own judgements, shipped as visible defaults; a catalogue's least pause goes before them.
"""

from __future__ import annotations

from collections.abc import Mapping
from math import exp, floor, log
from typing import Literal

from athwart.explain import formula
from athwart.units.names import Newton, Ratio, Second

Control = Literal["on/off", "stepped", "proportional"]

LAGS: Mapping[str, Second] = {"brushed": 0.25, "brushless": 0.35, "hydraulic": 0.5}
"""Time in which a unit comes to two thirds of its thrust."""
REVERSALS: Mapping[str, Second] = {"brushed": 0.5, "brushless": 0.4, "hydraulic": 0.8}
"""Least pause before a unit pushes the other way, where the catalogue states none."""
STEPS = 3
HALF_LEVER: Ratio = 0.5


@formula("T(t)", "N", "wanted + (before - wanted) * exp(-time / lag)", source="own-arithmetic", valid="a motor near its volts")
def thrust_after(before: Newton, wanted: Newton, time: Second, lag: Second) -> Newton:
    """Thrust some time after a lever was moved: it follows with one lag.

    Parameters
    ----------
    before : Thrust when the lever was moved. [N]
    wanted : Thrust it settles on. [N]
    time : Since then. [s]
    lag : Time in which two thirds of the way are made. [s]

    Examples
    --------
    >>> round(thrust_after(0.0, 1000.0, 0.5, 0.25))
    865
    """
    return wanted + (before - wanted) * exp(-time / lag)


@formula("t_9", "s", "lag * log(10)", source="own-arithmetic")
def time_to_nine_tenths(lag: Second) -> Second:
    """Time from a standing rotor to nine tenths of its thrust.

    Parameters
    ----------
    lag : Of the unit. [s]

    Examples
    --------
    >>> round(time_to_nine_tenths(0.25), 2)
    0.58
    """
    return lag * log(10.0)


@formula("t_r", "s", "pause + lag * log(10)", source="own-arithmetic", valid="the rotor runs out within the pause")
def time_to_reverse(pause: Second, lag: Second) -> Second:
    """Time from full thrust one way to nine tenths of it the other way: the pause, then the start.

    Parameters
    ----------
    pause : Least pause before the unit pushes the other way. [s]
    lag : Of the unit. [s]

    Examples
    --------
    A brushed unit by its defaults:

    >>> round(time_to_reverse(0.5, 0.25), 2)
    1.08
    """
    return pause + lag * log(10.0)


@formula("c", "1", "all or nothing from half lever on; the nearest of some steps; or the lever itself", source="own-judgement",
         kind="table", valid="levers from -1 to 1")  # fmt: skip
def commanded(lever: Ratio, control: Control, steps: int = STEPS) -> Ratio:
    """What a unit makes of a lever between full to port (-1) and full to starboard (1).

    Parameters
    ----------
    lever : Where the lever stands. [1]
    control : on/off, stepped or proportional. [1]
    steps : Of a stepped control. [1]

    Examples
    --------
    >>> [round(commanded(0.6, control), 2) for control in ("on/off", "stepped", "proportional")]
    [1.0, 0.67, 0.6]
    """
    lever = min(1.0, max(-1.0, lever))
    size, side = abs(lever), 1.0 if lever >= 0.0 else -1.0
    if control == "on/off":
        return side if size >= HALF_LEVER else 0.0
    if control == "stepped":
        return side * floor(size * steps + 0.5) / steps
    return lever
