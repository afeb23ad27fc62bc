"""Main switch and stop device: smallest that carries the run and breaks a stalled motor at the bank's highest volts."""

from __future__ import annotations

from athwart.catalogue.records import Catalogue, Contactor, Switch
from athwart.design.brief import Brief
from athwart.units import Ampere, Second, Volt

FIVE_MINUTES: Second = 300.0


def _carries(continuous: Ampere, five_minutes: Ampere, current: Ampere, time: Second) -> bool:
    return current <= (five_minutes if time <= FIVE_MINUTES else continuous)


def main_switch(
    catalogue: Catalogue, current: Ampere, time: Second, stalled: Ampere, volts: Volt, ignition: bool
) -> Switch | None:
    """The smallest hand-worked, lockable switch that carries the run and breaks the stalled current."""
    rows = [
        entry
        for entry in catalogue.switches
        if entry.lockable
        and _carries(entry.continuous, entry.five_minutes, current, time)
        and entry.breaking >= stalled
        and entry.volts_most >= volts
        and (entry.ignition_protected or not ignition)
    ]
    return min(rows, key=lambda entry: (entry.continuous, entry.price, entry.id), default=None)


def stop_device(
    brief: Brief, catalogue: Catalogue, current: Ampere, time: Second, stalled: Ampere, volts: Volt, nominal: Volt, ignition: bool
) -> Contactor | None:
    """The smallest stop of the kind asked for; an energise-to-run one with its coil at the bank's volts."""
    kind = brief.choices.stop_kind
    rows = [
        entry
        for entry in catalogue.contactors
        if entry.stop_kind == kind
        and _carries(entry.continuous, entry.five_minutes, current, time)
        and entry.breaking >= stalled
        and entry.volts_most >= volts
        and (entry.ignition_protected or not ignition)
        and (kind == "latching" or entry.coil_volts is None or abs(entry.coil_volts - nominal) < 0.1 * nominal)
    ]
    return min(rows, key=lambda entry: (entry.continuous, entry.price, entry.id), default=None)
