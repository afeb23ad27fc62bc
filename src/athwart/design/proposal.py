"""What a brief leads to: need, lanes, banks, charging, network, answers. Frozen data; SI floats; made by ``design.search``."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

from athwart.catalogue.records import (
    BatteryBlock,
    Cable,
    Catalogue,
    Charger,
    Contactor,
    Fuse,
    FuseFamily,
    Panel,
    Switch,
    ThrusterUnit,
)
from athwart.design.brief import Brief, Thruster
from athwart.design.netlist import Netlist
from athwart.findings import Finding
from athwart.vessel.windage import Rise

if TYPE_CHECKING:
    from athwart.design.robustness.rehearsal import Rehearsal

Keep = Literal["aboard", "fixed", "chosen"]
TOO_WEAK = "thrust at the volts of its own chain"
"""The rule that refuses a unit for its thrust."""
SURFACE_SHARE = 0.02
"""Share of nominal volts by which surface charge and charger lift a bank's volts during a run (own judgement)."""


@dataclass(frozen=True, slots=True)
class Case:
    """One static case for one thruster: B (bow held, stern made fast) or C (station with bow and stern units)."""

    case: Literal["B", "C"]
    identity: str
    beam: float  # N, wind on the beam
    worst: float  # N, at the worst heading asked
    worst_heading: float  # rad off the bow
    headings: tuple[tuple[float, float], ...]  # (rad, N)
    side_force_beam: float  # N
    lever: float  # m, from pivot (B) or other unit (C) to this unit
    sigma: float  # relative, one standard deviation
    moved: bool = True  # False where this unit has no say in the case
    with_current: float | None = None  # N, wind asked and current of the brief, both abeam; None where no current is asked

    @property
    def asked(self) -> float:
        """What the unit has to give: at the worst heading, and with the current where one is named."""
        return max(self.worst, self.with_current or 0.0)


@dataclass(frozen=True, slots=True)
class Need:
    """The brief in numbers."""

    wind_speed: float  # m/s, as asked, where read
    design_speed: float  # m/s at the silhouette's mean height, gust included
    pressure: float  # Pa, effective
    lateral_area: float
    frontal_area: float
    centroid_x: float  # m from midships, forward positive
    centroid_height: float
    model: str  # "Blendermann, speed boat row" or "sum of elements"
    cases: tuple[Case, ...]
    run_time: float  # s, longest burst or hold asked at full thrust
    energy_share: float  # s of full thrust a docking
    assumptions: tuple[str, ...]
    rise: Rise | None = None
    """How she stands out of the water beyond the silhouette as given, when this was reckoned."""
    heel: float | None = 0.0
    """In the wind asked, abeam (rad); None where she heels further than the formula goes."""

    def ruling(self, identity: str) -> Case:
        """The case that decides for a unit: station where there is a stern unit, else stern made fast; the larger need rules."""
        return max((case for case in self.cases if case.identity == identity), key=lambda case: case.worst)


@dataclass(frozen=True, slots=True)
class Drop:
    """Volts lost in one piece of the path, in order from the source."""

    tag: str
    name: str
    resistance: float
    volts: float


@dataclass(frozen=True, slots=True)
class LaneState:
    """A lane in one state, solved."""

    state: Literal["design", "peak"]
    open_volts: float  # V, bank at rest (or charging source in the peak state)
    bank_resistance: float  # ohm
    path_resistance: float  # ohm, everything between bank and unit, both ways
    current: float
    bank_volts: float
    terminal_volts: float
    thrust: float
    conductor_temperature: float
    drops: tuple[Drop, ...]
    thrust_sigma: float = 0.0  # relative


