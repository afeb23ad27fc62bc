"""Looking after it: access, stowage, leaks to the case, seals, what to do after work on it."""

from __future__ import annotations

from collections.abc import Iterator

from athwart.design.checks.looks import bank_path, part_path, parts_of, tags, thruster_path, where_of
from athwart.design.checks.registry import check
from athwart.design.proposal import Proposal
from athwart.findings import Finding, code

CARE_01 = code(
    "CARE-01",
    "The unit can only be reached by taking something out",
    "caution",
    says="The place of the unit has no access but by removing structure.",
    why="Brushes, contacts and oil are looked at yearly, or not at all where a tank stands in front.",
    remedy="A hatch, or another place.",
    source="common-practice",
)
CARE_02 = code(
    "CARE-02",
    "Whether the motor's case is isolated is not known",
    "note",
    says="The unit's row does not say whether its case is isolated from the poles.",
    why="A plus that touches a case sends a small current through the drive leg and eats it within days; no fuse opens.",
    remedy="Measure case to plus and case to minus with the bank off: above 1 MΩ is wanted. The reading stands in the commissioning sheet.",
    source="own-judgement",
)
CARE_03 = code(
    "CARE-03",
    "A retractable unit needs its seals looked at",
    "note",
    says="A retractable unit has seals that let a little salt water in over the years.",
    why="It rusts the base until the leg seizes, up or down.",
    remedy="Service every two years, exercise it monthly, pin it at sea.",
    source="common-practice",
)
CARE_04 = code(
    "CARE-04",
    "Where the unit stands is open to stowage",
    "note",
    says="The unit stands in an open place where things get stowed.",
    why="What leans on a terminal bends its lug; ropes lie on hot motors.",
    remedy="Guard, terminal boots and a sign: not a stowage space.",
    source="common-practice",
)
CARE_05 = code(
    "CARE-05",
    "Parts aboard are replaced: measure again",
    "note",
    says="The proposal replaces parts that are aboard.",
    why="After work on batteries and cables one swapped link or one faulty new block is enough.",
    remedy="Label every conductor by the schedule, then go through the whole commissioning sheet again.",
    source="common-practice",
)
CARE_06 = code(
    "CARE-06",
    "The boat dries out",
    "note",
    says="The boat takes the ground.",
    why="Mud and stones get into a tunnel and under a retracting door; a leg that is down breaks.",
    remedy="Look into the tunnel before the next use; retract before drying out.",
    source="common-practice",
)


@check
def access(p: Proposal) -> Iterator[Finding]:
    """Can anybody reach the unit; what lies round it."""
    for lane in p.lanes:
        spot = p.brief.place(lane.thruster.place)
        if spot is None:
            continue
        at = f"layout.places[{p.brief.layout.places.index(spot)}]"
        if spot.access == "structure removed":
            yield CARE_01.found(
                where_of(lane), f"{spot.name}.", value=spot.access, limit="tools", tags=tags(p, lane, "unit"), path=f"{at}.access"
            )
        if spot.access == "open" and spot.living_space:
            yield CARE_04.found(where_of(lane), f"{spot.name}.", tags=tags(p, lane, "unit"), path=f"{at}.access")


@check
def upkeep(p: Proposal) -> Iterator[Finding]:
    """Case, seals, what is replaced, drying out."""
    for lane in p.lanes:
        if lane.unit.isolated_case is not True and lane.unit.drive != "hydraulic":
            yield CARE_02.found(where_of(lane), f"{lane.unit.name}.", tags=tags(p, lane, "unit"), path=part_path(p, lane, "unit"))
        if lane.unit.housing == "retractable":
            yield CARE_03.found(where_of(lane), f"{lane.unit.name}.", tags=tags(p, lane, "unit"), path=thruster_path(p, lane))
        replaced = list(lane.replaced)
        bank = p.bank(lane.bank)
        if (
            bank is not None
            and bank.kept == "chosen"
            and parts_of(p, lane).bank is not None
            and not any(r.startswith("bank") for r in replaced)
        ):
            replaced.append("bank")
        if replaced:
            yield CARE_05.found(
                where_of(lane), f"{len(replaced)} replaced.", value=f"{len(replaced)} parts", path=bank_path(p, lane.bank or "")
            )
    if p.brief.duty.dries_out:
        yield CARE_06.found("boat", "She takes the ground.", path="duty.dries_out")
