"""The brief: what is asked and what is there.

One frozen model a section of the YAML file. Values are SI floats (the text as typed stays in the file). A field left out is
None, an empty tuple or a default that is written here and printed where it is used; nothing is guessed silently.

``aboard`` = exists: kept if it passes, replaced with a reason if not. ``fixed`` = kept whatever comes, only judged.
A part left out of both is chosen. Places are counted along the boat from ``boat.x_from`` and up from the waterline.

What one field says is checked here, what two sections say about each other (a place that nobody drew, a thruster fed twice)
in :mod:`athwart.design.consistency`; both kinds of mistake reach the reader together.
"""

from __future__ import annotations

from itertools import pairwise
from typing import Annotated, Literal

from pydantic import BaseModel, BeforeValidator, ConfigDict, Discriminator, Field, Tag, model_validator
from pydantic_core import PydanticCustomError

from athwart.design import fields as f

BoatKind = Literal[
    "motor yacht, displacement",
    "motor yacht, planing",
    "sailing yacht",
    "passenger boat",
    "workboat",
    "fishing boat",
    "trawler yacht",
    "pilot boat",
    "survey boat",
    "houseboat",
    "tender",
    "barge",
    "catamaran",
]
DriveKind = Literal["brushed", "brushless", "hydraulic"]
HousingKind = Literal["tunnel", "retractable", "external", "rim"]
ControlKind = Literal["on/off", "stepped", "proportional"]
ChemistryKind = Literal["flooded", "starting", "agm", "thin plate agm", "gel", "lfp"]
Access = Literal["open", "lift hatch", "tools", "structure removed"]
Role = Literal["bow", "stern"]
Point = tuple[f.Length, f.Length]
Years = Annotated[float, Field(ge=0, le=60)]
Headings = Annotated[
    Annotated[Literal["all round"], Tag("words")]
    | Annotated[tuple[f.Angle, ...], Field(min_length=1, max_length=72), Tag("list")],
    Discriminator(lambda value: "words" if isinstance(value, str) else "list"),
]
Version = Annotated[Literal[1], BeforeValidator(lambda value: 1 if value == "1" else value)]


def _wrong(at: str, message: str) -> PydanticCustomError:
    """A mistake between fields of one section; ``at`` is the key to point to."""
    return PydanticCustomError("between_fields", "{says}", {"says": message, "at": at})


class Section(BaseModel):
    """Base of all sections: frozen, no unknown keys."""

    model_config = ConfigDict(frozen=True, extra="forbid", str_strip_whitespace=True)


class Box(Section):
    """A rectangle seen from the side: from/to along the boat, bottom/top above the waterline."""

    start: f.Length = Field(alias="from")
    end: f.Length = Field(alias="to")
    bottom: f.Length
    top: f.Length

    @model_validator(mode="after")
    def _right_way_round(self) -> Box:
        if self.end <= self.start:
            raise _wrong("to", "a box ends further along the boat than it begins: to must be more than from")
        if self.top <= self.bottom:
            raise _wrong("top", "the top of a box must be above its bottom")
        return self


class WindageElement(Section):
    """One piece of windage: exactly one of box, outline or area with centroid."""

    name: f.Name
    kind: Literal["hull", "house", "mast", "rigging", "furled sail", "canvas", "dinghy", "people", "deck gear"] = "hull"
    box: Box | None = None
    outline: tuple[Point, ...] | None = Field(default=None, min_length=3, max_length=400)
    area: f.Area | None = None
    centroid_x: f.Length | None = None
    centroid_height: f.Length | None = None
    frontal_area: f.Area | None = None
    width: f.PositiveLength | None = None

    @model_validator(mode="after")
    def _one_shape(self) -> WindageElement:
        given = [name for name in ("box", "outline", "area") if getattr(self, name) is not None]
        if len(given) != 1:
            told = " and ".join(given) or "none of them"
            raise _wrong(given[-1] if given else "", f"exactly one of box, outline or area must be given; given: {told}")
        if self.area is not None and (self.centroid_x is None or self.centroid_height is None):
            raise _wrong("area", "an area also needs centroid_x and centroid_height")
        return self


class Lightest(Section):
    """The lightest state the boat is used in."""

    displacement: f.Mass
    waterline_lower: f.Distance


