"""Main fuses: there, near, carrying the run, protecting the cable, breaking the fault, opening at the least one."""

from __future__ import annotations

from collections.abc import Iterator
from math import isinf

from athwart.design.checks.looks import over, part_path, run_of, told, where_of
from athwart.design.checks.registry import check
from athwart.design.proposal import Lane, Proposal
from athwart.design.search.fusing import withstand
from athwart.findings import Finding, code
from athwart.power.fuse import breaking_capacity_at
from athwart.power.rules import RULE_SETS

FUSE_01 = code(
    "FUSE-01",
    "No main fuse",
    "stop",
    says="The thruster's cable has no fuse at its bank.",
    why="The bank feeds thousands of amperes into a chafed cable until it burns.",
    remedy="A fuse at the bank's positive for this cable and this current.",
    source="iso-13297-fuse",
)
FUSE_02 = code(
    "FUSE-02",
    "The main fuse is too far from the bank",
    "stop",
    says="The fuse lies further along the conductor from the bank than the rule set allows.",
    why="The piece before it is protected by nothing.",
    remedy="Move it to the bank's positive.",
    source="iso-13297-fuse",
)
FUSE_03 = code(
    "FUSE-03",
    "The fuse does not carry the longest run",
    "stop",
    says="The fuse may open before the longest run is over, or is rated far below the running current.",
    why="It opens in the manoeuvre it was to serve.",
    remedy="The next rating that the cable bears, or a slower family.",
    source="own-judgement",
)
FUSE_04 = code(
    "FUSE-04",
    "The fuse is too large for the conductor",
    "stop",
    says="The fuse is rated for more than the rule set allows for this conductor.",
    why="An overload cooks the cable and never opens the fuse.",
    remedy="A smaller fuse, or a thicker cable.",
    source="iso-13297-fuse",
)
FUSE_05 = code(
    "FUSE-05",
    "The fuse is not rated for these volts",
    "stop",
    says="On charge the bank's volts exceed the fuse's rated ones.",
    why="Above its volts a fuse does not put out its arc.",
    remedy="A family rated for the charging volts.",
    source="iso-8820-scopes",
)
FUSE_06 = code(
    "FUSE-06",
    "The fuse cannot break the largest fault",
    "stop",
    says="A bolted short circuit at the bank exceeds what the fuse can break at these volts.",
    why="It bursts instead of opening.",
    remedy="A family with more breaking capacity.",
    source="iso-8820-scopes",
)
FUSE_07 = code(
    "FUSE-07",
    "Slow at the smallest fault",
    "stop",
    says="At the smallest fault, at the unit with the bank cold and aged, the fuse does not surely open within 5 s or what the cable bears.",
    why="Behind a long cable a short circuit draws little more than the motor does, and the fuse takes it for a start.",
    remedy="A thicker cable, a smaller or a faster fuse.",
    source="own-judgement",
)
FUSE_08 = code(
    "FUSE-08",
    "The fuse does not protect the cable everywhere",
    "stop",
    says="At some current between overload and short circuit the cable suffers before the fuse has surely opened.",
    why="Both ends may be right and the middle wrong.",
    remedy="Another family or a thicker cable; see the coordination plot.",
    source="iec-60364-5-54",
)
FUSE_09 = code(
    "FUSE-09",
    "Locked propeller: nothing opens in time",
    "caution",
    says="With the propeller locked neither fuse nor protection opens before the cable suffers.",
    why="A rope round the propeller holds it; the motor draws several times its current until somebody lets go of the button.",
    remedy="A motor protection that trips on stall, a faster fuse, or a thicker cable.",
    source="dc-motor",
)
FUSE_10 = code(
    "FUSE-10",
    "A small fuse does not suit its circuit",
    "stop",
    says="A fuse other than a main fuse is rated for fewer volts than its circuit has on charge, breaks less than a short circuit "
    "behind it draws, or none of the catalogue does both.",
    why="A fuse of a charger, a coil or a string bursts on the same battery as the main fuse.",
    remedy="A family with the volts and the breaking capacity; or feed the circuit from behind a larger fuse that has both.",
    source="iso-8820-scopes",
)
OF_LIMIT = (
    ("rating over the run", FUSE_03, "current"),
    ("carries the longest run", FUSE_03, "time"),
    ("rating within the conductor", FUSE_04, "current"),
    ("rated volts", FUSE_05, "voltage"),
    ("breaking capacity", FUSE_06, "current"),
    ("opens at the smallest fault", FUSE_07, "time"),
    ("opens before the cable suffers", FUSE_08, "time"),
)


def _tag(lane: Lane) -> tuple[str, ...]:
    return (f"F{lane.lane}.1",)


