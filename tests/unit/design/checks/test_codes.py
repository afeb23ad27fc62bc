"""Every finding code fires on a boat with its fault and stays silent on one without."""

from __future__ import annotations

from dataclasses import replace

import pytest

from athwart.design.checks import evidence, registry
from athwart.design.proposal import Proposal
from athwart.findings import CODES, Finding
from tests.unit.design.checks._boats import codes, proposal
from tests.unit.design.checks._cases import DAY, FIRES, FOUND, JOINED, NEW, SAILING, SOUND, Case

registry.load()

SILENT: dict[str, Case] = {
    "NEED-04": SAILING,
    "NEED-11": JOINED,
    "NEED-20": SAILING,
    "STOP-05": ("1", "propose", {"helms[0].seconds_to_main_switch": "4 s", "helms[1].seconds_to_main_switch": "3 s"}),
    "PROOF-02": (
        "1",
        "propose",
        {
            "propulsion": None,
            "water": None,
            "duty.dockings_per_season": None,
            "supply.batteries[0].age_years": None,
            "supply.batteries[1].age_years": None,
        },
    ),
}
"""Silent boats of codes that are heard on a plain example 1; all others stay silent there."""
DIRECT = frozenset(
    {"BANK-12", "DRIVE-13", "VOLTS-02", "CARE-02", "TUNNEL-16", "NEED-23", "REHEARSE-01", "REHEARSE-02", "REHEARSE-03"}
)
"""Codes that the built-in catalogue gives no cause for, or that only rehearsals give; tested below with such."""


def test_every_code_has_a_boat() -> None:
    assert set(FIRES) | DIRECT == set(CODES)
    assert len(CODES) >= 60


@pytest.mark.parametrize("code", sorted(FIRES))
def test_it_fires(code: str) -> None:
    example, mode, changes = FIRES[code]
    assert code in codes(proposal(example, changes, mode))  # type: ignore[arg-type]


@pytest.mark.parametrize("code", sorted(set(FIRES) - {"PROOF-01"}))
def test_it_stays_silent(code: str) -> None:
    example, mode, changes = SILENT.get(code, NEW)
    assert code not in codes(proposal(example, changes, mode))  # type: ignore[arg-type]


def test_proof_01_is_silent_where_all_is_verified() -> None:
    example, mode, changes = NEW
    sure = replace(proposal(example, changes, mode), unverified=("equipment rows are invented",))  # type: ignore[arg-type]
    assert not list(evidence.to_be_verified(sure))


@pytest.mark.parametrize("boat", [NEW, SAILING, DAY, JOINED, FOUND], ids=["new", "sailing", "day", "joined", "found"])
def test_sound_boats_have_no_stop_and_few_words(boat: Case) -> None:
    found = proposal(boat[0], boat[2], boat[1]).findings  # type: ignore[arg-type]
    assert not [finding.code for finding in found if finding.severity == "stop"]
    assert len(found) <= 15


def _all(p: Proposal) -> list[Finding]:
    return list(registry.examine(p))


def _own_rows(p: Proposal, **unit: object) -> Proposal:
    lane = replace(p.lanes[0], unit=replace(p.lanes[0].unit, **unit))  # type: ignore[arg-type]
    return replace(p, lanes=(lane, *p.lanes[1:]))


def _own_block(p: Proposal, **block: object) -> Proposal:
    bank = replace(p.banks[0], block=replace(p.banks[0].block, **block))  # type: ignore[arg-type]
    return replace(p, banks=(bank, *p.banks[1:]))


def test_drive_13_fires_for_a_unit_of_unknown_noise() -> None:
    quiet = proposal("4", {})
    assert "DRIVE-13" not in {f.code for f in _all(quiet)}
    assert "DRIVE-13" in {f.code for f in _all(_own_rows(quiet, noise=None))}


def test_care_02_fires_for_a_case_nobody_knows_of() -> None:
    plain = proposal("1", {})
    assert "CARE-02" not in {f.code for f in _all(plain)}
    assert "CARE-02" in {f.code for f in _all(_own_rows(plain, isolated_case=None))}


def test_bank_12_fires_for_blocks_that_may_not_be_so_cold() -> None:
    cold = proposal("4", {"duty.coldest_bank": "-15 °C"})
    assert "BANK-12" not in {f.code for f in _all(cold)}
    assert "BANK-12" in {f.code for f in _all(_own_block(cold, discharge_coldest=273.15))}


def test_volts_02_fires_above_touch_volts() -> None:
    day = proposal("4", {})
    high = replace(day, banks=(replace(day.banks[0], charging_volts=62.0),))
    assert "VOLTS-02" not in {f.code for f in _all(day)}
    assert "VOLTS-02" in {f.code for f in _all(high)}


def test_an_override_turns_a_stop_into_a_caution_that_gives_its_reason() -> None:
    reason = "hauled every spring, seen by a surveyor"
    changes = {"choices.overrides": [{"finding": "BANK-05", "reason": reason}]}
    found = [f for f in proposal("6", changes, "check").findings if f.code == "BANK-05"]
    assert found
    assert all(f.severity == "caution" and reason in f.what for f in found)