class Boat(Section):
    """The hull."""

    kind: BoatKind
    x_from: Literal["transom", "bow"] = "transom"
    length_overall: f.PositiveLength
    length_waterline: f.PositiveLength
    beam: f.PositiveLength
    draught: f.PositiveLength
    displacement: f.Mass
    lightest: Lightest | None = None
    windage: tuple[WindageElement, ...] = Field(min_length=1)
    windage_uncertainty: f.Ratio = 0.10
    underwater: tuple[Point, ...] = ()
    waterplane_coefficient: f.Ratio | None = None
    waterline_half_breadths: tuple[Point, ...] = Field(default=(), max_length=200)
    metacentric_height: f.PositiveLength | None = None
    hull_beam: f.PositiveLength | None = None
    hull_spacing: f.PositiveLength | None = None
    hull_material: Literal["grp", "steel", "aluminium", "wood"]
    shell_thickness: f.PositiveLength | None = None
    petrol_aboard: Literal["no", "engine", "portable tanks", "outboard only"] = "no"

    @model_validator(mode="after")
    def _sizes_agree(self) -> Boat:
        if self.length_waterline > self.length_overall:
            raise _wrong("length_waterline", "a waterline cannot be longer than the boat: compare length_overall")
        if self.lightest is not None and self.lightest.displacement > self.displacement:
            raise _wrong("lightest", "the lightest state cannot be heavier than boat.displacement")
        if any(depth > 1.001 * self.draught for _, depth in self.underwater):
            raise _wrong("underwater", "a point of the profile lies deeper than the draught, keel included")
        return self

    @model_validator(mode="after")
    def _hulls_agree(self) -> Boat:
        two = [name for name in ("hull_beam", "hull_spacing") if getattr(self, name) is not None]
        if self.kind != "catamaran":
            if two:
                raise _wrong(two[0], f"only a catamaran has it; kind is {self.kind}")
            return self
        if self.hull_beam is None or self.hull_spacing is None:
            raise _wrong("kind", "a catamaran also needs hull_beam (of one hull) and hull_spacing (between the hulls' middles)")
        if self.hull_beam + self.hull_spacing > 1.02 * self.beam:
            raise _wrong("hull_spacing", "hull_beam and hull_spacing together are more than the beam")
        if self.hull_spacing <= self.hull_beam:
            raise _wrong("hull_spacing", "two hulls stand further apart than one is wide: compare hull_beam")
        return self

    @model_validator(mode="after")
    def _offsets_in_order(self) -> Boat:
        places = [x for x, _ in self.waterline_half_breadths]
        if len(places) == 1 or any(b <= a for a, b in pairwise(places)):
            raise _wrong("waterline_half_breadths", "two points or more, each x larger than the one before")
        if any(not 0.0 <= y <= 0.51 * self.beam for _, y in self.waterline_half_breadths):
            raise _wrong("waterline_half_breadths", "half breadths run from the centre line out: 0 to half the beam")
        return self


class TakeOff(Section):
    """A power take-off point for a pump."""

    name: f.Name
    ratio: Annotated[float, Field(gt=0, le=10)] = 1.0
    torque_most_power: f.Power | None = None


class Engine(Section):
    """A propulsion engine."""

    name: f.Name
    fuel: Literal["diesel", "petrol", "electric"]
    power: f.Power | None = None
    idle: f.Rotation | None = None
    cruise: f.Rotation | None = None
    alternator: f.Name | None = None
    take_off: TakeOff | None = None


class Propulsion(Section):
    """Engines, propellers, rudder."""

    engines: tuple[Engine, ...] = ()
    place: Literal["aft", "midships", "forward"] = "aft"
    propeller_spacing: f.PositiveLength | None = None
    propeller_diameter: f.PositiveLength | None = None
    rudder_area: f.Area | None = None


class Wind(Section):
    """The wind to hold. A speed without the place it was read and without mean or gust is an error."""

    speed: f.WindSpeed
    read_at: Literal["forecast 10 m", "masthead", "on deck"]
    read_height: f.PositiveLength | None = None
    is_: Literal["mean", "gust"] = Field(alias="is")
    surroundings: Literal["at sea", "off-sea", "off-land", "in-land"] = "off-land"
    profile: Literal["power law", "logarithmic"] = "power law"
    roughness: Literal["open sea", "mud flats", "open grass", "low crops", "scattered obstacles", "parkland", "suburb"] | None = (
        None
    )
    shelter: Literal["open", "second row", "further rows"] = "open"
    gust_factor: Annotated[float, Field(ge=1.0, le=2.5)] | None = None
    headings: Headings = "all round"
    uncertainty: f.Ratio = 0.07

    @model_validator(mode="after")
    def _masthead_has_height(self) -> Wind:
        if self.read_at == "masthead" and self.read_height is None:
            raise _wrong("read_at", "a wind read at the masthead also needs read_height")
        if (self.profile == "logarithmic") != (self.roughness is not None):
            raise _wrong("profile", "a logarithmic profile needs roughness, the power law takes its exponent from surroundings")
        return self


