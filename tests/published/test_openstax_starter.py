"""Open college physics textbook, automobile starter problem: collegephysicsanswers.com. Read: the problem and its answers.

12.0 V behind 0.0100 Ω on a motor of 0.0500 Ω; then 0.0900 Ω of corroded connections besides.
"""

from __future__ import annotations

from functools import partial

from athwart.plant.circuit import Circuit, Resistor, Source, solve
from tests.published._check import Check, each


def starter(corrosion: float, figure: str) -> float:
    answer = solve(
        Circuit(
            (Resistor("joint", "battery", "motor", corrosion), Resistor("motor", "motor", "ground", 0.0500)),
            (Source("battery", "battery", "ground", 12.0, 0.0100),),
        )
    )
    current, volts = answer.currents["motor"], answer.volts["motor"]
    return {"current": current, "volts": volts, "power": current * volts}[figure]


CHECKS = [
    Check(
        source="openstax-starter",
        place=f"corroded connections of {corrosion:g} Ω",
        quantity=f"{figure} of the motor, {corrosion:g} Ω of corrosion",
        theirs=text,
        ours=partial(starter, corrosion, figure),
        unit=unit,
        tolerance=0.5 * 10.0 ** -len(text.partition(".")[2]),
    )
    for corrosion, texts in ((0.0, ("200", "10.0", "2000")), (0.0900, ("80", "4.0", "320")))
    for (figure, unit), text in zip((("current", "A"), ("volts", "V"), ("power", "W")), texts, strict=True)
]


@each(CHECKS)
def test_the_corroded_starter(check: Check) -> None:
    check.holds()
