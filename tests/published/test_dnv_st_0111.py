"""DNV-ST-0111, Assessment of station keeping capability of dynamic positioning vessels, edition December 2021.

Not read itself: read as transcribed, with worked numbers, in a student project (github.com/WilliamBoland1/Prosjektoppgave_Collab
@28c00c2): thrust.md (sections 3.9.1 to 3.9.4), tests/models/test_environmental_loads.py (level 1 wind), rudders. The project's
axes have y to port and yaw positive bow to port; sizes are compared.
"""

from __future__ import annotations

from functools import partial
from math import radians

from athwart.thruster.disc import CLASS_CONSTANTS, CLASS_INLETS, CLASS_REVERSED, ClassUnit, class_thrust, class_thrust_of
from athwart.thruster.tunnel import entry_loss, loss_sum, thrust_share
from athwart.vessel.balance import rudder_coefficient, rudder_side_force, thrust_behind_rudder
from athwart.vessel.second_opinions import (
    class_current_side_force,
    class_longitudinal_force,
    class_place_of_current,
    class_place_of_side_force,
    class_side_force,
)
from tests.published._check import Check, each

SOURCE = "dnv-st-0111"


def kilonewtons(brake_power: float, diameter: float, factor: float, unit: ClassUnit) -> float:
    return class_thrust(brake_power, diameter, 0.93, factor, CLASS_CONSTANTS[unit]) / 1000.0


def yaw_moment(degrees: float) -> float:
    angle = radians(degrees)
    return class_side_force(10.0, 800.0, angle) * class_place_of_side_force(5.0, 80.0, angle)


def current_moment(degrees: float) -> float:
    angle = radians(degrees)
    return class_current_side_force(1.0, 490.0, angle) * class_place_of_current(-1.5, 80.0, angle)


def rounding_gain() -> float:
    reference = loss_sum(entry_loss(0.05), 3.0, 1.0)
    return thrust_share(reference, 1.71)


ROWS: tuple[tuple[str, str, float, float, float, ClassUnit, str], ...] = (
    ("tunnel 2.0 m, 900 kW, rounded inlet", "135.77", 900e3, 2.0, CLASS_INLETS["rounded"], "tunnel", "3.9.1, worked example"),
    ("tunnel 2.0 m, 900 kW, coned inlet", "126.89", 900e3, 2.0, CLASS_INLETS["coned"], "tunnel", "3.9.1, worked example"),
    ("ducted 3.0 m, 2000 kW", "377.52", 2000e3, 3.0, 1.0, "ducted", "3.9.1, worked example"),
    ("ducted 3.0 m, 2000 kW, reversed", "264.26", 2000e3, 3.0, CLASS_REVERSED["ducted"], "ducted", "3.9.1, worked example"),
    ("open 1.8 m, 800 kW", "97.20", 800e3, 1.8, 1.0, "open propeller", "3.9.1, second worked example"),
    (
        "open 1.8 m, 800 kW, reversed",
        "87.48",
        800e3,
        1.8,
        CLASS_REVERSED["open propeller"],
        "open propeller",
        "3.9.1, second worked example",
    ),
)

NOMINAL = [
    Check(
        SOURCE, f"nominal thrust, {what}", theirs, partial(kilonewtons, power, diameter, factor, unit), "kN", 0.005, place=place
    )
    for what, theirs, power, diameter, factor, unit, place in ROWS
]