def test_every_finding_names_what_to_do_and_where_it_comes_from() -> None:
    for example, mode in (("6", "check"), ("7", "propose")):
        for finding in proposal(example, {}, mode).findings:  # type: ignore[arg-type]
            assert finding.remedy
            assert finding.where
            assert finding.source
            assert "nan" not in f"{finding.value}{finding.limit}"


def test_fast_tips_are_a_note() -> None:
    example, mode, changes = NEW
    p = proposal(example, changes, mode)  # type: ignore[arg-type]
    assert "TUNNEL-16" not in codes(p)
    assert "TUNNEL-16" in {f.code for f in _all(_own_rows(p, tunnel_diameter=0.110))}


def _rehearsed(p: Proposal, runs: int = 96) -> Proposal:
    from athwart.design.robustness.rehearsal import rehearse_all

    done, left_out = rehearse_all(p, runs)
    return replace(p, rehearsals=done, not_rehearsed=left_out)


def test_rehearsals_that_fail_often_are_found_with_their_cause() -> None:
    weak = _rehearsed(proposal("1", {"wind.speed": "17 kn"}, "propose"))
    found = [f for f in _all(weak) if f.code == "REHEARSE-01"]
    shares = {r.exercise.name: r.success.value for r in weak.rehearsals}
    assert {f.what.split(":")[0] for f in found} == {name for name, share in shares.items() if share < 0.8}
    assert all("fails by" in f.what for f in found)
    sure = replace(weak, rehearsals=tuple(r for r in weak.rehearsals if r.success.value >= 0.8))
    assert "REHEARSE-01" not in {f.code for f in _all(sure)}


def test_heat_and_time_on_in_rehearsals_are_found() -> None:
    p = _rehearsed(proposal("1", {}, "propose"))
    lane = p.lanes[0]
    hot = replace(p, lanes=(replace(lane, unit=replace(lane.unit, rated_time=4.0)),))
    assert "REHEARSE-02" not in {f.code for f in _all(p)}
    assert "REHEARSE-02" in {f.code for f in _all(_rehearsed(hot))}
    assert "REHEARSE-03" not in {f.code for f in _all(p)}
    short = replace(p, need=replace(p.need, energy_share=2.0))
    assert "REHEARSE-03" in {f.code for f in _all(short)}


def test_cases_that_could_not_be_balanced_are_told_with_the_reason() -> None:
    p = proposal("1", {}, "propose")
    assert "NEED-23" not in codes(p)
    found = [f for f in _all(replace(p, cases=(), no_cases="outside validity: such a hull")) if f.code == "NEED-23"]
    assert [f.what for f in found] == ["Outside validity: such a hull."]


def test_a_current_that_takes_her_is_a_stop_and_no_yes() -> None:
    weak, strong = (proposal("7", {**SOUND, "water.current": speed}, "check") for speed in ("0.2 kn", "1.5 kn"))
    assert "With the current of 1.5 kn" in strong.answers[0].remark
    assert strong.answers[0].verdict == "no"
    fair, foul = (proposal("1", {"water.current": speed}, "propose") for speed in ("0.5 kn", "2.5 kn"))
    assert fair.answers[0].sentence.startswith("Yes")
    assert not foul.answers[0].sentence.startswith("Yes")
    assert [f.severity for f in strong.findings if f.code == "NEED-14"] == ["stop"]
    assert [f.severity for f in weak.findings if f.code == "NEED-14"] == ["note"]


def test_a_boat_that_would_fall_over_is_a_stop() -> None:
    p = proposal("1", {"boat.metacentric_height": "0.02 m"}, "propose")
    assert p.need.heel is None
    assert [f.severity for f in p.findings if f.code == "TUNNEL-15"] == ["stop"]


def test_heel_takes_from_what_a_shallow_tunnel_gives() -> None:
    stiff, tender = (
        proposal("7", {**SOUND, "boat.metacentric_height": height, "thrusters[0].tunnel.axis_depth": "0.2 m"}, "check").lanes[0]
        for height in ("1.6 m", "0.2 m")
    )
    assert stiff.thruster == tender.thruster
    assert tender.immersion_factor < stiff.immersion_factor


def test_a_unit_is_chosen_for_the_current_as_well() -> None:
    still, stream = (proposal("1", changes, "propose") for changes in ({}, {"water.current": "0.8 kn"}))
    case = stream.need.ruling("bow")
    assert case.with_current is not None
    assert case.with_current > case.worst
    assert stream.lanes[0].unit.thrust > still.lanes[0].unit.thrust
    assert stream.lanes[0].design is not None
    assert stream.lanes[0].design.thrust >= case.with_current
    held = next(h for h in stream.cases if h.case == "B")
    assert case.with_current == pytest.approx(held.need_current, rel=0.01)


def test_headings_that_ask_nothing_are_held_by_anything() -> None:
    p = proposal("1", {"wind.headings": ["0 deg"]}, "propose")
    assert p.answers[0].sentence.startswith("Yes")
    assert p.lanes[0].chance == 1.0
