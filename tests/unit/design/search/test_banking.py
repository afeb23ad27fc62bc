"""Banks: order of candidates, the wishes of a brief, the design state, links and strings."""

from __future__ import annotations

import pytest

from athwart.design.search import banking
from athwart.errors import NotComputed
from athwart.power.contact import JOINTS
from tests.unit.design.checks._boats import brief
from tests.unit.design.search._tasks import CATALOGUE, block, cable, fuse

ANY = banking.Wish("bank", "here", ("bow",), (), None, None)
LINK = cable("70mm2-105C")


def test_candidates_come_lightest_first_and_make_the_volts() -> None:
    found = list(banking.candidates(CATALOGUE, ANY, 24.0, 3))
    masses = [entry.mass * series * parallel for entry, series, parallel in found]
    assert masses == sorted(masses)
    assert all(entry.volts * series == pytest.approx(24.0, rel=0.09) for entry, series, _ in found)
    assert {parallel for _, _, parallel in found} == {1, 2, 3}


def test_starting_blocks_only_where_they_are_asked_for() -> None:
    assert not any(entry.chemistry == "starting" for entry, _, _ in banking.candidates(CATALOGUE, ANY, 12.0, 1))
    asked = banking.Wish("bank", "here", ("bow",), ("starting",), None, None)
    assert {entry.chemistry for entry, _, _ in banking.candidates(CATALOGUE, asked, 12.0, 1)} == {"starting"}


def test_a_series_beyond_what_the_block_allows_is_no_candidate() -> None:
    found = {(entry.id, series) for entry, series, _ in banking.candidates(CATALOGUE, ANY, 48.0, 1)}
    assert ("lfp-12V-100Ah", 4) in found
    assert ("lfp-24V-100Ah", 2) in found
    assert ("agm-6V-200Ah", 8) in found
    at_96 = {entry.id for entry, _, _ in banking.candidates(CATALOGUE, ANY, 96.0, 1)}
    assert "lfp-24V-100Ah" not in at_96


def test_strings_stop_at_the_brief_s_limit() -> None:
    assert {parallel for _, _, parallel in banking.candidates(CATALOGUE, ANY, 24.0, 1)} == {1}


def test_a_thruster_that_no_bank_feeds_gets_one_at_its_own_place() -> None:
    wishes = banking.wishes(brief("7", {"bank[1]": None}))
    assert [(wish.name, wish.place) for wish in wishes] == [("bow bank", "bow locker"), ("stern bank", "transom box")]
    assert wishes[1].given is None


def test_wear_beyond_five_years_grows_to_double_at_ten_and_no_further() -> None:
    boat, row = brief("1"), block("agm-12V-110Ah")
    young, five, seven, ten, old = (banking.worn_state(boat, row, age, False) for age in (None, 5.0, 7.5, 10.0, 25.0))
    assert young == five
    assert (five.ageing, five.fade) == pytest.approx((1.5, 0.8))
    assert (seven.ageing, seven.fade) == pytest.approx((1.5 * 1.5, 0.8 / 1.5))
    assert (ten.ageing, ten.fade) == pytest.approx((3.0, 0.4))
    assert old == ten


def test_blocks_of_unlike_age_cost_a_quarter_more_resistance() -> None:
    boat, row = brief("1"), block("agm-12V-110Ah")
    assert banking.worn_state(boat, row, None, True).ageing == pytest.approx(1.25 * 1.5)


def test_the_design_state_is_lower_and_stiffer_than_new() -> None:
    boat = brief("1")
    found = banking.bank(boat, banking.wishes(boat)[0], block("agm-12V-110Ah"), 2, 1, LINK)
    assert found.open_volts_design < found.open_volts_new
    assert found.resistance_design > 1.5 * found.resistance_new
    assert found.capacity_design < found.capacity


def test_a_colder_bank_stands_lower_and_gives_less() -> None:
    cold, mild = brief("1", {"duty.coldest_bank": "-5 °C"}), brief("1", {"duty.coldest_bank": "15 °C"})
    a, b = (banking.bank(boat, banking.wishes(boat)[0], block("agm-12V-110Ah"), 2, 1, LINK) for boat in (cold, mild))
    assert a.open_volts_design < b.open_volts_design
    assert a.resistance_design > b.resistance_design
    assert a.capacity_design < b.capacity_design


@pytest.mark.parametrize("degrees", ["-25 °C", "70 °C"])
def test_a_bank_colder_or_hotter_than_is_known_is_not_computed(degrees: str) -> None:
    boat = brief("1", {"duty.coldest_bank": degrees})
    with pytest.raises(NotComputed, match=f"coldest_bank {degrees}: what is known of agm blocks runs from -20 to 40 °C"):
        banking.bank(boat, banking.wishes(boat)[0], block("agm-12V-110Ah"), 2, 1, LINK)


def test_one_string_without_bars_has_nothing_between_block_and_lane() -> None:
    assert banking.string_extra(LINK, 1, False, None) == 0.0


def test_a_string_between_bars_counts_its_pieces_lugs_and_fuse() -> None:
    lug, row = JOINTS["lug"].usual, fuse("marine-strip-400A")
    assert banking.string_extra(LINK, 1, True, None) == pytest.approx(0.6 * LINK.resistance_per_metre + 4 * lug)
    cold = 0.7 * LINK.resistance_per_metre + 6 * lug + row.resistance
    hot = 0.7 * LINK.resistance_per_metre * (1 + 0.00393 * 30) + 6 * lug + 1.5 * row.resistance
    assert banking.string_extra(LINK, 2, False, row) == pytest.approx(cold)
    assert banking.string_extra(LINK, 2, False, row, hot=True) == pytest.approx(hot)


def test_two_strings_halve_the_resistance_of_one_between_bars() -> None:
    boat = brief("1", {"bank[0].mid_tap_load": "1 A"})
    wish = banking.wishes(boat)[0]
    one, two = (banking.bank(boat, wish, block("agm-12V-110Ah"), 2, parallel, LINK) for parallel in (1, 2))
    assert two.resistance_new == pytest.approx(one.resistance_new / 2)
    assert two.capacity == pytest.approx(2 * one.capacity)
    assert two.fault_current_most == pytest.approx(2 * one.fault_current_most)