class Water(Section):
    """The water."""

    kind: Literal["salt", "fresh"] = "salt"
    depth: f.Depth | None = None
    current: f.Speed | None = None
    temperature: f.Temperature | None = None


class Duty(Section):
    """How the thrusters are used."""

    users: Literal["owner", "crew", "hire fleet"] = "owner"
    burst: f.Time = 5.0
    pause: f.Time = 15.0
    bursts_per_docking: f.Count = 8
    dockings_per_day: Annotated[float, Field(ge=0, le=200)] = 2
    dockings_per_season: Annotated[float, Field(ge=0, le=50_000)] | None = None
    longest_hold: f.Time = 120.0
    coldest_bank: f.Temperature | None = None
    quiet: bool = False
    noise_most: f.Sound | None = None
    dries_out: bool = False
    speed_under_way: f.Speed | None = None


class ShipBattery(Section):
    """A battery of the ship's own supply."""

    name: f.Name
    use: Literal["house", "engine start", "house and engine start"]
    chemistry: ChemistryKind = "flooded"
    volts: f.Voltage
    capacity: f.Charge
    resistance: f.Resistance | None = None
    cranking: f.Cranking | None = None
    place: f.Name | None = None
    age_years: Years | None = None


class Alternator(Section):
    """An alternator as rated cold."""

    name: f.Name
    current: f.Current
    volts: f.Voltage
    charges: f.Name
    idle_share: f.Ratio = 0.38
    hot_share: f.Ratio = 0.78
    regulated_volts: f.Voltage | None = None


class ShoreCharger(Section):
    """A shore charger of the ship's battery."""

    current: f.Current
    volts: f.Voltage
    charges: f.Name
    temperature_sensing: bool = False


class PathDevice(Section):
    """An isolator, diode, combining relay or bus between a charging source and a battery."""

    name: f.Name
    kind: Literal["diode isolator", "electronic isolator", "combining relay", "shared bus bar", "changeover switch"]
    between: tuple[f.Name, f.Name]


class ConsumerLoad(Section):
    """Another load."""

    name: f.Name
    current: f.Current
    least_volts: f.Voltage | None = None
    at_the_same_time: bool = False
    cranks_engine: bool | None = None


class Supply(Section):
    """The ship's own electrical system."""

    volts: f.Voltage
    batteries: tuple[ShipBattery, ...] = ()
    alternators: tuple[Alternator, ...] = ()
    shore_charger: ShoreCharger | None = None
    path_devices: tuple[PathDevice, ...] = ()
    series_parallel_switch: bool = False
    house_load: f.Current = 0.0
    engine_hours_per_day: f.TimePerDay = 7200.0
    shore_hours_per_day: f.TimePerDay = 0.0
    common_negative: Literal["common", "isolated"] = "common"
    insulation_monitor: bool = False


class Space(Section):
    """Clear space at a place."""

    length: f.PositiveLength
    width: f.PositiveLength
    height: f.PositiveLength


class Place(Section):
    """A place in the boat."""

    name: f.Name
    x: f.Length
    height: f.Length = 0.0
    access: Access = "open"
    space: Space | None = None
    engine_space: bool = False
    petrol_space: bool = False
    ventilated: bool = False
    living_space: bool = False


class Route(Section):
    """A cable route between two places: one-way lengths, plus and minus apart."""

    between: tuple[f.Name, f.Name]
    plus: f.PositiveLength
    minus: f.PositiveLength | None = None
    engine_space: bool = False
    bundled: Annotated[int, Field(ge=1, le=60)] = 1
    sheathed: bool = False


class Layout(Section):
    """Places and routes."""

    places: tuple[Place, ...] = ()
    routes: tuple[Route, ...] = ()


class Helm(Section):
    """A steering position."""

    name: f.Name
    place: f.Name
    panel: f.Name | None = None
    stop_within_reach: bool = True
    seconds_to_main_switch: f.Time | None = None
    wireless: bool = False
    in_command: bool = True
    exposed: bool = False


