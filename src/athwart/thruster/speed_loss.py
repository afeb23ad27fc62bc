"""What is left of a tunnel unit under way: the hull sucks at the lee of the jet, and the turning moment suffers most."""

from __future__ import annotations

from athwart.explain import formula
from athwart.numerics.curves import monotone_cubic
from athwart.units.names import MetrePerSecond, Ratio

MOMENT_POINTS = ((0.0, 1.0), (0.10, 0.85), (0.20, 0.68), (0.33, 0.50), (0.50, 0.55), (0.80, 0.75), (1.25, 1.0))
"""Speed over jet speed, share of the moment left: standstill, least and full recovery are published, the rest is judgement."""
SIDE_SHARE: Ratio = 0.7
POD_SHARE: Ratio = 0.5


@formula("m", "1", "boat_speed / jet_speed", source="own-arithmetic")
def speed_ratio(boat_speed: MetrePerSecond, jet_speed: MetrePerSecond) -> Ratio:
    """Speed through the water over that of the jet; a current across the tunnel mouth counts as speed.

    Parameters
    ----------
    boat_speed : Through the water. [m/s]
    jet_speed : Of the unit standing still. [m/s]
    """
    return boat_speed / jet_speed


@formula("f_N", "1", "monotone cubic through seven points of speed over jet speed", source="tanker-bow-thruster-tests",
         kind="table", valid="0 to 1.25 of the jet speed")  # fmt: skip
def moment_left(speed_ratio: Ratio) -> Ratio:
    """Share of the standstill turning moment left under way.

    Parameters
    ----------
    speed_ratio : Speed through the water over jet speed. [1]

    Notes
    -----
    Anchored on model tests of a large tanker: half the moment at 4 kn, all of it again at 15 kn. A stern unit going ahead
    loses about half as much (own judgement). Uncertainty: 0.15 absolute.

    Examples
    --------
    >>> [round(moment_left(ratio), 2) for ratio in (0.0, 0.33, 1.25)]
    [1.0, 0.5, 1.0]
    """
    return monotone_cubic(MOMENT_POINTS, speed_ratio)


@formula("f_Y", "1", "1 - SIDE_SHARE * (1 - moment_left)", source="own-judgement")
def side_force_left(moment_left: Ratio) -> Ratio:
    """Share of the standstill side force left, from that of the moment: the suction acts aft of the jet.

    Parameters
    ----------
    moment_left : Share of the turning moment left. [1]
    """
    return 1.0 - SIDE_SHARE * (1.0 - moment_left)


@formula("f_pod", "1", "1 - POD_SHARE * (1 - moment_left)", source="own-judgement", valid="a pod clear of the hull")
def pod_moment_left(moment_left: Ratio) -> Ratio:
    """Share of the moment left for a lowered or external pod, from that of a tunnel.

    Parameters
    ----------
    moment_left : Share left for a tunnel unit. [1]
    """
    return 1.0 - POD_SHARE * (1.0 - moment_left)
