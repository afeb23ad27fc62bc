"""Where the tunnel sits and how it is made."""

from __future__ import annotations

from collections.abc import Iterator
from math import degrees

from athwart.design.checks.looks import over, thruster_path, told, under, where_of
from athwart.design.checks.registry import check
from athwart.design.places import body_x
from athwart.design.proposal import Lane, Proposal
from athwart.design.search import floating, running
from athwart.findings import Finding, code
from athwart.numerics.tables import interpolate
from athwart.thruster.immersion import COVER_CAUTION, COVER_NOTE, COVER_STOP
from athwart.thruster.scaling import LOADING_NOTE, TIP_SPEED_NOTE

LONG, VERY_LONG, SHORT = 4.0, 7.0, 1.0
ENTRY_GOOD, ENTRY_LEAST = 0.10, 0.05
KEEL = 0.10
FORWARD = 0.3

TUNNEL_01 = code(
    "TUNNEL-01",
    "Too little water over the tunnel",
    "stop",
    says="At the lightest waterline, in the trim of the chosen parts, less than half a diameter of water covers the tunnel roof.",
    why="It draws air in the first wave, roars and pushes hardly at all.",
    remedy="Go deeper, take a smaller diameter, or take a retractable unit. Can be overridden with a reason.",
    source="tunnel-notes",
)
TUNNEL_02 = code(
    "TUNNEL-02",
    "Little water over the tunnel",
    "caution",
    says="Less than three quarters of a diameter of water covers the tunnel roof at the lightest waterline.",
    why="It works in flat water and draws air in a chop.",
    remedy="Deeper if the hull allows; else count on less thrust in waves.",
    source="tunnel-notes",
)
TUNNEL_03 = code(
    "TUNNEL-03",
    "Less than one diameter over the tunnel",
    "note",
    says="Less than one diameter of water covers the tunnel roof at the lightest waterline.",
    why="One diameter is better; beyond that moving forward is worth more than moving down.",
    remedy="Nothing to mend; keep weight out of the other end.",
    source="tunnel-notes",
)
TUNNEL_04 = code(
    "TUNNEL-04",
    "Too little hull below the tunnel",
    "stop",
    says="The hull below the tunnel's axis is less than half a diameter and a tenth.",
    why="The cut would open the keel line, where the stem is joined and the boat takes the ground.",
    remedy="Raise the axis, move aft, or take a smaller diameter.",
    source="own-judgement",
)
TUNNEL_05 = code(
    "TUNNEL-05",
    "Sharp tunnel ends",
    "caution",
    says="The ends of the tunnel are neither rounded by a twentieth of its diameter nor coned.",
    why="Water does not follow a sharp edge: up to a sixth of the thrust is lost, and it is loud.",
    remedy="Round them by a tenth of the diameter, or cone them; laminate the joint on both sides.",
    source="entry-loss-tables",
)
TUNNEL_06 = code(
    "TUNNEL-06",
    "Tunnel ends rounded little",
    "note",
    says="The ends are rounded by less than a tenth of the diameter.",
    why="A tenth costs hardly more to make and wins a few per cent.",
    remedy="Round by a tenth where the laminate allows.",
    source="entry-loss-tables",
)
TUNNEL_07 = code(
    "TUNNEL-07",
    "Long tunnel",
    "note",
    says="The tunnel is longer than four diameters.",
    why="Wall friction costs thrust, plainly above six or seven.",
    remedy="Further forward the hull is narrower and the tunnel shorter.",
    source="tunnel-notes",
)
TUNNEL_08 = code(
    "TUNNEL-08",
    "Tunnel too short or too long",
    "stop",
    says="The tunnel is shorter than one diameter or longer than seven.",
    why="Too short, the propeller throws its water at the entry and cavitates; too long, friction eats the thrust.",
    remedy="Another place or another diameter.",
    source="tunnel-notes",
)
TUNNEL_09 = code(
    "TUNNEL-09",
    "Grids over the tunnel ends",
    "note",
    says="The tunnel ends have grids.",
    why="Bars cost thrust at both ends and clog with weed.",
    remedy="Leave them out unless ropes and logs are the rule; else wide gaps and round bars.",
    source="grid-loss-kirschmer",
)
TUNNEL_10 = code(
    "TUNNEL-10",
    "Tunnel not in a watertight compartment",
    "note",
    says="The brief does not say that the tunnel lies between watertight frames.",
    why="A joint that weeps fills the locker, and nobody looks there.",
    remedy="A watertight compartment or deep floors on both sides, a bilge alarm, and a leak test before launch.",
    source="special-service-craft-rules",
)
TUNNEL_11 = code(
    "TUNNEL-11",
    "Further forward would need less thrust",
    "note",
    says="The unit sits well aft of where the lever is best; so much less thrust would do 300 mm further forward.",
    why="Thrust needed goes with one over the lever.",
    remedy="Look whether tank, locker or chain allow another frame.",
    source="own-arithmetic",
)
TUNNEL_12 = code(
    "TUNNEL-12",
    "The propeller draws air: thrust is lost",
    "caution",
    says="The axis lies so shallow that part of the thrust is lost, and the proposal has counted that.",
    why="A disc near the surface makes waves and sucks air.",
    remedy="Deeper, or a smaller diameter at the same axis.",
    source="minsaas-immersion",
)
TUNNEL_13 = code(
    "TUNNEL-13",
    "The light state is not known",
    "note",
    says="The brief names no lightest state; immersion was judged at the load waterline.",
    why="With tanks and lockers empty the bow rises, and a tunnel that was deep enough draws air.",
    remedy="Give the lightest displacement and how much lower the waterline then lies.",
    source="own-judgement",
)