@check
def there_and_near(p: Proposal) -> Iterator[Finding]:
    """A fuse within the rule's distance."""
    rules = RULE_SETS[p.brief.choices.rule_set]
    for lane in p.lanes:
        if lane.unit.drive == "hydraulic" or lane.cable is None:
            continue
        path = part_path(p, lane, "fuse")
        if lane.fuse is None:
            reason = "" if p.mode == "check" else " No fuse of the catalogue passes every question for this chain."
            yield FUSE_01.found(where_of(lane), f"No main fuse.{reason}", tags=_tag(lane), path=path)
            continue
        run = run_of(p, lane)
        limit = rules.fuse_distance(at_battery=True, sheathed=bool(run and run.sheathed)).value
        if lane.fuse.from_source > limit * (1 + 1e-9):
            yield FUSE_02.found(
                where_of(lane),
                f"Along the conductor{', sheathed' if run and run.sheathed else ''}.",
                value=told(lane.fuse.from_source, "length", "m"),
                limit=told(limit, "length", "m"),
                margin=over(lane.fuse.from_source, limit),
                tags=_tag(lane),
                path=f"{path}.from_source",
            )


@check
def questions(p: Proposal) -> Iterator[Finding]:
    """The questions a fuse did not pass."""
    for lane in p.lanes:
        if lane.fuse is None:
            continue
        told_codes: set[str] = set()
        for name, value, limit, passed in lane.fuse.limits:
            if passed:
                continue
            for begins, entry, kind in OF_LIMIT:
                if name.startswith(begins) and entry.code not in told_codes:
                    told_codes.add(entry.code)
                    margin = (
                        None
                        if isinf(value) or isinf(limit)
                        else over(value, limit)
                        if entry is not FUSE_03
                        else (value - limit) / abs(limit or 1.0)
                    )
                    yield entry.found(
                        where_of(lane),
                        f"{lane.fuse.fuse.rating:g} A {lane.fuse.family.family}.",
                        value=told(value, kind),
                        limit=told(limit, kind),
                        margin=margin,
                        tags=_tag(lane),
                        path=part_path(p, lane, "fuse"),
                    )


@check
def locked(p: Proposal) -> Iterator[Finding]:
    """What opens first when the propeller is locked."""
    for lane in p.lanes:
        fault = next((f for f in lane.faults if f.name.startswith("propeller locked")), None)
        if fault is None or lane.cable is None:
            continue
        bears = withstand(lane.cable.cable, lane.cable.parallel, 323.15)(fault.current)
        if fault.after > bears:
            yield FUSE_09.found(
                where_of(lane),
                f"{told(fault.current, 'current')}; {fault.opens_first} opens first.",
                value=told(fault.after, "time"),
                limit=told(bears, "time"),
                margin=None if isinf(fault.after) else over(fault.after, bears),
                tags=_tag(lane),
                path=part_path(p, lane, "fuse"),
            )


@check
def small(p: Proposal) -> Iterator[Finding]:
    """Fuses of chargers, coils, strings and the control line: volts and breaking capacity where they sit."""
    rows = {fuse.id: fuse for fuse in p.catalogue.fuses}
    for part in p.netlist.components:
        if part.kind != "fuse" or part.name == "main fuse" or "fault" not in part.facts:
            continue
        volts, fault = float(part.facts["volts"]), float(part.facts["fault"])
        others = next((bank.parallel for bank in p.banks if part.name == "string fuse" and part.place == bank.place), 1)
        fault *= (others - 1) / others if others > 1 else 1.0
        row = rows.get(part.row or "")
        what = f"{part.name} {part.tag}, {' '.join(part.rating)}"
        if row is None:
            if part.aboard:
                continue
            asked = f"{told(volts, 'voltage')}, {told(fault, 'current')}"
            yield FUSE_10.found(f"{part.name} {part.tag}", f"{what}: none of the catalogue.", limit=asked, tags=(part.tag,))
            continue
        family = p.catalogue.fuse_families[row.family]
        breaks = breaking_capacity_at(family, volts)
        if volts > family.volts_most + 1e-9:
            yield FUSE_10.found(
                f"{part.name} {part.tag}", f"{what}, {family.family}: rated volts.", value=told(volts, "voltage"),
                limit=told(family.volts_most, "voltage"), margin=over(volts, family.volts_most), tags=(part.tag,),
            )  # fmt: skip
        elif fault > breaks:
            yield FUSE_10.found(
                f"{part.name} {part.tag}", f"{what}, {family.family}: short circuit behind it.", value=told(fault, "current"),
                limit=told(breaks, "current"), margin=over(fault, breaks), tags=(part.tag,),
            )  # fmt: skip
