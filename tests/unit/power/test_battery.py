"""Batteries: states, sources of resistance, strings, protection."""

from __future__ import annotations

from dataclasses import dataclass
from math import inf

import pytest

from athwart.power.battery import (
    NEW_AND_FULL,
    Protection,
    Source,
    State,
    bank_source,
    block_source,
    charging_volts,
    cold_aged_state,
    cold_resistance,
    cranking_test,
    lead_capacity_at,
    lead_capacity_factor,
    lead_rest_volts,
    load_test_least_volts,
    load_test_resistance,
    new_resistance,
    parallel_source,
    peukert_exponent,
    peukert_time,
    rest_volts,
    running_volts,
    sae_cranking,
    string_currents,
    string_source,
    usable_capacity,
    usable_energy,
)
from athwart.power.battery_data import CHEMISTRIES, chemistry
from athwart.sources import register


@dataclass(frozen=True)
class Case:
    chemistry: str = "agm"
    volts: float = 12.0
    cells: int = 6
    capacity: float = 110.0 * 3600.0
    resistance: float | None = None
    cranking: float | None = None
    cranking_standard: str | None = None


def test_resistance_comes_from_data_then_cranking_then_chemistry() -> None:
    assert new_resistance(Case(resistance=3.5e-3, cranking=800.0, cranking_standard="SAE")).resistance == 3.5e-3
    assert new_resistance(Case(cranking=750.0, cranking_standard="SAE")).resistance == pytest.approx(4e-3)
    assert new_resistance(Case(cranking=750.0, cranking_standard="EN")).resistance < 4e-3
    usual = new_resistance(Case())
    assert usual.assumed
    assert usual.resistance == pytest.approx(4e-3 * 100.0 / 110.0)
    assert new_resistance(Case(volts=6.0, cells=3)).resistance == pytest.approx(usual.resistance / 2.0)
    assert new_resistance(Case(cranking=750.0)).assumed, "a figure without its standard is no figure"


def test_no_exact_conversion_of_cranking_figures_is_pretended() -> None:
    low, usual, high = sae_cranking(420.0, "DIN")
    assert low < usual < high
    with pytest.raises(ValueError, match="there are SAE, EN, IEC, DIN"):
        sae_cranking(420.0, "JIS")
    with pytest.raises(ValueError, match="there are"):
        cranking_test("JIS")
    with pytest.raises(ValueError, match="ends below"):
        cold_resistance(700.0, 12.8)
    with pytest.raises(ValueError, match="under load"):
        load_test_resistance(700.0, 12.7)


def test_the_design_state_is_cold_old_and_part_charged() -> None:
    lead, lithium = cold_aged_state("agm"), cold_aged_state("lfp")
    assert (lead.temperature, lithium.temperature) == (273.15, 278.15)
    assert cold_aged_state("agm", 268.15).temperature == 268.15
    assert (lead.state_of_charge, lead.ageing, lead.fade) == (0.7, 1.5, 0.8)
    new, old = block_source(Case(), NEW_AND_FULL), block_source(Case(), lead)
    assert old.emf < new.emf
    assert 1.9 < old.resistance / new.resistance < 2.3


def test_a_bank_of_strings() -> None:
    one = block_source(Case(resistance=4e-3), NEW_AND_FULL)
    bank = bank_source(Case(resistance=4e-3), NEW_AND_FULL, 2, 2, link_resistance=0.2e-3, string_resistance=0.3e-3)
    assert bank.emf == pytest.approx(2.0 * one.emf)
    assert bank.resistance == pytest.approx((2 * 4e-3 + 0.2e-3 + 0.3e-3) / 2.0)


def test_unequal_strings_share_unequally_and_one_may_be_charged() -> None:
    good, tired = Source(25.4, 8e-3), Source(24.6, 20e-3)
    assert sum(string_currents([good, tired], 300.0)) == pytest.approx(300.0)
    assert string_currents([good, tired], 300.0)[0] > 200.0
    assert string_currents([good, tired], 0.0)[1] < 0.0
    whole = parallel_source([good, tired])
    assert 24.6 < whole.emf < 25.4


