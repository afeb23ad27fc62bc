"""Rule sets as data: what each limits, in our own words, with its source. A verdict takes all its limits from one set.

The sentences say what a rule comes to; they are not its text. The text of the law or the standard decides.
"""

from __future__ import annotations

from dataclasses import dataclass

from athwart.sources import source

INCH = 0.0254


@dataclass(frozen=True, slots=True)
class Limit:
    """One limit of a rule set: number in SI, what it says, where it was seen."""

    value: float
    unit: str
    says: str
    source: str

    @property
    def verified(self) -> bool:
        """Whether somebody saw the figure in its source."""
        return source(self.source).verified


@dataclass(frozen=True, slots=True)
class RuleSet:
    """A set of rules that belong together."""

    id: str
    title: str
    edition: str
    sources: tuple[str, ...]
    note: str
    drop_critical: Limit
    drop_other: Limit
    drop_constant: Limit
    fuse_distance_plain: Limit
    fuse_distance_sheathed: Limit
    fuse_distance_battery: Limit
    fuse_ceiling: Limit  # share of the conductor's ampacity, below 50 V
    charger_fuse_distance: Limit
    greatest_volts: Limit
    greatest_hull_length: Limit | None
    least_area: Limit
    support_spacing: Limit
    battery_support_spacing: Limit
    engine_space_temperature: Limit

    def limits(self) -> dict[str, Limit]:
        """All limits by name."""
        found = {name: getattr(self, name) for name in self.__slots__}
        return {name: limit for name, limit in found.items() if isinstance(limit, Limit)}

    def fuse_distance(self, *, at_battery: bool, sheathed: bool) -> Limit:
        """Greatest distance along the conductor from the source to its fuse."""
        if not sheathed:
            return self.fuse_distance_plain
        return self.fuse_distance_battery if at_battery else self.fuse_distance_sheathed


ISO_SMALL_CRAFT = RuleSet(
    id="iso small craft",
    title="ISO small craft, extra-low-voltage d.c. installations (ISO 13297, before it ISO 10133)",
    edition="ISO 13297:2020 + A1:2022; ISO 10133:2012, withdrawn 2020-12",
    sources=("iso-13297", "iso-10133", "iso-table-a1", "iso-table-a1-60-70"),
    note="To 24 m of hull and 50 V d.c. Rows marked as from memory must be held against a bought copy.",
    drop_critical=Limit(
        0.03, "1", "circuits vital to safety, or where the equipment's maker asks for it, lose at most 3 %", "iso-10133"
    ),
    drop_other=Limit(0.10, "1", "other circuits lose at most 10 % of nominal volts at full load", "iso-10133"),
    drop_constant=Limit(1.64e-8, "Ω·m", "drop reckoned with 0.0164 Ω·mm²/m on the conductor there and back", "iso-10133-drop"),
    fuse_distance_plain=Limit(0.200, "m", "a fuse within 200 mm of the source along the conductor", "iso-13297-fuse"),
    fuse_distance_sheathed=Limit(
        1.8, "m", "up to 1.8 m where the conductor lies in sheath or conduit all the way", "iso-13297-fuse"
    ),
    fuse_distance_battery=Limit(
        1.8, "m", "up to 1.8 m from the battery where the conductor lies in sheath or conduit", "iso-13297-fuse"
    ),
    fuse_ceiling=Limit(1.0, "1", "the fuse is rated at most for what the conductor may carry", "iso-13297-fuse"),
    charger_fuse_distance=Limit(
        1.8, "m", "a charging source is protected inside or within 1.8 m by its largest output", "iso-13297"
    ),
    greatest_volts=Limit(50.0, "V", "the standard ends at 50 V d.c.", "iso-13297-scope"),
    greatest_hull_length=Limit(24.0, "m", "the standard ends at 24 m of hull; class rules follow", "iso-13297-scope"),
    least_area=Limit(1.0e-6, "m²", "a single conductor has at least 1 mm²", "iso-10133"),
    support_spacing=Limit(0.450, "m", "conductors are held at least every 450 mm", "iso-10133"),
    battery_support_spacing=Limit(
        0.300, "m", "battery conductors are held every 300 mm, the first within 1 m of the terminal", "iso-10133"
    ),
    engine_space_temperature=Limit(333.15, "K", "engine spaces count as 60 °C", "iso-table-a1-factors"),
)