@dataclass(frozen=True, slots=True)
class Bank:
    """A bank: ``series`` blocks a string, ``parallel`` strings, a fuse at the positive of each string where there are several."""

    name: str
    place: str
    block: BatteryBlock
    series: int
    parallel: int
    kept: Keep
    feeds: tuple[str, ...]
    link: Cable
    link_length: float
    age_years: float | None = None
    string_fuse: tuple[Fuse, FuseFamily] | None = None
    #: R0+R1 of the whole bank in ohm, at 25 °C full new, and in the design state
    resistance_new: float = 0.0
    resistance_design: float = 0.0
    open_volts_new: float = 0.0
    open_volts_design: float = 0.0
    charging_volts: float = 0.0
    capacity_design: float = 0.0  # C, usable in the design state
    fault_current_most: float = 0.0  # A, bolted at the bank's terminals, full, warm, charger on
    assumed_resistance: bool = False
    mixed_age: bool = False

    @property
    def running_volts(self) -> float:
        """Electromotive force of a run in the peak state: full rest volts and what surface charge and charger add to them.

        A charger of some amperes cannot hold its charging volts under hundreds; they count for the first instant (start,
        fault, rating of fuse and switch), not for a run.
        """
        return min(self.charging_volts, self.open_volts_new + SURFACE_SHARE * self.volts)

    @property
    def volts(self) -> float:
        """Nominal volts."""
        return self.block.volts * self.series

    @property
    def capacity(self) -> float:
        """Rated charge in coulombs."""
        return self.block.capacity * self.parallel

    @property
    def blocks(self) -> int:
        """Number of blocks."""
        return self.series * self.parallel

    @property
    def mass(self) -> float:
        """Mass of all blocks."""
        return self.block.mass * self.blocks


@dataclass(frozen=True, slots=True)
class CableChoice:
    """The cable of a lane and the four limits that made it: each as (name, figure, limit, passes)."""

    cable: Cable
    parallel: int
    plus: float  # m, one way, plus route
    minus: float  # m, one way, minus route
    kept: Keep
    limits: tuple[tuple[str, float, float, bool], ...]
    ampacity: float
    ampacity_verified: bool
    route: str
    engine_space: bool
    bundled: int
    joints: int
    joint_resistance: float

    @property
    def area(self) -> float:
        """Total cross-section a pole."""
        return self.cable.area * self.parallel


@dataclass(frozen=True, slots=True)
class FuseChoice:
    """The main fuse of a lane."""

    fuse: Fuse
    family: FuseFamily
    kept: Keep
    from_source: float  # m along the conductor
    limits: tuple[tuple[str, float, float, bool], ...]
    opens_at_least_fault: float  # s
    opens_when_locked: float  # s


@dataclass(frozen=True, slots=True)
class Fault:
    """A short circuit or a stalled motor."""

    name: str
    current: float
    loop_resistance: float
    opens_first: str  # tag or words
    after: float  # s


@dataclass(frozen=True, slots=True)
class ChargingChoice:
    """How a bank is charged."""

    bank: str
    kind: Literal["step-up", "battery to battery", "shore", "series/parallel switch", "alternator", "none"]
    charger: Charger | None
    kept: Keep
    from_battery: str | None
    input_current: float
    output_current: float
    cable: Cable | None
    input_plus: float
    input_minus: float
    input_drop: float
    fuse_source: Fuse | None
    fuse_bank: Fuse | None
    refill_time: float  # s after one docking
    refill_full_time: float  # s from the design state's floor
    energy_out_per_day: float  # C of the bank
    energy_in_per_day: float
    alternator_idle_margin: float | None  # A left at idle
    chatter_margin: float | None  # V between hysteresis and the drop
    limits: tuple[tuple[str, float, float, bool], ...] = ()
    path_drop: float = 0.0


@dataclass(frozen=True, slots=True)
class NetworkStop:
    """A stop of the trunk."""

    tag: str
    name: str
    at: float  # m from the first terminator
    drop: float
    current: float
    volts_rest: float
    volts_sag: float
    instance: int | None
    is_new: bool = False


@dataclass(frozen=True, slots=True)
class NetworkChoice:
    """The control line as proposed."""

    profile: str
    bit_rate: float
    cable_row: str
    feed: Literal["ship bank", "converter", "lower block", "engine start", "upper block"]
    feed_at: str
    feed_fuse: float
    stops: tuple[NetworkStop, ...]
    trunk_length: float
    drops_total: float
    terminators: tuple[str, ...]
    resistance_power_off: float
    changes: tuple[str, ...]
    load: float
    converter_row: str | None = None
    mid_tap_share: float | None = None
    common_mode_shift: float = 0.0


@dataclass(frozen=True, slots=True)
class Rejection:
    """A unit not taken: the first rule that refused it and by how much."""

    row: str
    name: str
    rule: str
    figure: str
    limit: str
    identity: str
    margin: float | None = None