class TunnelPlace(Section):
    """Where a unit sits: axis below the (load) waterline, keel below the axis."""

    x: f.Length
    axis_depth: f.PositiveLength
    hull_below_axis: f.PositiveLength | None = None
    tunnel_length: f.PositiveLength | None = None
    entry_radius: f.Distance | None = None
    entry_cone: bool = False
    grid: bool = False
    compartment_watertight: bool = False
    height_above_waterline_for_box: f.Length | None = None
    box_length_most: f.PositiveLength | None = None


class Wanted(Section):
    """What kind of unit is wanted, and its limits."""

    drives: tuple[DriveKind, ...] = ()
    housings: tuple[HousingKind, ...] = ()
    controls: tuple[ControlKind, ...] = ()
    volts: tuple[f.Voltage, ...] = ()
    diameter_most: f.PositiveLength | None = None
    mass_most: f.Mass | None = None
    price_most: Annotated[float, Field(gt=0)] | None = None


class Thruster(Section):
    """One thruster asked for (or there)."""

    identity: Annotated[str, Field(min_length=1, max_length=24, pattern=r"^[a-z][a-z0-9 -]*$")]
    role: Role
    place: f.Name
    tunnel: TunnelPlace
    wanted: Wanted = Wanted()
    instance: Annotated[int, Field(ge=0, le=252)] | None = None
    retract_interlocks: tuple[
        Literal["raise only when stopped", "speed limit", "engine astern", "locking pin", "manual raise"], ...
    ] = ()


class BankWish(Section):
    """A bank asked for: whom it feeds, where it stands."""

    name: f.Name
    feeds: tuple[f.Name, ...] = Field(min_length=1)
    place: f.Name
    volts: f.Voltage | None = None
    chemistries: tuple[ChemistryKind, ...] = ()
    shared_with: tuple[ConsumerLoad, ...] = ()
    mid_tap_load: f.Current | None = None
    equaliser: f.Current | None = None


class NetworkNode(Section):
    """A node on the control line beside the helms' panels and the units."""

    name: f.Name
    place: f.Name
    current: f.Current
    drop: f.Distance = 0.5
    terminator_inside: bool = False
    galvanic_negative: bool = False
    instance: Annotated[int, Field(ge=0, le=252)] | None = None


class Stretch(Section):
    """One piece of the trunk: the next stop (helm, unit or node name) and the length to it."""

    stop: f.Name
    length: f.Distance
    drop: f.Distance = 0.5


class NetworkAboard(Section):
    """The control line as it is."""

    terminators_at: tuple[f.Name, ...] = ()
    feed_at: tuple[f.Name, ...] = ()
    fed_from: Literal["ship bank", "thruster bank", "lower block", "upper block", "engine start", "converter"] | None = None
    feed_fuse: f.Current | None = None
    supply_conductor: f.Conductor | None = None
    screen_grounded_at: tuple[f.Name, ...] = ()


class Network(Section):
    """The control line."""

    profile: Literal["IEC 61162-3", "J1939-11", "J1939-15", "ISO 11783-2", "plain CAN"] = "IEC 61162-3"
    bit_rate: f.BitRate = 250_000.0
    trunk: tuple[Stretch, ...] = ()
    nodes: tuple[NetworkNode, ...] = ()
    feed: Literal["choose", "ship bank", "converter", "lower block"] = "choose"
    feed_length: f.Distance | None = None
    standby_hours_per_day: f.TimePerDay = 86_400.0


class UnitAboard(Section):
    """A unit named by catalogue row or described."""

    row: f.Name | None = None
    age_years: Years | None = None


class BlockAboard(Section):
    """Blocks of a bank: catalogue row or a description."""

    row: f.Name | None = None
    chemistry: ChemistryKind | None = None
    volts: f.Voltage | None = None
    capacity: f.Charge | None = None
    resistance: f.Resistance | None = None
    cranking: f.Cranking | None = None
    series: Annotated[int, Field(ge=1, le=16)] = 1
    parallel: Annotated[int, Field(ge=1, le=8)] = 1
    string_fuses: bool = False
    age_years: Years | None = None
    mixed_age: bool = False
    temperature_sensor: bool | None = None
    held: bool = True
    terminals_covered: bool = True


class CableAboard(Section):
    """A cable: catalogue row, or size with class and insulation."""

    row: f.Name | None = None
    size: f.Conductor | None = None
    in_parallel: Annotated[int, Field(ge=1, le=4)] = 1
    insulation: f.Temperature | None = None
    length_is: Literal["one way", "there and back"] | None = None
    length: f.PositiveLength | None = None
    joints: Annotated[int, Field(ge=0, le=20)] | None = None
    joint_resistance: f.Resistance | None = None


