"""IEEE 946-2020, annex D, in an excerpt of a copy (address left out). Read: time constant, feed of a running motor."""

from __future__ import annotations

from athwart.power.fault import battery_time_constant, motor_feed
from tests.published._check import Check, each

CHECKS = [
    Check(
        source="ieee-946",
        place="annex D, example",
        quantity="time constant of a battery that peaks after 11 ms",
        theirs="2.2",
        ours=lambda: battery_time_constant(11e-3) * 1e3,
        unit="ms",
        tolerance=0.05,
    ),
    Check(
        source="ieee-946",
        place="annex D, motors",
        quantity="least feed of a running motor, times its rated current",
        theirs="7",
        ours=lambda: motor_feed(300.0)[0] / 300.0,
        unit="1",
        tolerance=0.5,
    ),
    Check(
        source="ieee-946",
        place="annex D, motors",
        quantity="most feed of a running motor, times its rated current",
        theirs="10",
        ours=lambda: motor_feed(300.0)[1] / 300.0,
        unit="1",
        tolerance=0.5,
    ),
]


@each(CHECKS)
def test_a_figure_of_the_annex(check: Check) -> None:
    check.holds()
