"""Every finding code with a boat on which it fires and one on which it stays silent.

``SOUND`` is example 7 as it was before the stern unit: everything aboard, examined with ``check``. A case is (example, mode,
changes); an example's own faults need no changes. Silent boats are sound ones, or the firing boat with its fault mended.
"""

from __future__ import annotations

from typing import Any

Case = tuple[str, str, dict[str, Any]]

SOUND: dict[str, Any] = {"thrusters[1]": None, "bank[1]": None, "network.trunk[3]": None}
OLD: Case = ("6", "check", {})
NEW: Case = ("1", "propose", {})
SAILING: Case = ("2", "propose", {})
DAY: Case = ("4", "propose", {})
JOINED: Case = ("7", "propose", {})
FOUND: Case = ("7", "check", SOUND)
LANE = "aboard.lanes.bow"


def new(**changes: Any) -> Case:
    """Example 1 proposed, with changes (dots and brackets written as ``__`` and ``_0_``)."""
    return ("1", "propose", {_path(key): value for key, value in changes.items()})


def found(changes: dict[str, Any]) -> Case:
    """The sound boat aboard with changes, examined."""
    return ("7", "check", {**changes, **SOUND})


def _path(key: str) -> str:
    return key.replace("__", ".")


FIRES: dict[str, Case] = {
    # ---- already in the examples
    **dict.fromkeys(
        ("NEED-01",),
        ("6", "propose", {}),
    ),
    "NEED-02": OLD,
    "NEED-04": NEW,
    "NEED-06": SAILING,
    "NEED-11": NEW,
    "NET-23": JOINED,
    "CARE-03": SAILING,
    "VOLTS-01": DAY,
    "PROOF-01": NEW,
    "PROOF-02": NEW,
    **dict.fromkeys(
        (
            "BANK-01",
            "BANK-02",
            "BANK-03",
            "BANK-04",
            "BANK-05",
            "BANK-06",
            "BANK-09",
            "BANK-10",
            "BANK-11",
            "BANK-13",
            "BANK-14",
            "BANK-17",
            "BANK-18",
            "BANK-19",
            "BANK-20",
            "BANK-21",
            "CABLE-01",
            "CABLE-02",
            "CABLE-04",
            "CABLE-06",
            "CABLE-07",
            "CABLE-11",
            "CARE-01",
            "CHARGE-01",
            "CHARGE-02",
            "CHARGE-14",
            "CHARGE-19",
            "DRIVE-01",
            "DRIVE-02",
            "DRIVE-03",
            "DRIVE-04",
            "DRIVE-08",
            "DRIVE-12",
            "FUSE-01",
            "FUSE-02",
            "FUSE-04",
            "FUSE-07",
            "NET-01",
            "NET-04",
            "NET-05",
            "NET-06",
            "NET-07",
            "NET-08",
            "NET-10",
            "NET-12",
            "NET-13",
            "NET-15",
            "NET-16",
            "NET-17",
            "NET-18",
            "NET-19",
            "NET-20",
            "PETROL-01",
            "RETRACT-02",
            "RETRACT-03",
            "RETRACT-05",
            "STOP-02",
            "STOP-03",
            "STOP-04",
            "STOP-05",
            "STOP-06",
            "STOP-12",
            "STOP-13",
            "TUNNEL-01",
            "TUNNEL-05",
            "TUNNEL-08",
            "TUNNEL-10",
            "TUNNEL-11",
        ),
        OLD,
    ),
    **{code: ("6", "propose", {}) for code in ("CARE-05", "CHARGE-03", "CHARGE-06", "CHARGE-07", "CHARGE-09", "CHARGE-16")},
    # ---- need
    "NEED-03": found({"wind.speed": "19.8 kn", "choices.hold_probability": None}),
    "NEED-05": ("1", "propose", {"wind.is": "mean"}),
    "NEED-07": ("1", "propose", {"wind.speed": "80 kn"}),
    "NEED-08": ("1", "propose", {"boat.kind": "houseboat"}),
    "NEED-09": ("1", "propose", {"boat.length_overall": "25 m", "boat.length_waterline": "24 m"}),
    "NEED-10": ("1", "propose", {"thrusters[0].tunnel.x": "5 m"}),
    "NEED-12": ("7", "propose", {"thrusters[0]": None, "bank[0]": None, "network.trunk[0]": None, "aboard": None}),
    "NEED-13": (
        "1",
        "propose",
        {
            "boat.windage": [
                {
                    "name": "all",
                    "kind": "hull",
                    "area": "120 m2",
                    "centroid_x": "7 m",
                    "centroid_height": "2 m",
                    "frontal_area": "10 m2",
                }
            ]
        },
    ),
    "NEED-14": ("1", "propose", {"water.current": "1 kn"}),
    "NEED-15": (
        "1",
        "propose",
        {"wind.speed": "7 kn", "thrusters[0].wanted.drives": ["brushless"], "thrusters[0].wanted.diameter_most": "260 mm"},
    ),
    "NEED-16": ("1", "propose", {"wind.headings": ["90 deg"]}),
    "NEED-17": ("1", "propose", {"boat.displacement": "160 t", "boat.lightest.displacement": "150 t"}),
    "NEED-18": ("1", "propose", {"boat.lightest.displacement": "9 t"}),
    "NEED-19": ("1", "propose", {"boat.length_overall": "25 m", "boat.length_waterline": "24 m"}),
    "NEED-20": NEW,
    "NEED-21": OLD,
    "NEED-24": ("1", "propose", {"water.depth": "1.5 m"}),
    "NEED-22": ("1", "propose", {"wind.shelter": "second row"}),
    # ---- drive
    "DRIVE-05": found({"duty.quiet": "yes"}),
    "DRIVE-06": found({f"{LANE}.bank.series": "1"}),
    "DRIVE-07": found({f"{LANE}.unit.row": "tunnel-24V-1600N-bl", f"{LANE}.bank.row": "thin-12V-75Ah"}),
    "DRIVE-09": found({f"{LANE}.bank.row": "lfp-24V-200Ah", f"{LANE}.bank.series": "1"}),
    "DRIVE-10": found({f"{LANE}.unit.row": "tunnel-hyd-2000N", "propulsion.engines[0].take_off": {"name": "gearbox"}}),
    "DRIVE-11": found({f"{LANE}.unit.row": "tunnel-hyd-2000N"}),
    # ---- banks
    "BANK-07": (
        "1",
        "propose",
        {
            "bank[0].shared_with": [{"name": "Main engine Starter", "current": "200 A"}],
            "supply.batteries[1]": None,
            "supply.path_devices": None,
        },
    ),
    "CHARGE-22": (
        "1",
        "propose",
        {
            "supply.batteries[0]": None,
            "supply.path_devices": None,
            "supply.alternators[0].charges": "starter battery",
            "supply.shore_charger.charges": "starter battery",
        },
    ),
    "BANK-08": ("1", "propose", {"bank[0].chemistries": ["starting"]}),
    "BANK-15": found({f"{LANE}.bank.parallel": "2"}),
    "BANK-16": found({f"{LANE}.bank.row": "lfp-12V-100Ah", f"{LANE}.bank.series": "8"}),
    # ---- cables
    "CABLE-03": found({f"{LANE}.cable.row": "25mm2-105C", f"{LANE}.cable.in_parallel": "1"}),
    "CABLE-05": found(
        {f"{LANE}.cable.row": "10mm2-70C", f"{LANE}.cable.in_parallel": "1", f"{LANE}.fuse.row": "marine-strip-400A"}
    ),
    "CABLE-08": found({f"{LANE}.cable.joints": "18"}),
    "CABLE-09": ("1", "propose", {"bank": None}),
    "CABLE-10": found({f"{LANE}.cable.length": "9 m"}),
    # ---- fuses
    "FUSE-03": found({f"{LANE}.fuse.row": "class-t-300A"}),
    "FUSE-10": found({f"{LANE}.charger.fuse_at_source": "2 A", "supply.batteries[0].resistance": "0.3 mohm"}),
    "FUSE-05": ("4", "propose", {"fixed": {"lanes": {"bow": {"fuse": {"row": "marine-strip-300A"}}}}}),
    "FUSE-06": found({f"{LANE}.fuse.row": "bolt-down-sf51-400A"}),
    "FUSE-08": found({f"{LANE}.cable.row": "10mm2-70C", f"{LANE}.cable.in_parallel": "1"}),
    "FUSE-09": found({f"{LANE}.cable.row": "10mm2-70C", f"{LANE}.cable.in_parallel": "1", f"{LANE}.fuse.row": "class-t-800A"}),
    # ---- charging
    "CHARGE-04": found({f"{LANE}.charger.fuse_at_source": None}),
    "CHARGE-05": found({f"{LANE}.charger.fuse_at_bank": None}),
    "CHARGE-08": ("1", "propose", {"supply.path_devices[0].kind": "shared bus bar"}),
    "CHARGE-10": ("1", "propose", {"duty.dockings_per_day": "200"}),
    "CHARGE-11": ("1", "propose", {"duty.dockings_per_day": "30"}),
    "CHARGE-12": found({f"{LANE}.charger.row": "stepup-12-24-40A-iso", f"{LANE}.bank.row": "agm-12V-55Ah"}),
    "CHARGE-13": found({"layout.places[1].ventilated": None, f"{LANE}.bank.temperature_sensor": "no"}),
    "CHARGE-15": ("1", "propose", {"supply.series_parallel_switch": "yes"}),
    "CHARGE-21": ("1", "propose", {"supply.volts": "24 V"}),
    "CHARGE-20": ("1", "propose", {"supply.shore_charger.volts": "24 V"}),
    "CHARGE-17": found({f"{LANE}.charger.row": "stepup-12-24-8A"}),
    "CHARGE-18": found({f"{LANE}.charger.row": "stepup-24-48-6A-iso"}),
    # ---- network
    "NET-02": found({"aboard.network.fed_from": "engine start"}),
    "NET-03": ("1", "propose", {"network.feed": "lower block"}),
    "NET-09": ("1", "propose", {"network.trunk[2].length": "180 m"}),
    "NET-11": found({"aboard.network.feed_fuse": None}),
    "NET-14": ("7", "propose", {"thrusters[1].instance": None}),
    "NET-21": ("1", "propose", {"boat.hull_material": "steel"}),
    "NET-22": ("1", "propose", {"supply.common_negative": "isolated"}),
    # ---- safety
    "PETROL-02": found(
        {"boat.petrol_aboard": "engine", "layout.places[1].petrol_space": "yes", f"{LANE}.fuse.row": "bolt-down-sf51-400A"}
    ),
    "PETROL-03": found({"boat.petrol_aboard": "engine", "layout.places[1].petrol_space": "yes"}),
    "PETROL-04": found({"boat.petrol_aboard": "engine", "layout.places[1].petrol_space": "yes"}),
    "PETROL-05": ("1", "propose", {"boat.petrol_aboard": "portable tanks"}),
    "RETRACT-01": ("2", "propose", {"thrusters[0].retract_interlocks": []}),
    "RETRACT-06": (
        "2",
        "propose",
        {
            "thrusters[0].tunnel.height_above_waterline_for_box": "50 mm",
            "fixed": {"lanes": {"bow": {"unit": {"row": "retract-24V-1600N"}}}},
        },
    ),
    "RETRACT-04": (
        "2",
        "propose",
        {
            "fixed": {"lanes": {"bow": {"unit": {"row": "retract-24V-1600N"}}}},
            "thrusters[0].retract_interlocks": ["raise only when stopped"],
        },
    ),
    "RETRACT-07": (
        "2",
        "propose",
        {"fixed": {"lanes": {"bow": {"unit": {"row": "retract-24V-1600N"}}}}, "thrusters[0].tunnel.box_length_most": "400 mm"},
    ),
    "STOP-01": found({f"{LANE}.stop": None}),
    "STOP-07": found({f"{LANE}.switch.row": "switch-200A"}),
    "STOP-08": found({f"{LANE}.stop.row": "stop-24V-150A"}),
    "STOP-09": found({f"{LANE}.stop.row": "stop-48V-300A-ip"}),
    "STOP-10": ("1", "propose", {"choices.stop_kind": "latching"}),
    "STOP-11": found({f"{LANE}.switch.row": "switch-150A"}),
    "STOP-14": ("1", "propose", {"helms[0].panel": "panel-prop"}),
    "STOP-15": ("1", "propose", {"helms[2]": {"name": "aft", "place": "upper helm"}}),
    "STOP-16": found({f"{LANE}.switch.row": "switch-200A"}),
    "CARE-04": ("1", "propose", {"layout.places[0].access": "open", "layout.places[0].living_space": "yes"}),
    "CARE-06": ("1", "propose", {"duty.dries_out": "yes"}),
    "PROOF-04": (
        "6",
        "check",
        {"choices.overrides": [{"finding": "STOP-02", "reason": "we have always done it like this"}]},
    ),
    "PROOF-03": ("1", "propose", {"choices.overrides": [{"finding": "TUNNEL-01", "reason": "not needed any more"}]}),
    # ---- tunnel
    "TUNNEL-02": found({"thrusters[0].tunnel.axis_depth": "320 mm"}),
    "TUNNEL-03": found({"thrusters[0].tunnel.axis_depth": "380 mm"}),
    "TUNNEL-04": found({"thrusters[0].tunnel.hull_below_axis": "100 mm"}),
    "TUNNEL-06": ("1", "propose", {"thrusters[0].tunnel.entry_radius": "16 mm"}),
    "TUNNEL-07": ("1", "propose", {"thrusters[0].tunnel.tunnel_length": "1.3 m"}),
    "TUNNEL-09": ("1", "propose", {"thrusters[0].tunnel.grid": "yes"}),
    "TUNNEL-12": found({"thrusters[0].tunnel.axis_depth": "150 mm"}),
    "TUNNEL-15": found({"boat.metacentric_height": "0.2 m", "thrusters[0].tunnel.axis_depth": "320 mm"}),
    "TUNNEL-14": found({"thrusters[0].tunnel.axis_depth": "0.9 m"}),
    "TUNNEL-13": ("1", "propose", {"boat.lightest": None}),
}