class FuseAboard(Section):
    """A fuse: catalogue row, or family and rating."""

    row: f.Name | None = None
    family: f.Name | None = None
    rating: f.Current | None = None
    from_source: f.Distance | None = None
    present: bool = True


class SwitchAboard(Section):
    """A main switch."""

    row: f.Name | None = None
    present: bool = True
    place: f.Name | None = None


class StopAboard(Section):
    """A stop device that breaks the power circuit."""

    row: f.Name | None = None
    present: bool = True
    breaks: Literal["power circuit", "control circuit"] = "power circuit"
    is_the_reversing_contactor: bool = False
    fed_from: Literal["own bank", "ship bank"] = "own bank"


class ChargerAboard(Section):
    """A charging arrangement."""

    row: f.Name | None = None
    kind: Literal["step-up", "battery to battery", "shore", "series/parallel switch", "converter", "none"] | None = None
    current: f.Current | None = None
    input_cable: f.Conductor | None = None
    fed_from: f.Name | None = None
    fuse_at_source: f.Current | None = None
    fuse_at_bank: f.Current | None = None
    senses_source: bool | None = None


class LaneParts(Section):
    """Parts of one lane (one thruster) or, for bank and charger, of its bank."""

    unit: UnitAboard | None = None
    bank: BlockAboard | None = None
    cable: CableAboard | None = None
    fuse: FuseAboard | None = None
    switch: SwitchAboard | None = None
    stop: StopAboard | None = None
    charger: ChargerAboard | None = None
    negative_link: f.Conductor | None = None
    negative_link_fused: bool = False


class Parts(Section):
    """Parts by thruster identity, and the control line."""

    lanes: dict[f.Name, LaneParts] = {}
    network: NetworkAboard | None = None


class Margins(Section):
    """Margins of choice."""

    thrust: f.Margin = 0.0
    run_time: f.Margin = 0.0


class Override(Section):
    """A stop finding accepted with a reason."""

    finding: Annotated[str, Field(pattern=r"^[A-Z]+-\d\d$")]
    reason: Annotated[f.Text, Field(min_length=10, max_length=400)]


class Choices(Section):
    """Choices of the user."""

    rule_set: Literal["iso small craft", "us"] = "iso small craft"
    circuit_class: Literal["10 % circuit", "3 % circuit"] = "10 % circuit"
    hold_probability: f.Ratio | None = None
    margins: Margins = Margins()
    prefer: Literal["smallest adequate", "lightest", "cheapest", "quietest"] = "smallest adequate"
    currency: Annotated[f.Text, Field(max_length=8)] = ""
    cable_waste: f.Ratio = 0.10
    cable_most_in_parallel: Annotated[int, Field(ge=1, le=4)] = 2
    strings_most: Annotated[int, Field(ge=1, le=6)] = 3
    stop_kind: Literal["energise to run", "latching"] = "energise to run"
    overrides: tuple[Override, ...] = ()


class Brief(Section):
    """A whole brief."""

    athwart: Version
    name: f.Name
    story: f.Text = ""
    issue: Annotated[str, Field(pattern=r"^[A-Z0-9.]{1,8}$")] = "A"
    date: Annotated[str, Field(pattern=r"^\d{4}-\d{2}-\d{2}$")] = "2026-01-01"
    number: Annotated[str, Field(pattern=r"^[A-Z]+-\d{3}$")] = "A-001"
    boat: Boat
    propulsion: Propulsion = Propulsion()
    wind: Wind
    water: Water = Water()
    duty: Duty = Duty()
    supply: Supply
    layout: Layout = Layout()
    helms: tuple[Helm, ...] = ()
    thrusters: tuple[Thruster, ...] = Field(min_length=1, max_length=8)
    bank: tuple[BankWish, ...] = ()
    network: Network = Network()
    aboard: Parts = Parts()
    fixed: Parts = Parts()
    choices: Choices = Choices()
    planted: tuple[f.Text, ...] = ()
    notes: f.Text = ""

    def thruster(self, identity: str) -> Thruster:
        """The thruster with this identity."""
        return next(thruster for thruster in self.thrusters if thruster.identity == identity)

    def place(self, name: str) -> Place | None:
        """The place with this name, or None."""
        return next((place for place in self.layout.places if place.name == name), None)