US = RuleSet(
    id="us",
    title="US federal law for boats (33 CFR 183 subpart I), with the voluntary standard ABYC E-11 where it is silent",
    edition="33 CFR 183.401-460 as read; ABYC E-11 from excerpts",
    sources=("33-cfr-183-425", "33-cfr-183-455", "33-cfr-183-460", "abyc-e-11", "us-drop-rule"),
    note="The law covers petrol engined boats with inboards; the rest is voluntary practice. Rows from memory are marked.",
    drop_critical=Limit(
        0.03, "1", "feeders of panels, bilge pumps and blowers, navigation lights and electronics lose at most 3 %", "abyc-e-11"
    ),
    drop_other=Limit(
        0.10, "1", "lighting and other circuits that are not critical, a windlass among them, lose at most 10 %", "abyc-e-11"
    ),
    drop_constant=Limit(
        10.75 * 5.067075e-10 / 0.3048, "Ω·m", "drop reckoned with 10.75 Ω·cmil/ft there and back", "us-drop-rule"
    ),
    fuse_distance_plain=Limit(
        7 * INCH, "m", "at the source; if that is impractical within 7 in along the conductor", "33-cfr-183-455"
    ),
    fuse_distance_sheathed=Limit(40 * INCH, "m", "within 40 in where the conductor is enclosed all the way", "33-cfr-183-455"),
    fuse_distance_battery=Limit(
        72 * INCH, "m", "within 72 in of the battery terminal where the conductor is enclosed", "abyc-e-11"
    ),
    fuse_ceiling=Limit(1.5, "1", "below 50 V the fuse is rated at most 150 % of what the conductor may carry", "33-cfr-183-455"),
    charger_fuse_distance=Limit(7 * INCH, "m", "a charger's output counts as a source like any other", "abyc-e-11-memory"),
    greatest_volts=Limit(
        50.0, "V", "from 50 V on the fuse may not exceed the conductor's current and bundling counts by law", "33-cfr-183-455"
    ),
    greatest_hull_length=None,
    least_area=Limit(0.82e-6, "m²", "the table of allowed currents starts at 18 AWG", "33-cfr-183-425"),
    support_spacing=Limit(18 * INCH, "m", "conductors are held at least every 18 in", "abyc-e-11-memory"),
    battery_support_spacing=Limit(18 * INCH, "m", "battery conductors likewise", "abyc-e-11-memory"),
    engine_space_temperature=Limit(323.15, "K", "engine spaces count as 50 °C", "33-cfr-183-425-105"),
)

RULE_SETS: dict[str, RuleSet] = {rules.id: rules for rules in (ISO_SMALL_CRAFT, US)}

#: Limits of other laws that a paper may name beside the chosen set; never part of its verdict.
OTHER_LIMITS: dict[str, Limit] = {
    "french drop": Limit(0.05, "1", "at most 5 % between the source and any consumer", "french-division-240"),
    "french supply low": Limit(-0.10, "1", "equipment works down to 10 % below nominal battery volts", "french-division-240"),
    "french supply high": Limit(0.20, "1", "equipment works up to 20 % above nominal battery volts", "french-division-240"),
    "personal watercraft plain": Limit(0.180, "m", "a fuse within 180 mm of its source", "iso-13590"),
    "personal watercraft sheathed": Limit(0.500, "m", "within 500 mm where sheathed", "iso-13590"),
    "personal watercraft battery": Limit(0.900, "m", "battery supply within 900 mm", "iso-13590"),
    "personal watercraft ceiling": Limit(
        1.5, "1", "a fuse of at most 150 % of the conductor's current, engine space counted", "iso-13590"
    ),
    "small passenger vessel power conductor": Limit(
        14.0, "AWG", "power and lighting conductors are 14 AWG or thicker", "46-cfr-183-340"
    ),
    "small passenger vessel control conductor": Limit(22.0, "AWG", "control conductors are 22 AWG or thicker", "46-cfr-183-340"),
    "small passenger vessel supports": Limit(0.610, "m", "metal supports at most 610 mm apart", "46-cfr-183-340"),
    "ignition test gas low": Limit(0.0425, "1", "protected equipment must not light 4.25 % of propane in air", "33-cfr-183-410"),
    "ignition test gas high": Limit(0.0525, "1", "nor 5.25 %", "33-cfr-183-410"),
    "iso small craft draft": Limit(
        60.0, "V", "a draft revision goes to 60 V d.c. as the highest volts, not nominal ones", "iso-13297-draft"
    ),
    "extra-low voltage a.c.": Limit(50.0, "V", "extra-low voltage ends at 50 V a.c.", "iev-extra-low-voltage"),
    "extra-low voltage d.c.": Limit(120.0, "V", "extra-low voltage ends at 120 V of ripple-free d.c.", "iev-extra-low-voltage"),
    "bank to motor": Limit(
        0.10, "1", "practice accepts a tenth of the nominal volts lost between bank and motor", "sailing-magazine-drop"
    ),
}


def rule_set(name: str) -> RuleSet:
    """The rule set of this id."""
    if name not in RULE_SETS:
        raise ValueError(f"no rule set {name!r}; there are {' and '.join(RULE_SETS)}")
    return RULE_SETS[name]


def fuse_ceiling(rules: RuleSet, ampacity: float, volts: float) -> float:
    """Largest fuse rating allowed for a conductor, in amperes: the set's share below 50 V, the ampacity itself from 50 V on."""
    return ampacity * (rules.fuse_ceiling.value if volts < 50.0 else min(1.0, rules.fuse_ceiling.value))