TUNNEL_14 = code(
    "TUNNEL-14",
    "The hull is not that deep where the tunnel is to go",
    "stop",
    says="By the underwater profile the hull ends above the lower edge of the tunnel at this place.",
    why="The cut would run out of the hull at the keel line.",
    remedy="Move the tunnel, raise its axis, or correct the profile.",
    source="own-arithmetic",
)


TUNNEL_15 = code(
    "TUNNEL-15",
    "The weather end of the tunnel comes near the surface",
    "note",
    says="In the wind asked, abeam, the boat heels; the tunnel's end on the side the wind comes from lies shallower by that. The loss "
    "near the surface is counted there.",
    why="A mouth that draws air takes the thrust of the whole tunnel, just when the wind is strongest.",
    remedy="Deeper or shorter; give boat.metacentric_height where it is known, for here it may be a share of the beam.",
    source="own-judgement",
)
TUNNEL_16 = code(
    "TUNNEL-16",
    "Fast tips or a hard-loaded disc",
    "note",
    says="The rotor's tips are fast or its disc is loaded hard for its depth. Small units cavitate near such figures; that is noise and "
    "wear, not a limit.",
    why="Where the pressure on the blade falls to that of vapour, bubbles form and collapse: the crackle heard in every cabin.",
    remedy="A larger diameter for the same thrust, or a unit with two rotors.",
    source="own-judgement",
)


def _tunnel_lanes(p: Proposal) -> Iterator[tuple[Lane, float]]:
    for lane in p.lanes:
        if lane.unit.tunnel_diameter and lane.unit.in_tunnel:
            yield lane, lane.unit.tunnel_diameter


@check
def immersion(p: Proposal) -> Iterator[Finding]:
    """Cover over the roof, loss near the surface, hull below."""
    for lane in p.lanes:
        diameter = lane.unit.tunnel_diameter
        if not diameter:
            continue
        where, path = where_of(lane), thruster_path(p, lane, "tunnel.axis_depth")
        for entry, limit in ((TUNNEL_01, COVER_STOP), (TUNNEL_02, COVER_CAUTION), (TUNNEL_03, COVER_NOTE)):
            if lane.cover_ratio < limit - 1e-9:
                yield entry.found(
                    where,
                    "Water over the roof.",
                    value=f"{lane.cover_ratio:.2f} D",
                    limit=f"{limit:.2f} D",
                    margin=under(lane.cover_ratio, limit),
                    path=path,
                )
                break
        if lane.immersion_factor < 0.98:
            yield TUNNEL_12.found(
                where,
                "So much of the thrust is left.",
                value=told(lane.immersion_factor, "ratio", "%"),
                limit="100 %",
                margin=lane.immersion_factor - 1,
                path=path,
            )
        below = lane.thruster.tunnel.hull_below_axis
        if below is not None and lane.unit.in_tunnel and below < diameter * (0.5 + KEEL) - 1e-9:
            need = diameter * (0.5 + KEEL)
            yield TUNNEL_04.found(
                where,
                "Hull below the axis.",
                value=told(below, "length", "mm"),
                limit=told(need, "length", "mm"),
                margin=under(below, need),
                path=thruster_path(p, lane, "tunnel.hull_below_axis"),
            )
    if p.brief.boat.lightest is None:
        yield TUNNEL_13.found("boat", "No lightest state.", path="boat.lightest")


@check
def heeled(p: Proposal) -> Iterator[Finding]:
    """Cover over the weather end of each tunnel in the wind asked, abeam."""
    angle = p.need.heel
    if angle is None:
        yield TUNNEL_15.found(
            "boat",
            "In the wind asked, abeam, she would heel more than 30°: no cover is stated.",
            severity="stop",
            path="boat.metacentric_height",
        )
        return
    for lane, diameter in _tunnel_lanes(p):
        left = lane.cover_ratio - floating.mouth_drop(lane.thruster.tunnel, diameter, angle) / diameter
        if left < COVER_STOP <= lane.cover_ratio:
            yield TUNNEL_15.found(
                where_of(lane),
                f"Heeled {degrees(angle):.1f}° in the wind asked.",
                value=f"{left:.2f} D",
                limit=f"{COVER_STOP:.2f} D",
                margin=under(left, COVER_STOP),
                severity="caution" if left < 0.0 else "note",
                path=thruster_path(p, lane, "tunnel.axis_depth"),
            )


