"""Principles of Yacht Design, figure 9.2: windage of a rig, on boatbuilding.xyz. Read: the figure with its numbers.

Standing rigging of a 12 m yacht: 76.7 m of 8 mm and 23.9 m of 10 mm wire, drag 1.2, air 1.29 kg/m³, 18.6 m/s.
"""

from __future__ import annotations

from athwart.vessel.element_sum import drag_area_of_wire
from athwart.vessel.wind import dynamic_pressure
from tests.published._check import Check, each


def rigging() -> float:
    return drag_area_of_wire(1.2, 76.7, 0.008) + drag_area_of_wire(1.2, 23.9, 0.010)


CHECKS = [
    Check("yacht-design-textbook", "drag area of the standing rigging", "1.02312", rigging, "m²", 5e-6,
          place="figure 9.2: product of its numbers"),
    Check("yacht-design-textbook", "drag of the standing rigging", "228.3", lambda: dynamic_pressure(18.6, 1.29) * rigging(),
          "N", 0.05, place="figure 9.2: product of its numbers"),
]  # fmt: skip


@each(CHECKS)
def test_the_rig_of_the_textbook(check: Check) -> None:
    check.holds()
