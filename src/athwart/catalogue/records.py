"""Equipment records: one frozen dataclass a table, SI inside.

A field's metadata names the column of the table it comes from (with its unit, as people write it), the kind of quantity and
whether it must be there. Unknown stays unknown: an optional field that is empty is None and never a guess; a rule that needs
it says so. Kinds of equipment are data: no code asks for a row by its name.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import Field, dataclass, field, fields
from typing import Any, Literal, TypeVar, cast

Drive = Literal["brushed", "brushless", "hydraulic"]
Housing = Literal["tunnel", "retractable", "external", "rim"]
Control = Literal["on/off", "stepped", "proportional"]
Chemistry = Literal["flooded", "starting", "agm", "thin plate agm", "gel", "lfp"]
ChargerKind = Literal["step-up", "battery to battery", "shore", "series/parallel switch"]
StopKind = Literal["energise to run", "latching"]
FuseForm = Literal["bolt-down", "strip", "cube", "cartridge", "blade"]


def col(header: str, kind: str = "", *, unit: str = "", needed: bool = True) -> Any:
    """A dataclass field read from the column ``header``; ``kind`` is a quantity kind, "" for words, "flag" for yes/no.

    ``unit`` is the unit the bare numbers of that column stand in.
    """
    metadata: Mapping[str, object] = {"header": header, "kind": kind, "unit": unit, "needed": needed}
    if needed:
        return field(metadata=metadata)
    return field(default=None, metadata=metadata)


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """What every row has."""

    id: str = col("id")
    maker: str = col("maker")
    name: str = col("name")
    mass: float = col("mass_kg", "mass", unit="kg")
    price: float = col("price", "number")
    invented: bool = col("invented", "flag")
    note: str | None = col("note", needed=False)


@dataclass(frozen=True, slots=True, kw_only=True)
class ThrusterUnit(Row):
    """A thruster with its motor and its reversing gear."""

    drive: Drive = col("drive")
    housing: Housing = col("housing")
    control: Control = col("control")
    volts: float | None = col("system_V", "voltage", unit="V", needed=False)
    motor_volts: float | None = col("motor_V", "voltage", unit="V", needed=False)
    step_up_inside: bool = col("step_up_inside", "flag")
    thrust: float = col("thrust_N", "force", unit="N")
    thrust_basis: Literal["net", "gross"] = col("thrust_gross_or_net")
    rated_volts: float | None = col("rated_at_terminal_V", "voltage", unit="V", needed=False)
    rated_current: float | None = col("rated_current_A", "current", unit="A", needed=False)
    rated_time: float | None = col("rated_at_s", "time", unit="s", needed=False)
    at_limit: Literal["trips", "tapers", "continuous"] = col("at_limit")
    minutes_in_hour: float | None = col("run_in_an_hour_s", "time", unit="s", needed=False)
    shaft_power: float | None = col("shaft_kW", "power", unit="kW", needed=False)
    rotation: float | None = col("rated_speed_rpm", "rotation", unit="rpm", needed=False)
    armature_resistance: float | None = col("armature_mohm", "resistance", unit="mohm", needed=False)
    brush_drop: float | None = col("brush_drop_V", "voltage", unit="V", needed=False)
    no_load_current: float | None = col("no_load_A", "current", unit="A", needed=False)
    current_limit: float | None = col("current_limit_A", "current", unit="A", needed=False)
    fold_back_volts: float | None = col("fold_back_from_V", "voltage", unit="V", needed=False)
    cut_out_volts: float | None = col("cut_out_V", "voltage", unit="V", needed=False)
    tunnel_diameter: float | None = col("tunnel_mm", "length", unit="mm", needed=False)
    tunnel_length_most: float | None = col("tunnel_length_most_mm", "length", unit="mm", needed=False)
    rotors: int = col("rotors", "count")
    box_height: float | None = col("box_height_mm", "length", unit="mm", needed=False)
    box_length: float | None = col("box_length_mm", "length", unit="mm", needed=False)
    speed_lowered_most: float | None = col("speed_lowered_most_kn", "speed", unit="kn", needed=False)
    manual_raise: bool | None = col("manual_raise", "flag", needed=False)
    length: float = col("length_mm", "length", unit="mm")
    width: float = col("width_mm", "length", unit="mm")
    height: float = col("height_mm", "length", unit="mm")
    noise: float | None = col("noise_dBA", "sound", unit="dBA", needed=False)
    noise_place: str | None = col("noise_place", needed=False)
    ignition_protected: bool = col("ignition_protected", "flag")
    ingress: str | None = col("degree_of_protection", needed=False)
    isolated_case: bool | None = col("isolated_case", "flag", needed=False)
    network_isolated: bool | None = col("network_isolated", "flag", needed=False)
    network_current: float | None = col("network_A", "current", unit="A", needed=False)
    network_least_volts: float | None = col("network_least_V", "voltage", unit="V", needed=False)
    minimum_reversal: float | None = col("reversal_s", "time", unit="s", needed=False)
    hydraulic_pressure: float | None = col("pressure_bar", "pressure", unit="bar", needed=False)
    hydraulic_flow: float | None = col("flow_l_min", "flow", unit="l/min", needed=False)
    hydraulic_displacement: float | None = col("displacement_cc_rev", "displacement_per_rev", unit="cc/rev", needed=False)
    stud: str | None = col("stud", needed=False)

    @property
    def in_tunnel(self) -> bool:
        """Whether its rotor turns in a tunnel through the hull."""
        return self.housing in ("tunnel", "rim")


@dataclass(frozen=True, slots=True, kw_only=True)
class BatteryBlock(Row):
    """One battery case."""

    chemistry: Chemistry = col("chemistry")
    volts: float = col("nominal_V", "voltage", unit="V")
    cells: int = col("cells", "count")
    capacity: float = col("capacity_Ah", "charge", unit="Ah")
    capacity_hours: float = col("capacity_at_h", "time", unit="h")
    resistance: float | None = col("resistance_mohm", "resistance", unit="mohm", needed=False)
    cranking: float | None = col("cranking_A", "current", unit="A", needed=False)
    cranking_standard: Literal["SAE", "EN", "IEC", "DIN"] | None = col("cranking_standard", needed=False)
    short_circuit: float | None = col("short_circuit_A", "current", unit="A", needed=False)
    charge_volts: float = col("charge_V", "voltage", unit="V")
    float_volts: float = col("float_V", "voltage", unit="V")
    charge_most: float = col("charge_most_A", "current", unit="A")
    discharge_continuous: float | None = col("protection_continuous_A", "current", unit="A", needed=False)
    discharge_peak: float | None = col("protection_peak_A", "current", unit="A", needed=False)
    discharge_peak_time: float | None = col("protection_peak_s", "time", unit="s", needed=False)
    cut_off_volts: float | None = col("protection_low_V", "voltage", unit="V", needed=False)
    charge_coldest: float | None = col("charge_coldest_C", "temperature", unit="°C", needed=False)
    discharge_coldest: float | None = col("discharge_coldest_C", "temperature", unit="°C", needed=False)
    sealed: bool = col("sealed", "flag")
    temperature_sensor: bool = col("temperature_sensor", "flag")
    series_most: int = col("series_most", "count")
    length: float = col("length_mm", "length", unit="mm")
    width: float = col("width_mm", "length", unit="mm")
    height: float = col("height_mm", "length", unit="mm")
    stud: str = col("stud")


@dataclass(frozen=True, slots=True, kw_only=True)
class Cable(Row):
    """A single-core power cable; ``mass`` and ``price`` are per metre."""

    area: float = col("area", "conductor", unit="mm2")
    gauge: str = col("size")
    conductor_class: Literal["class 2", "class 5", "stranded"] = col("conductor_class")
    tinned: bool = col("tinned", "flag")
    insulation_temperature: float = col("insulation_C", "temperature", unit="°C")
    resistance_per_metre: float = col("ohm_per_km", "per_km")
    diameter: float = col("outer_mm", "length", unit="mm")
    marine: bool = col("marine", "flag")


@dataclass(frozen=True, slots=True, kw_only=True)
class Fuse(Row):
    """One fuse of one rating; the curve belongs to the family."""

    family: str = col("family")
    rating: float = col("rating_A", "current", unit="A")
    resistance: float = col("resistance_mohm", "resistance", unit="mohm")


@dataclass(frozen=True, slots=True, kw_only=True)
class FuseFamily:
    """Time-current points ``(multiple of rating, least s, most s)`` and limits common to a family."""

    family: str
    form: str
    volts_most: float
    breaking_capacity: tuple[tuple[float, float], ...]
    points: tuple[tuple[float, float, float], ...]
    current_limiting: bool
    ignition_protected: bool
    source: str
    verified: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Switch(Row):
    """A hand-worked main switch."""

    continuous: float = col("continuous_A", "current", unit="A")
    five_minutes: float = col("five_minutes_A", "current", unit="A")
    breaking: float = col("breaking_A", "current", unit="A")
    volts_most: float = col("most_V", "voltage", unit="V")
    resistance: float = col("resistance_mohm", "resistance", unit="mohm")
    lockable: bool = col("lockable_off", "flag")
    ignition_protected: bool = col("ignition_protected", "flag")
    stud: str = col("stud")


@dataclass(frozen=True, slots=True, kw_only=True)
class Contactor(Row):
    """A remote stop device that breaks the power circuit."""

    stop_kind: StopKind = col("stop_kind")
    coil_volts: float | None = col("coil_V", "voltage", unit="V", needed=False)
    coil_current: float | None = col("coil_A", "current", unit="A", needed=False)
    hold_volts: float | None = col("hold_V", "voltage", unit="V", needed=False)
    pull_in_volts: float | None = col("pull_in_V", "voltage", unit="V", needed=False)
    continuous: float = col("continuous_A", "current", unit="A")
    five_minutes: float = col("five_minutes_A", "current", unit="A")
    breaking: float = col("breaking_A", "current", unit="A")
    volts_most: float = col("most_V", "voltage", unit="V")
    resistance: float = col("resistance_mohm", "resistance", unit="mohm")
    ignition_protected: bool = col("ignition_protected", "flag")
    stud: str = col("stud")


@dataclass(frozen=True, slots=True, kw_only=True)
class Charger(Row):
    """A charger at the thruster bank: step-up, battery to battery, shore, or a series/parallel switch."""

    kind: ChargerKind = col("kind")
    volts_in: float = col("in_V", "voltage", unit="V")
    volts_out: float = col("out_V", "voltage", unit="V")
    current_out: float = col("out_A", "current", unit="A")
    current_in: float | None = col("in_A", "current", unit="A", needed=False)
    charge_volts: float = col("charge_V", "voltage", unit="V")
    efficiency: float = col("efficiency", "ratio")
    quiescent: float = col("quiescent_mA", "current", unit="mA")
    isolated: bool = col("isolated", "flag")
    on_volts: float | None = col("on_V", "voltage", unit="V", needed=False)
    off_volts: float | None = col("off_V", "voltage", unit="V", needed=False)
    profiles: str = col("profiles")
    temperature_sensor: bool = col("temperature_sensor", "flag")
    ignition_protected: bool = col("ignition_protected", "flag")
    length: float = col("length_mm", "length", unit="mm")
    width: float = col("width_mm", "length", unit="mm")
    height: float = col("height_mm", "length", unit="mm")


@dataclass(frozen=True, slots=True, kw_only=True)
class Panel(Row):
    """A helm control."""

    control: Control = col("control")
    network_current: float = col("network_A", "current", unit="A")
    least_volts: float = col("least_V", "voltage", unit="V")
    terminator_inside: bool = col("terminator_inside", "flag")
    ingress: str = col("degree_of_protection")
    wireless: bool = col("wireless", "flag")


@dataclass(frozen=True, slots=True, kw_only=True)
class NetworkCable(Row):
    """Control-line cable: a signal pair and a supply pair; ``mass`` and ``price`` are per metre."""

    supply_area: float = col("supply_pair", "conductor", unit="mm2")
    supply_size: str = col("supply_size")
    supply_ohm_per_metre: float = col("supply_ohm_per_km", "per_km")
    supply_most: float = col("supply_most_A", "current", unit="A")
    impedance: float = col("impedance_ohm", "resistance", unit="ohm")


@dataclass(frozen=True, slots=True, kw_only=True)
class Sundry(Row):
    """Small parts the bill needs: ``use`` says what for (terminator, tee, network fuse, converter, equaliser, lug, ...)."""

    use: str = col("use")
    size: str | None = col("size", needed=False)
    volts_in: float | None = col("in_V", "voltage", unit="V", needed=False)
    volts_out: float | None = col("out_V", "voltage", unit="V", needed=False)
    current: float | None = col("rated_A", "current", unit="A", needed=False)
    resistance: float | None = col("resistance_ohm", "resistance", unit="ohm", needed=False)
    isolated: bool | None = col("isolated", "flag", needed=False)
    ignition_protected: bool | None = col("ignition_protected", "flag", needed=False)


@dataclass(frozen=True, slots=True, kw_only=True)
class HydraulicPump(Row):
    """An engine-driven pump."""

    displacement: float = col("displacement_cc_rev", "displacement_per_rev", unit="cc/rev")
    pressure_most: float = col("most_bar", "pressure", unit="bar")
    rotation_most: float = col("most_rpm", "rotation", unit="rpm")
    volumetric_efficiency: float = col("volumetric_efficiency", "ratio")
    variable: bool = col("load_sensing", "flag")


@dataclass(frozen=True, slots=True, kw_only=True)
class Catalogue:
    """All tables. ``name`` is printed on every paper; ``digest`` is of the text it was read from."""

    name: str
    digest: str
    invented: bool
    units: tuple[ThrusterUnit, ...]
    blocks: tuple[BatteryBlock, ...]
    cables: tuple[Cable, ...]
    fuses: tuple[Fuse, ...]
    fuse_families: Mapping[str, FuseFamily]
    switches: tuple[Switch, ...]
    contactors: tuple[Contactor, ...]
    chargers: tuple[Charger, ...]
    panels: tuple[Panel, ...]
    network_cables: tuple[NetworkCable, ...]
    sundries: tuple[Sundry, ...]
    pumps: tuple[HydraulicPump, ...]

    def row(self, row_id: str) -> Row | None:
        """The row with this id in any table, or None."""
        for table in self.tables().values():
            for entry in table:
                if entry.id == row_id:
                    return entry
        return None

    def tables(self) -> dict[str, tuple[Row, ...]]:
        """Tables by sheet name."""
        return {name: cast("tuple[Row, ...]", getattr(self, attribute)) for name, (attribute, _) in SHEETS.items()}


SHEETS: dict[str, tuple[str, type[Row]]] = {
    "thruster units": ("units", ThrusterUnit),
    "battery blocks": ("blocks", BatteryBlock),
    "cables": ("cables", Cable),
    "fuses": ("fuses", Fuse),
    "switches": ("switches", Switch),
    "contactors": ("contactors", Contactor),
    "chargers": ("chargers", Charger),
    "panels": ("panels", Panel),
    "network cables": ("network_cables", NetworkCable),
    "sundries": ("sundries", Sundry),
    "hydraulic pumps": ("pumps", HydraulicPump),
}
"""Sheet (or file) name -> attribute of :class:`Catalogue` and record; "fuse curves" is read beside them."""

RowT = TypeVar("RowT", bound=Row)


def columns(record: type[Row]) -> dict[str, Field[Any]]:
    """Header -> field of a record."""
    return {str(entry.metadata["header"]): entry for entry in fields(record)}