def test_nothing_makes_no_bank() -> None:
    with pytest.raises(ValueError, match="without blocks"):
        string_source([])
    for strings in ([], [Source(12.0, 0.0)]):
        with pytest.raises(ValueError, match="resistance each"):
            parallel_source(strings)


def test_rest_volts_end_with_their_table() -> None:
    assert rest_volts("agm", 6, 1.0, 299.85) - rest_volts("flooded", 6, 1.0, 299.85) == pytest.approx(0.15)
    with pytest.raises(ValueError, match="from 0 to 1"):
        rest_volts("flooded", 6, 1.2)
    with pytest.raises(ValueError, match="0 to 1"):
        lead_rest_volts(-0.1)
    with pytest.raises(ValueError, match="no chemistry 'nickel'"):
        chemistry("nickel")


def test_capacity_falls_in_the_cold_and_is_not_invented_beyond_the_table() -> None:
    assert lead_capacity_at(273.15, 600.0) < lead_capacity_at(273.15, 2000.0) < lead_capacity_at(273.15, 7200.0)
    assert lead_capacity_factor(273.15) == pytest.approx(0.85)
    with pytest.raises(ValueError, match="from 0 to 40"):
        lead_capacity_at(263.15)
    assert load_test_least_volts(303.15) == load_test_least_volts(293.15) == 9.6


def test_usable_charge_stops_at_the_floor() -> None:
    cold = State(273.15, 0.7, 1.5, 0.8)
    assert usable_capacity(Case(), cold) == pytest.approx(110.0 * 3600.0 * 0.8 * 0.8 * 0.2)
    assert usable_capacity(Case(), cold, 0.8) == 0.0
    assert usable_energy(36_000.0, 25.0, 0.01, 300.0) == pytest.approx(36_000.0 * 22.0)


def test_two_points_fix_peukerts_exponent() -> None:
    times = [peukert_time(360_000.0, 72_000.0, current, 1.2) for current in (10.0, 50.0)]
    assert peukert_exponent(times[0], 10.0, times[1], 50.0) == pytest.approx(1.2)
    with pytest.raises(ValueError, match="no exponent"):
        peukert_exponent(1.0, 5.0, 2.0, 5.0)


def test_charging_volts_by_stage_and_warmth() -> None:
    assert charging_volts("agm", 12) == pytest.approx(28.8)
    assert charging_volts("agm", 12, "bulk", 288.15) == pytest.approx(28.8 + 0.48)
    assert charging_volts("lfp", 8, "float", 273.15) == pytest.approx(27.0)
    assert [running_volts(nominal) for nominal in (12.0, 24.0, 48.0)] == pytest.approx([14.4, 28.8, 57.6])
    with pytest.raises(ValueError, match="bulk and float"):
        charging_volts("agm", 6, "boost")


def test_a_protection_circuit_says_how_long_it_holds_and_why_it_opens() -> None:
    circuit = Protection(200.0, 400.0, 30.0, 20.0, 273.15, 253.15)
    assert [circuit.holds_for(current) for current in (200.0, 300.0, 401.0)] == [inf, 30.0, 0.0]
    assert circuit.trips(300.0, 60.0, 24.0, 293.15) == ("current",)
    assert circuit.trips(150.0, 60.0, 19.0, 250.0) == ("low volts", "cold")
    assert circuit.trips(150.0, 600.0, 24.0, 293.15) == ()
    assert Protection().holds_for(1e4) is None
    assert Protection().trips(1e4, 1e4, 0.0, 0.0) == ()
    assert Protection(continuous=200.0).holds_for(201.0) == 0.0
    assert Protection(peak=400.0, peak_time=10.0).holds_for(100.0) == 10.0


def test_every_chemistry_is_ordered_and_sourced() -> None:
    for data in CHEMISTRIES.values():
        assert list(data.rest_volts) == sorted(data.rest_volts)
        for triple in (data.resistance_100ah, data.resistance_exponent, data.peukert):
            assert list(triple) == sorted(triple)
        assert set(data.sources.values()) <= set(register())
        assert data.is_lithium == (data.key == "lfp")
