"""Fitting a unit into a hull: laminate and shell round the tunnel, the box of a retractable, batteries held down.

Wall of the tunnel and cover stand in ``immersion``, length and rounding in ``tunnel``; here is what the yard does about them.
Cutting a hull below the waterline needs the yard's structural approval; class rules bind a classed boat and guide the others.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from athwart.explain import formula
from athwart.thruster.tunnel import BEST, GOOD_ROUNDING, LONGEST
from athwart.thruster.water import G
from athwart.units.names import Kilogram, Metre, MetrePerSecond, Newton, Ratio

SHELL_IN_WAY: Ratio = 1.5
SCARF: Ratio = 12.0
GRIND_LEAST: Metre = 0.100
BOX_MARGIN: Metre = 0.100
PULL_LIMIT: Newton = 90.0 * 4.4482216152605
PULL_WEIGHTS: Ratio = 2.0
BATTERY_MOVEMENT: Metre = 0.0254
SMALL_LOSS_FROM: Ratio = 6.0


@formula("r", "m", "GOOD_ROUNDING * diameter", source="fairing-refit")
def end_radius(diameter: Metre) -> Metre:
    """Rounding of a tunnel's ends, a tenth of its diameter.

    Parameters
    ----------
    diameter : Of the tunnel. [m]

    Examples
    --------
    >>> end_radius(0.250)
    0.025
    """
    return GOOD_ROUNDING * diameter


def good_lengths(diameter: Metre) -> tuple[Metre, Metre]:
    """Shortest and longest length of a good tunnel, its shorter side, two to four diameters.

    >>> good_lengths(0.185)
    (0.37, 0.74)
    """
    return BEST[0] * diameter, BEST[1] * diameter


LengthVerdict = Literal["short", "good", "long", "loses thrust"]


def length_verdict(length: Metre, diameter: Metre) -> LengthVerdict:
    """What a tunnel's length means: too short is noisy and cavitates, beyond six to seven diameters the loss is plain.

    >>> [length_verdict(length, 0.2) for length in (0.3, 0.6, 1.0, 1.5)]
    ['short', 'good', 'long', 'loses thrust']
    """
    ratio = length / diameter
    if ratio < BEST[0]:
        return "short"
    if ratio <= BEST[1]:
        return "good"
    return "long" if ratio <= 0.5 * (SMALL_LOSS_FROM + LONGEST) else "loses thrust"


@formula("t", "m", "SHELL_IN_WAY * shell", source="special-service-craft-rules", valid="rule for a classed craft, guidance else")
def shell_in_way(shell: Metre) -> Metre:
    """Thickness of the hull's shell round the tunnel, half as much again.

    Parameters
    ----------
    shell : Thickness of the shell beside it. [m]
    """
    return SHELL_IN_WAY * shell


@formula("b", "m", "max(SCARF * laminate, GRIND_LEAST)", source="laminate-scarf", valid="glass fibre, each side of the cut")
def taper_width(laminate: Metre) -> Metre:
    """Width ground back round the cut for the tapes: twelve thicknesses of the laminate, at least 100 mm.

    Parameters
    ----------
    laminate : Thickness of the hull's skin at the cut. [m]

    Examples
    --------
    >>> taper_width(0.006), round(taper_width(0.015), 3)
    (0.1, 0.18)
    """
    return max(SCARF * laminate, GRIND_LEAST)


@dataclass(frozen=True, slots=True)
class TunnelStep:
    """One thing the yard does at the joint of the tunnel."""

    material: str  # "grp", "metal", "any"
    says: str
    source: str


TUNNEL_STEPS: tuple[TunnelStep, ...] = (
    TunnelStep(
        "any",
        "Set the tunnel between deep floors or bulkheads carried above the waterline, or in its own watertight compartment.",
        "special-service-craft-rules",
    ),
    TunnelStep("grp", "Feather the skin over 100 to 150 mm round the cut and lay tapes on both faces.", "common-practice"),
    TunnelStep("grp", "Wet out bare core and the sawn rim of the tube before the tapes go on.", "common-practice"),
    TunnelStep(
        "grp", "Cut the hole generously: a joint needs a body of filler; squeezed thin it shrinks and weeps.", "common-practice"
    ),
    TunnelStep("metal", "Part a leg of another metal from the tunnel with an insulating flange and bushes.", "common-practice"),
    TunnelStep("any", "Test for leaks before launch and look again an hour after.", "common-practice"),
    TunnelStep("any", "A compartment that can flood through the tunnel or the box has a bilge alarm.", "own-judgement"),
)


def tunnel_steps(material: str) -> tuple[TunnelStep, ...]:
    """Steps at the joint for a hull material: ``grp`` and ``wood`` are laminated, ``steel`` and ``aluminium`` welded.

    >>> len(tunnel_steps("steel")), len(tunnel_steps("grp"))
    (4, 6)
    """
    wanted = {"any", "metal" if material in ("steel", "aluminium") else "grp"}
    return tuple(step for step in TUNNEL_STEPS if step.material in wanted)


# ---- the box of a retractable


@formula("h", "m", "box_top - waterline", source="own-arithmetic", valid="both heights from one base, the boat loaded")
def box_freeboard(box_top: Metre, waterline: Metre) -> Metre:
    """Height of the open box's top above the loaded waterline.

    Parameters
    ----------
    box_top : Lowest edge that water could cross with the lid off, above a base. [m]
    waterline : Loaded waterline at the box, above the same base. [m]
    """
    return box_top - waterline


def box_verdict(freeboard: Metre) -> Literal["", "caution", "stop"]:
    """A box below the waterline floods the boat when its lid is off; within 100 mm a wave or a heavy crew does it.

    >>> box_verdict(-0.05), box_verdict(0.05), box_verdict(0.30)
    ('stop', 'caution', '')
    """
    if freeboard <= 0.0:
        return "stop"
    return "caution" if freeboard < BOX_MARGIN else ""


def exceeds_lowered_speed(boat_speed: MetrePerSecond, speed_most: MetrePerSecond | None) -> bool:
    """Whether a boat goes faster than its lowered unit bears; without a stated limit nobody can say it does not."""
    return speed_most is None or boat_speed > speed_most


# ---- batteries


@formula(
    "F",
    "N",
    "min(PULL_LIMIT, PULL_WEIGHTS * mass * G)",
    source="33-cfr-183-420",
    valid="any direction, through the centre of mass",
)
def battery_pull(mass: Kilogram) -> Newton:
    """Pull under which a battery moves no more than an inch: 90 lbf or twice its weight, the smaller.

    Parameters
    ----------
    mass : Of the battery. [kg]

    Examples
    --------
    >>> round(battery_pull(60.0)), round(battery_pull(15.0))
    (400, 294)
    """
    return min(PULL_LIMIT, PULL_WEIGHTS * mass * G)
