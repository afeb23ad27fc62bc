"""Invented but consistent systems of any shape, for the tests of the netlist and of every drawing.

A :class:`Shape` says how many of what; :func:`proposal_of` builds the proposal. Nothing here is reckoned: currents, volts and
thrusts are round figures, so that a drawing can be judged without the solver.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import radians
from typing import Any

from hypothesis import strategies as st

from athwart.catalogue.records import (
    BatteryBlock,
    Cable,
    Catalogue,
    Charger,
    Contactor,
    Fuse,
    FuseFamily,
    NetworkCable,
    Panel,
    Sundry,
    Switch,
    ThrusterUnit,
)
from athwart.design.brief import Brief
from athwart.design.netlist import Netlist
from athwart.design.proposal import (
    Bank,
    CableChoice,
    Case,
    ChargingChoice,
    FuseChoice,
    Lane,
    LaneState,
    Need,
    NetworkChoice,
    NetworkStop,
    Proposal,
    Trim,
)
from athwart.design.wiring import wire

MAKER: dict[str, Any] = {"maker": "invented", "price": 10.0, "mass": 1.0, "invented": True}
BOX: dict[str, Any] = {"length": 0.3, "width": 0.2, "height": 0.2}
HOT = 343.15
AREAS = (1.5, 2.5, 4, 6, 10, 16, 25, 35, 50, 70, 95, 120)


def cable(area: float) -> Cable:
    """A cable of this many mm²."""
    return Cable(
        id=f"cable-{area:g}",
        name=f"cable {area:g}",
        area=area * 1e-6,
        gauge=f"{area:g} mm²",
        conductor_class="class 5",
        tinned=True,
        insulation_temperature=HOT,
        resistance_per_metre=0.0191 / area,
        diameter=0.01,
        marine=True,
        **MAKER,
    )


CABLES = tuple(cable(area) for area in AREAS)
FUSES = tuple(
    Fuse(id=f"fuse-{rating:g}", name=f"fuse {rating:g}", family="strip", rating=rating, resistance=0.0002, **MAKER)
    for rating in (3.0, 5.0, 10.0, 15.0, 30.0, 40.0, 60.0, 100.0, 200.0, 325.0, 500.0)
)
FAMILY = FuseFamily(
    family="strip",
    form="strip",
    volts_most=58.0,
    breaking_capacity=((58.0, 2000.0),),
    points=((1.35, 60.0, 1800.0), (2.0, 1.0, 60.0)),
    current_limiting=False,
    ignition_protected=False,
    source="own-judgement",
    verified=False,
)


def unit(volts: float, drive: str = "brushed", control: str = "on/off", thrust: float = 1280.0) -> ThrusterUnit:
    """A unit of these volts; hydraulic where ``drive`` says so."""
    hydraulic = drive == "hydraulic"
    kind: dict[str, Any] = {"drive": drive, "housing": "tunnel", "control": control, "at_limit": "trips", "thrust_basis": "net"}
    return ThrusterUnit(
        id=f"unit-{volts:g}-{drive}-{thrust:g}",
        name=f"{thrust:.0f} N unit",
        volts=None if hydraulic else volts,
        step_up_inside=False,
        thrust=thrust,
        tunnel_diameter=0.25,
        rotors=1,
        ignition_protected=False,
        hydraulic_pressure=200e5 if hydraulic else None,
        hydraulic_flow=60e-3 / 60 if hydraulic else None,
        **kind,
        **BOX,
        **MAKER,
    )


def block(volts: float = 12.0, chemistry: str = "agm") -> BatteryBlock:
    """A block of 110 Ah."""
    kind: dict[str, Any] = {"chemistry": chemistry}
    return BatteryBlock(
        id=f"block-{volts:g}-{chemistry}",
        name="110 Ah block",
        volts=volts,
        cells=6,
        capacity=110 * 3600.0,
        capacity_hours=72000.0,
        resistance=0.004,
        charge_volts=14.4,
        float_volts=13.6,
        charge_most=30.0,
        sealed=True,
        temperature_sensor=True,
        series_most=8,
        stud="M8",
        **kind,
        **BOX,
        **MAKER,
    )


def charger(kind: str, volts_in: float, volts_out: float, isolated: bool) -> Charger:
    """A charger of 10 A."""
    sort: dict[str, Any] = {"kind": kind}
    return Charger(
        id=f"charger-{kind}-{volts_out:g}-{isolated}",
        name="charger 10 A",
        volts_in=volts_in,
        volts_out=volts_out,
        current_out=10.0,
        charge_volts=volts_out * 1.2,
        efficiency=0.9,
        quiescent=0.01,
        isolated=isolated,
        profiles="agm",
        temperature_sensor=True,
        ignition_protected=False,
        **sort,
        **BOX,
        **MAKER,
    )


SWITCH = Switch(
    id="switch",
    name="switch 300 A",
    continuous=300.0,
    five_minutes=500.0,
    breaking=1000.0,
    volts_most=58.0,
    resistance=0.0002,
    lockable=True,
    ignition_protected=False,
    stud="M10",
    **MAKER,
)


def contactor(kind: str, volts: float) -> Contactor:
    """A stop contactor."""
    sort: dict[str, Any] = {"stop_kind": kind}
    return Contactor(
        id=f"contactor-{kind}-{volts:g}",
        name="contactor 300 A",
        coil_volts=volts,
        coil_current=1.0,
        hold_volts=volts / 2,
        continuous=300.0,
        five_minutes=500.0,
        breaking=1500.0,
        volts_most=58.0,
        resistance=0.0002,
        ignition_protected=False,
        stud="M10",
        **sort,
        **MAKER,
    )


PANEL = Panel(
    id="panel",
    name="panel",
    control="on/off",
    network_current=0.05,
    least_volts=9.0,
    terminator_inside=False,
    ingress="IP67",
    wireless=False,
    **MAKER,
)
NETWORK_CABLE = NetworkCable(
    id="net-thin",
    name="thin network cable",
    supply_area=0.34e-6,
    supply_size="0.34 mm²",
    supply_ohm_per_metre=0.053,
    supply_most=3.0,
    impedance=120.0,
    **MAKER,
)
CONVERTER = Sundry(
    id="converter", name="network converter", use="converter", volts_in=24.0, volts_out=12.0, current=3.0, isolated=True, **MAKER
)


def catalogue() -> Catalogue:
    """Everything above as one catalogue."""
    return Catalogue(
        name="invented example",
        digest="0" * 64,
        invented=True,
        units=(unit(24.0), unit(12.0)),
        blocks=(block(),),
        cables=CABLES,
        fuses=FUSES,
        fuse_families={"strip": FAMILY},
        switches=(SWITCH,),
        contactors=(contactor("energise to run", 24.0), contactor("latching", 12.0)),
        chargers=(charger("step-up", 12.0, 24.0, False),),
        panels=(PANEL,),
        network_cables=(NETWORK_CABLE,),
        sundries=(CONVERTER,),
        pumps=(),
    )


@dataclass(frozen=True)
class UnitShape:
    """One unit: which bank it is on (None: hydraulic) and what is in its lane."""

    role: str = "bow"
    bank: int | None = 0
    drive: str = "brushed"
    control: str = "on/off"
    stop: str | None = "energise to run"
    switch: bool = True
    fuse: bool = True
    parallel: int = 1
    from_source: float = 0.15


@dataclass(frozen=True)
class BankShape:
    """One bank."""

    series: int = 2
    parallel: int = 1
    string_fuses: bool = True
    charging: str = "step-up"
    isolated: bool = False
    fuses: bool = True
    consumers: int = 0
    mid_tap: bool = False
    equaliser: bool = False
    is_ships: bool = False


@dataclass(frozen=True)
class Shape:
    """A whole system."""

    units: tuple[UnitShape, ...] = (UnitShape(),)
    banks: tuple[BankShape, ...] = (BankShape(),)
    helms: int = 2
    nodes: int = 0
    batteries: tuple[str, ...] = ("house",)
    alternators: int = 1
    shore: bool = True
    devices: tuple[str, ...] = ()
    common_negative: str = "common"
    feed: str = "ship bank"
    feed_stop: int = 0
    network: bool = True
    instances: bool = True
    rule_set: str = "iso small craft"
    length: float = 14.0
    x_from: str = "transom"
    outline: bool = True
    underwater: bool = True
    routes: bool = True
    names: str = ""


PLACES = (
    "engine space",
    "bow locker",
    "lazarette",
    "helm",
    "flybridge",
    "cockpit",
    "saloon",
    "aft deck",
    "cabin",
    "mast foot",
    "stern locker",
)


def brief_of(shape: Shape) -> Brief:
    """A brief with this many of each."""
    long = shape.length
    data: dict[str, Any] = {
        "athwart": 1,
        "name": f"invented motor yacht {long:g} m",
        "boat": _boat(shape),
        "wind": {"speed": "20 kn", "read_at": "on deck", "is": "mean"},
        "supply": _supply(shape),
        "layout": {
            "places": [
                {
                    "name": name,
                    "x": f"{long * (0.1 + 0.85 * index / len(PLACES)):.2f} m",
                    "height": f"{0.1 + 0.22 * (index % 5):.2f} m",
                }
                for index, name in enumerate(PLACES)
            ],
            "routes": [
                {"between": [place_of(index), bank_place(entry.bank)], "plus": "2.6 m", "minus": "2.5 m"}
                for index, entry in enumerate(shape.units)
                if entry.bank is not None and shape.routes and place_of(index) != bank_place(entry.bank)
            ],
        },
        "helms": [{"name": f"helm {index + 1}{shape.names}", "place": PLACES[3 + index % 6]} for index in range(shape.helms)],
        "thrusters": [
            {
                "identity": identity(index),
                "role": entry.role,
                "place": place_of(index),
                "tunnel": {"x": f"{_tunnel_x(shape, index):.2f} m", "axis_depth": "0.55 m", "hull_below_axis": "0.4 m"},
            }
            for index, entry in enumerate(shape.units)
        ],
        "bank": [_bank_wish(shape, index) for index in range(len(shape.banks)) if _feeds(shape, index)],
        "network": {
            "nodes": [{"name": f"node {index + 1}", "place": "saloon", "current": "50 mA"} for index in range(shape.nodes)]
        },
        "choices": {"rule_set": shape.rule_set},
    }
    return Brief.model_validate(data)


def _boat(shape: Shape) -> dict[str, Any]:
    long = shape.length
    hull: dict[str, Any] = {"name": "hull", "kind": "hull"}
    if shape.outline:
        points = ((0.0, 0.0), (-0.02, 0.09), (0.45, 0.09), (1.0, 0.14), (0.95, 0.0))
        hull["outline"] = [[f"{x * long:.2f} m", f"{y * long:.2f} m"] for x, y in points]
    else:
        hull["box"] = {"from": "0 m", "to": f"{long} m", "bottom": "0 m", "top": f"{0.1 * long:.2f} m"}
    house = {
        "from": f"{0.3 * long:.2f} m",
        "to": f"{0.65 * long:.2f} m",
        "bottom": f"{0.1 * long:.2f} m",
        "top": f"{0.23 * long:.2f} m",
    }
    under = ((0.0, 0.0), (0.0, 0.02), (0.1, 0.06), (0.6, 0.075), (0.9, 0.05), (0.97, 0.0))
    return {
        "kind": "motor yacht, displacement",
        "x_from": shape.x_from,
        "length_overall": f"{long} m",
        "length_waterline": f"{0.93 * long:.2f} m",
        "beam": f"{0.3 * long:.2f} m",
        "draught": f"{0.08 * long:.2f} m",
        "displacement": "14 t",
        "windage": [
            hull,
            {"name": "house", "kind": "house", "box": house},
            {
                "name": "mast",
                "kind": "mast",
                "area": "1.2 m2",
                "centroid_x": f"{0.4 * long:.2f} m",
                "centroid_height": f"{0.3 * long:.2f} m",
            },
        ],
        "underwater": [[f"{x * long:.2f} m", f"{y * long:.2f} m"] for x, y in under] if shape.underwater else [],
        "hull_material": "grp",
    }


def _supply(shape: Shape) -> dict[str, Any]:
    own = [f"bank {index + 1}" for index, bank in enumerate(shape.banks) if bank.is_ships]
    names = [f"{use} battery" if count == 0 else f"{use} battery {count + 1}" for count, use in _numbered(shape.batteries)]
    batteries = [
        {"name": name, "use": use, "volts": "12 V", "capacity": "180 Ah", "place": "engine space"}
        for name, use in zip(names, shape.batteries, strict=True)
    ]
    batteries += [{"name": name, "use": "house", "volts": "12 V", "capacity": "110 Ah", "place": "bow locker"} for name in own]
    everything = [*names, *own]
    target = everything[0] if everything else "nothing"
    alternators = [
        {"name": f"alternator {index + 1}", "current": "90 A", "volts": "14 V", "charges": target}
        for index in range(shape.alternators)
    ]
    alternators += [
        {"name": f"alternator of bank {index + 1}", "current": "60 A", "volts": "28 V", "charges": f"bank {index + 1}"}
        for index, bank in enumerate(shape.banks)
        if bank.charging == "alternator" and not bank.is_ships
    ]
    devices = []
    for number, kind in enumerate(shape.devices):
        if kind == "diode isolator" and shape.alternators and everything:
            devices.append(
                {
                    "name": f"isolator {number + 1}",
                    "kind": kind,
                    "between": ["alternator 1", everything[number % len(everything)]],
                }
            )
        elif len(everything) > 1:
            devices.append({"name": f"relay {number + 1}", "kind": "combining relay", "between": everything[:2]})
    found: dict[str, Any] = {"volts": "12 V", "batteries": batteries, "alternators": alternators, "path_devices": devices}
    found["common_negative"] = shape.common_negative
    if shape.shore:
        found["shore_charger"] = {"current": "30 A", "volts": "14 V", "charges": target}
    return found


def _numbered(uses: tuple[str, ...]) -> list[tuple[int, str]]:
    return [(uses[:index].count(use), use) for index, use in enumerate(uses)]


def identity(index: int) -> str:
    """Identity of a unit."""
    return ("bow", "stern", "bow port", "bow starboard", "stern port", "stern starboard", "mid", "aft")[index]


def place_of(index: int) -> str:
    """Place of a unit."""
    return "bow locker" if index % 2 == 0 else "lazarette"


def bank_place(bank: int | None) -> str:
    """Place of a bank."""
    return ("cabin", "stern locker", "engine space", "saloon")[(bank or 0) % 4]


def _tunnel_x(shape: Shape, index: int) -> float:
    forward = 0.88 - 0.06 * (index // 2) if shape.units[index].role == "bow" else 0.02 + 0.03 * (index // 2)
    return shape.length * (forward if shape.x_from == "transom" else 1 - forward)


def _feeds(shape: Shape, bank: int) -> list[str]:
    return [identity(index) for index, entry in enumerate(shape.units) if entry.bank == bank]


def _bank_wish(shape: Shape, index: int) -> dict[str, Any]:
    bank = shape.banks[index]
    wish: dict[str, Any] = {
        "name": f"bank {index + 1}",
        "feeds": _feeds(shape, index),
        "place": bank_place(index),
        "shared_with": [
            {"name": ("windlass", "house", "pump", "winch")[k % 4], "current": f"{20 + 15 * k} A"} for k in range(bank.consumers)
        ],
    }
    if bank.mid_tap:
        wish["mid_tap_load"] = "4 A"
    if bank.equaliser:
        wish["equaliser"] = "5 A"
    return wish


def _volts(bank: BankShape) -> float:
    return 12.0 * bank.series


def banks_of(shape: Shape) -> tuple[Bank, ...]:
    """The banks that feed a unit."""
    return tuple(
        Bank(
            name=f"bank {index + 1}",
            place=bank_place(index),
            block=block(),
            series=bank.series,
            parallel=bank.parallel,
            kept="aboard" if bank.is_ships else "chosen",
            feeds=tuple(_feeds(shape, index)),
            link=CABLES[9],
            link_length=0.3,
            string_fuse=(FUSES[9], FAMILY) if bank.string_fuses and bank.parallel > 1 else None,
            resistance_new=0.004 * bank.series / bank.parallel,
            open_volts_new=12.8 * bank.series,
            fault_current_most=3000.0,
        )
        for index, bank in enumerate(shape.banks)
        if _feeds(shape, index)
    )


def _state(volts: float) -> LaneState:
    return LaneState("peak", volts, 0.008, 0.005, 340.0, volts * 0.9, volts * 0.85, 1280.0, 293.15, ())


def lanes_of(shape: Shape, brief: Brief) -> tuple[Lane, ...]:
    """One lane a unit."""
    return tuple(_lane(shape, brief, index) for index in range(len(shape.units)))


def _lane(shape: Shape, brief: Brief, index: int) -> Lane:
    entry = shape.units[index]
    thruster = brief.thrusters[index]
    bank = None if entry.bank is None else shape.banks[entry.bank]
    volts = 24.0 if bank is None else _volts(bank)
    choice = CableChoice(CABLES[9], entry.parallel, 2.6, 2.5, "chosen", (), 265.0, False, "bank to unit", False, 1, 4, 0.00005)
    made = FuseChoice(FUSES[9], FAMILY, "chosen", entry.from_source, (), 1.0, 10.0)
    common: dict[str, Any] = {
        "lane": index + 1,
        "thruster": thruster,
        "unit": unit(volts, entry.drive if bank else "hydraulic", entry.control),
        "kept": "chosen",
        "bank": None if bank is None else f"bank {(entry.bank or 0) + 1}",
        "cable": choice if bank else None,
        "fuse": made if bank and entry.fuse else None,
        "switch": SWITCH if bank and entry.switch else None,
        "stop": contactor(entry.stop, volts) if bank and entry.stop else None,
        "panel": PANEL,
        "design": _state(volts) if bank else None,
        "peak": _state(volts) if bank else None,
        "both_design": None,
        "wind_held_worst": 10.0,
        "wind_held_beam": 11.0,
        "chance": 0.8,
        "run_time_full": 200.0,
        "run_time_half": 800.0,
        "run_time_limit": "motor",
        "faults": (),
        "start_current": 700.0,
        "cover": 0.25 + 0.02 * index,
        "cover_ratio": 1.0,
        "immersion_factor": 1.0,
        "score": 1.0,
        "passes": True,
        "negative_link_area": 70e-6 if shape.common_negative == "common" and bank else None,
    }
    return Lane(**common)


def charging_of(shape: Shape) -> tuple[ChargingChoice, ...]:
    """One way of charging a bank."""
    made = []
    for index, bank in enumerate(shape.banks):
        if not _feeds(shape, index):
            continue
        device = None if bank.charging in ("none", "alternator") else charger(bank.charging, 12.0, _volts(bank), bank.isolated)
        common: dict[str, Any] = {"kind": bank.charging, "kept": "chosen"}
        made.append(
            ChargingChoice(
                bank=f"bank {index + 1}",
                charger=device,
                from_battery=None,
                input_current=25.0,
                output_current=10.0,
                cable=CABLES[6],
                input_plus=9.0,
                input_minus=9.2,
                input_drop=0.3,
                fuse_source=FUSES[5] if bank.fuses else None,
                fuse_bank=FUSES[4] if bank.fuses else None,
                refill_time=3600.0,
                refill_full_time=36000.0,
                energy_out_per_day=1e5,
                energy_in_per_day=2e5,
                alternator_idle_margin=5.0,
                chatter_margin=0.2,
                **common,
            )
        )
    return tuple(made)


def network_of(shape: Shape) -> NetworkChoice | None:
    """Helms, nodes and units along one trunk."""
    names = [f"helm {index + 1}{shape.names}" for index in range(shape.helms)]
    names += [f"node {index + 1}" for index in range(shape.nodes)]
    names += [identity(index) for index in range(len(shape.units))]
    if not shape.network:
        return None
    stops = [
        NetworkStop(
            tag="",
            name=name,
            at=0.3 + 2.5 * index,
            drop=0.1,
            current=0.05,
            volts_rest=12.6,
            volts_sag=10.4,
            instance=index if shape.instances else None,
            is_new=index % 2 == 0,
        )
        for index, name in enumerate(names)
    ]
    feed: dict[str, Any] = {"feed": shape.feed}
    return NetworkChoice(
        profile="IEC 61162-3",
        bit_rate=250e3,
        cable_row="net-thin",
        feed_at=names[shape.feed_stop % len(names)],
        feed_fuse=3.0,
        stops=tuple(stops),
        trunk_length=stops[-1].at + 0.4,
        drops_total=0.5 * len(names),
        terminators=(names[0], names[-1]),
        resistance_power_off=60.0,
        changes=("trunk re-laid past the stern unit", "terminator moved to the stern") if len(shape.units) > 1 else (),
        load=0.12,
        converter_row="converter" if shape.feed == "converter" else None,
        **feed,
    )


def need_of(shape: Shape) -> Need:
    """A need in round figures."""
    cases = tuple(
        Case("B", identity(index), 1000.0, 1150.0, radians(55), ((radians(90), 1000.0),), 1680.0, 8.21, 0.2)
        for index in range(len(shape.units))
    )
    return Need(10.3, 10.3, 65.0, 28.0, 10.0, 0.4, 1.6, "Blendermann, speed boat row", cases, 120.0, 60.0, ())


def netlist_of(shape: Shape) -> Netlist:
    """The netlist of a shape."""
    return proposal_of(shape).netlist


def proposal_of(shape: Shape) -> Proposal:
    """The whole proposal of a shape."""
    brief, rows = brief_of(shape), catalogue()
    lanes, banks, charging, network = lanes_of(shape, brief), banks_of(shape), charging_of(shape), network_of(shape)
    return Proposal(
        brief=brief,
        catalogue=rows,
        need=need_of(shape),
        lanes=lanes,
        banks=banks,
        charging=charging,
        network=network,
        netlist=wire(brief, rows, lanes, banks, charging, network),
        trim=Trim(112.0, 500.0, 0.004, 0.02, -0.012, 0.004, 30.0),
        rejections=(),
        findings=(),
        answers=(),
        unverified=(),
        defaults=(),
        mass=200.0,
        price=1000.0,
    )


@st.composite
def bank_shapes(draw: st.DrawFn) -> BankShape:
    """Any bank: one block to eight in series, one to six strings."""
    charging = draw(
        st.sampled_from(("step-up", "step-up", "battery to battery", "shore", "series/parallel switch", "alternator", "none"))
    )
    return BankShape(
        series=draw(st.integers(1, 8)),
        parallel=draw(st.integers(1, 6)),
        string_fuses=draw(st.booleans()),
        charging=charging,
        isolated=draw(st.booleans()),
        fuses=draw(st.booleans()),
        consumers=draw(st.integers(0, 4)),
        mid_tap=draw(st.booleans()),
        equaliser=draw(st.booleans()),
        is_ships=draw(st.sampled_from((False, False, False, True))),
    )


@st.composite
def unit_shapes(draw: st.DrawFn, banks: int) -> UnitShape:
    """Any unit on one of the banks, or hydraulic."""
    drive = draw(st.sampled_from(("brushed", "brushless")))
    return UnitShape(
        role=draw(st.sampled_from(("bow", "stern"))),
        bank=draw(st.sampled_from((*range(banks), *range(banks), None))),
        drive=drive,
        control="proportional" if drive == "brushless" else draw(st.sampled_from(("on/off", "stepped"))),
        stop=draw(st.sampled_from(("energise to run", "latching", None))),
        switch=draw(st.booleans()),
        fuse=draw(st.booleans()),
        parallel=draw(st.integers(1, 3)),
        from_source=draw(st.sampled_from((0.05, 0.15, 1.0, 4.0))),
    )


@st.composite
def shapes(draw: st.DrawFn, most_units: int = 8, most_banks: int = 4) -> Shape:
    """Any system."""
    banks = tuple(draw(st.lists(bank_shapes(), min_size=1, max_size=most_banks)))
    units = tuple(draw(st.lists(unit_shapes(len(banks)), min_size=1, max_size=most_units)))
    return Shape(
        units=units,
        banks=banks,
        helms=draw(st.integers(0, 6)),
        nodes=draw(st.integers(0, 6)),
        batteries=tuple(draw(st.lists(st.sampled_from(("house", "engine start", "house and engine start")), max_size=4))),
        alternators=draw(st.integers(0, 3)),
        shore=draw(st.booleans()),
        devices=tuple(draw(st.lists(st.sampled_from(("diode isolator", "combining relay")), max_size=3))),
        common_negative=draw(st.sampled_from(("common", "common", "isolated"))),
        feed=draw(st.sampled_from(("ship bank", "converter", "lower block", "engine start", "upper block"))),
        feed_stop=draw(st.integers(0, 20)),
        network=draw(st.sampled_from((True, True, True, False))),
        instances=draw(st.booleans()),
        rule_set=draw(st.sampled_from(("iso small craft", "us"))),
        length=draw(st.sampled_from((6.0, 8.5, 12.0, 14.0, 18.0, 24.0, 40.0))),
        x_from=draw(st.sampled_from(("transom", "bow"))),
        outline=draw(st.booleans()),
        underwater=draw(st.booleans()),
        routes=draw(st.booleans()),
        names=draw(st.sampled_from(("", " with a long name, port side"))),
    )
