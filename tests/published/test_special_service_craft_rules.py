"""Classification rules for special service craft, July 2022, part 3 chapter 3 section 4, thruster tunnels.

imorules.com/SSC_PT3_CH3_4.html. Read: the section. The section gives the rule;
the thicknesses are that rule worked for one shell each, to 0.05 mm.
"""

from __future__ import annotations

from functools import partial

from athwart.thruster.immersion import tunnel_wall
from athwart.thruster.installation import shell_in_way
from tests.published._check import Check, each


def wall(material: str, shell: float) -> float:
    return 1e3 * tunnel_wall(shell / 1e3, material)


ROWS = (
    ("steel", 5, "7.0"),
    ("steel", 25, "27.5"),
    ("aluminium", 6, "8.0"),
    ("aluminium", 12, "13.2"),
    ("grp", 6, "8.0"),
    ("grp", 10, "12.5"),
)
KEY = "special-service-craft-rules"
CHECKS = [
    Check(
        KEY,
        f"wall beside {shell} mm of {material}",
        theirs,
        partial(wall, material, shell),
        "mm",
        0.05,
        "part 3 chapter 3 section 4",
    )
    for material, shell, theirs in ROWS
] + [
    Check(
        KEY,
        "shell in way, over the shell beside it",
        "150",
        lambda: 100.0 * shell_in_way(1.0),
        "%",
        0.5,
        "part 3 chapter 3 section 4",
    ),
]


@each(CHECKS)
def test_a_thickness(check: Check) -> None:
    check.holds()