@dataclass(frozen=True, slots=True)
class Lane:
    """One thruster with its complete chain. ``unit`` None: nothing in the catalogue passes."""

    lane: int
    thruster: Thruster
    unit: ThrusterUnit
    kept: Keep
    bank: str | None
    cable: CableChoice | None
    fuse: FuseChoice | None
    switch: Switch | None
    stop: Contactor | None
    panel: Panel | None
    design: LaneState | None
    peak: LaneState | None
    both_design: LaneState | None  # with every unit of the same bank running
    wind_held_worst: float | None  # m/s as asked, at the worst heading
    wind_held_beam: float | None
    chance: float | None
    run_time_full: float | None
    run_time_half: float | None
    run_time_limit: str
    faults: tuple[Fault, ...]
    start_current: float | None
    cover: float  # m of water over the tunnel roof at the lightest trimmed waterline
    cover_ratio: float
    immersion_factor: float
    score: float
    passes: bool
    replaced: tuple[str, ...] = ()  # reasons why a part aboard was not kept
    negative_link_area: float | None = None
    not_computed: str = ""  # hydraulic units: what reads "not computed yet"
    stop_kind: str = ""
    hydraulic: tuple[tuple[str, float, float, bool], ...] = ()
    tunnel_share: float = 1.0  # of the catalogue's thrust left by ends, length and grids


@dataclass(frozen=True, slots=True)
class Trim:
    """Weight and trim of the chosen parts."""

    mass: float
    moment: float  # kg m about the centre of flotation
    sinkage: float
    trim: float  # m over the waterline length, bow down positive
    bow_change: float
    stern_change: float
    lost_buoyancy: float


CaseName = Literal["A", "B", "C", "D"]


@dataclass(frozen=True, slots=True)
class Held:
    """One of the four cases: what it demands in the wind asked, and what wind the thrust there is holds. Winds as asked."""

    case: CaseName
    name: str
    words: str
    identity: str
    need_beam: float
    need_worst: float
    worst_heading: float
    thrust: float
    wind_worst: float
    wind_beam: float
    band: float
    """Relative standard deviation of the wind held at the worst heading: inputs, models and thrust."""
    need_current: float | None
    """With the wind asked and the brief's current, both abeam; None where there is no current or she drifts with it."""
    at_least: tuple[bool, bool] = (False, False)
    """Whether the winds, worst and beam, are only as far as was looked: three times the wind asked."""

    def worst_words(self, shown: str) -> str:
        """The wind from the worst heading as shown, with the sign of "at least" where it is no more than that."""
        return f"over {shown}" if self.at_least[0] else shown

    def beam_words(self, shown: str) -> str:
        """The same on the beam."""
        return f"over {shown}" if self.at_least[1] else shown


@dataclass(frozen=True, slots=True)
class Answer:
    """One of the six answers. ``found`` and ``asked`` share ``unit``; ``better`` says which side is good."""

    number: int
    question: str
    sentence: str
    figure: str
    found: float | None
    asked: float | None
    band: float | None
    unit: str
    better: Literal["more", "less"]
    remark: str = ""
    verdict: Literal["yes", "no", "to be verified", "not computed yet", "stated"] = "stated"


@dataclass(frozen=True, slots=True)
class Proposal:
    """A complete system that answers the brief, with its reasons."""

    brief: Brief
    catalogue: Catalogue
    need: Need
    lanes: tuple[Lane, ...]
    banks: tuple[Bank, ...]
    charging: tuple[ChargingChoice, ...]
    network: NetworkChoice | None
    netlist: Netlist
    trim: Trim
    rejections: tuple[Rejection, ...]
    findings: tuple[Finding, ...]
    answers: tuple[Answer, ...]
    unverified: tuple[str, ...]  # what the verdict rests on without proof: printed, counted on page one
    defaults: tuple[tuple[str, str], ...]  # (path, value as printed) of every default used
    mass: float
    price: float
    mode: Literal["propose", "check"] = "propose"
    cases: tuple[Held, ...] = ()
    no_cases: str = ""
    """Why there are none."""
    rehearsals: tuple[Rehearsal, ...] = ()
    not_rehearsed: tuple[tuple[str, str], ...] = ()
    """Manoeuvres left out and why."""

    def bank(self, name: str | None) -> Bank | None:
        """The bank with this name."""
        return next((bank for bank in self.banks if bank.name == name), None)

    def lane(self, identity: str) -> Lane:
        """The lane of a thruster."""
        return next(lane for lane in self.lanes if lane.thruster.identity == identity)