EFFECTIVE = [
    Check(
        SOURCE,
        "effective thrust, tunnel 2.0 m, 900 kW, rounded inlet",
        "122.19",
        lambda: class_thrust_of(900e3, 2.0, inlet="rounded") / 1000.0,
        "kN",
        0.005,
        place="3.9.3, worked example",
    ),
    Check(
        SOURCE,
        "effective thrust, tunnel 2.0 m, 900 kW, coned inlet",
        "114.20",
        lambda: class_thrust_of(900e3, 2.0, inlet="coned") / 1000.0,
        "kN",
        0.005,
        place="3.9.3, worked example",
    ),
    Check(
        SOURCE,
        "effective thrust, 200 kW unit of 1.0 m of a 36 m vessel, coned inlet",
        "26393",
        lambda: class_thrust_of(200e3, 1.0, inlet="coned"),
        "N",
        0.5,
        place="3.9.1 and 3.9.3: figure worked from the formula",
    ),
    Check(
        SOURCE,
        "gain of rounding an entry by 0.05 D against a sharp one",
        "1.1505",
        rounding_gain,
        "1",
        0.02,
        place="3.9.1, inlet factors 1.07 over 0.93",
        reason="their two factors hold for all tunnels; ours is a loss sum of one tunnel, a different method",
    ),
]

WIND = (
    [
        Check(
            SOURCE,
            f"longitudinal wind force at {degrees}°",
            theirs,
            partial(class_longitudinal_force, 10.0, 200.0, radians(degrees)),
            "N",
            0.05,
            place="level 1 wind, test_environmental_loads.py",
        )
        for degrees, theirs in ((0, "-8582.0"), (45, "-6068.4"), (90, "0.0"))
    ]
    + [
        Check(
            SOURCE,
            f"side wind force at {degrees}°",
            theirs,
            partial(class_side_force, 10.0, 800.0, radians(degrees)),
            "N",
            0.05,
            place="level 1 wind, test_environmental_loads.py",
        )
        for degrees, theirs in ((0, "0.0"), (45, "31208.9"), (90, "44136.0"))
    ]
    + [
        Check(
            SOURCE,
            f"yaw moment at {degrees}°",
            theirs,
            partial(yaw_moment, degrees),
            "N·m",
            0.5,
            place="level 1 wind, test_environmental_loads.py",
        )
        for degrees, theirs in ((0, "0"), (45, "530551"), (90, "220680"))
    ]
    + [
        Check(
            SOURCE,
            f"lever at {degrees}°",
            theirs,
            partial(class_place_of_side_force, 5.0, 80.0, radians(degrees)),
            "m",
            0.05,
            place="level 1 wind, test_environmental_loads.py",
        )
        for degrees, theirs in ((0, "29.0"), (45, "17.0"), (90, "5.0"))
    ]
)

CURRENT = [
    Check(
        SOURCE,
        f"side force of a current of 1 m/s on 490 m² at {degrees}°",
        theirs,
        partial(class_current_side_force, 1.0, 490.0, radians(degrees)),
        "N",
        1.0,
        place="level 1 current, test_environmental_loads.py",
        reason="the same formula; one newton for what they rounded",
    )
    for degrees, theirs in ((0, "0"), (30, "75411"), (45, "106647.259"), (90, "150822"), (150, "75411"))
] + [
    Check(
        SOURCE,
        f"yaw moment of that current at {degrees}°",
        theirs,
        partial(current_moment, degrees),
        "N·m",
        20.0,
        place="level 1 current, test_environmental_loads.py",
        reason="the same formula; some newton metres for what they rounded",
    )
    for degrees, theirs in ((30, "1395103.5"), (45, "1546385.255"), (90, "-226233"), (150, "-1319692.5"))
]

RUDDER = [
    Check(
        SOURCE,
        f"{what}, rudder area {ratio} D², 30° of helm",
        theirs,
        partial(law, 1.0, rudder_coefficient(1.1, 1.0, ratio), 30.0),
        "1",
        5e-5,
        place="rudders: figure worked from the formula",
    )
    for what, law, ratio, theirs in (
        ("side force over thrust", rudder_side_force, 1.0, "0.4158"),
        ("side force over thrust", rudder_side_force, 1.3, "0.5405"),
        ("thrust left", thrust_behind_rudder, 1.0, "0.7505"),
        ("thrust left", thrust_behind_rudder, 1.3, "0.6757"),
    )
]

CHECKS = NOMINAL + EFFECTIVE + WIND + CURRENT + RUDDER


@each(CHECKS)
def test_a_figure_of_the_class_rule(check: Check) -> None:
    check.holds()