@check
def tips(p: Proposal) -> Iterator[Finding]:
    """Tip speed, cavitation number and loading of each rotor at full thrust."""
    for lane in p.lanes:
        found = running.tips(lane.unit, lane.thruster.tunnel.axis_depth)
        if found is None or (found.speed <= TIP_SPEED_NOTE and found.loading <= LOADING_NOTE):
            continue
        fast = found.speed > TIP_SPEED_NOTE
        yield TUNNEL_16.found(
            where_of(lane),
            f"Tips at some {found.speed:.0f} m/s, cavitation number {found.cavitation:.2f}, {found.loading / 1000:.0f} kPa on the disc.",
            value=f"{found.speed:.0f} m/s" if fast else f"{found.loading / 1000:.0f} kPa",
            limit=f"{TIP_SPEED_NOTE:.0f} m/s" if fast else f"{LOADING_NOTE / 1000:.0f} kPa",
            margin=over(found.speed, TIP_SPEED_NOTE) if fast else over(found.loading, LOADING_NOTE),
        )


@check
def shape(p: Proposal) -> Iterator[Finding]:
    """Length, ends, grids, compartment."""
    for lane, diameter in _tunnel_lanes(p):
        where, tunnel = where_of(lane), lane.thruster.tunnel
        path = thruster_path(p, lane, "tunnel")
        if tunnel.tunnel_length is not None:
            ratio = tunnel.tunnel_length / diameter
            if not SHORT <= ratio <= VERY_LONG:
                limit = SHORT if ratio < SHORT else VERY_LONG
                yield TUNNEL_08.found(
                    where,
                    "Its length.",
                    value=f"{ratio:.1f} D",
                    limit=f"{limit:.0f} D",
                    margin=-abs(ratio - limit) / limit,
                    path=f"{path}.tunnel_length",
                )
            elif ratio > LONG:
                yield TUNNEL_07.found(
                    where,
                    "Its length.",
                    value=f"{ratio:.1f} D",
                    limit=f"{LONG:.0f} D",
                    margin=over(ratio, LONG),
                    path=f"{path}.tunnel_length",
                )
        radius = 0.0 if tunnel.entry_radius is None else tunnel.entry_radius / diameter
        if not tunnel.entry_cone and radius < ENTRY_LEAST - 1e-9:
            words = "Nothing is said of its ends." if tunnel.entry_radius is None else "Its ends."
            yield TUNNEL_05.found(
                where,
                words,
                value=f"{radius:.2f} D",
                limit=f"{ENTRY_LEAST:.2f} D",
                margin=under(radius, ENTRY_LEAST),
                severity="note" if tunnel.entry_radius is None else None,
                path=f"{path}.entry_radius",
            )
        elif not tunnel.entry_cone and radius < ENTRY_GOOD - 1e-9 and radius < 0.09:
            yield TUNNEL_06.found(
                where,
                "Its ends.",
                value=f"{radius:.2f} D",
                limit=f"{ENTRY_GOOD:.2f} D",
                margin=under(radius, ENTRY_GOOD),
                path=f"{path}.entry_radius",
            )
        depth = _hull_depth(p, lane)
        lower = tunnel.axis_depth + diameter / 2
        if depth is not None and depth < lower:
            yield TUNNEL_14.found(
                where,
                "Depth of the hull there.",
                value=told(depth, "length", "mm"),
                limit=told(lower, "length", "mm"),
                margin=under(depth, lower),
                path=f"{path}.x",
            )
        if tunnel.grid:
            yield TUNNEL_09.found(where, "Grids.", path=f"{path}.grid")
        if not tunnel.compartment_watertight:
            yield TUNNEL_10.found(where, "No watertight compartment is named.", path=f"{path}.compartment_watertight")


def _hull_depth(p: Proposal, lane: Lane) -> float | None:
    """Depth of the hull at a tunnel by the underwater profile, None where the profile does not reach it."""
    points = sorted((body_x(p.brief, x), depth) for x, depth in p.brief.boat.underwater)
    x = body_x(p.brief, lane.thruster.tunnel.x)
    if len(points) < 2 or not points[0][0] <= x <= points[-1][0]:
        return None
    return interpolate(tuple(points), x)


@check
def place(p: Proposal) -> Iterator[Finding]:
    """What another frame would save."""
    half = p.brief.boat.length_overall / 2
    for lane in p.lanes:
        case = p.need.ruling(lane.thruster.identity)
        x = body_x(p.brief, lane.thruster.tunnel.x)
        if lane.thruster.role != "bow" or case.lever <= 0 or x > 0.62 * half:
            continue
        better = case.worst * case.lever / (case.lever + FORWARD)
        yield TUNNEL_11.found(
            where_of(lane),
            "300 mm further forward.",
            value=told(case.worst, "force"),
            limit=told(better, "force"),
            margin=over(case.worst, better),
            path=thruster_path(p, lane, "tunnel.x"),
        )
