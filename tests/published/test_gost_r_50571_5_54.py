"""GOST R 50571.5.54-2011 (IEC 60364-5-54), table A.54.4: k of a core in a cable or bundle, copper. ajdocs.ru/gsp/30589/14.

Read: the copper column. Its k are rounded from temperatures given beside them.
"""

from __future__ import annotations

from functools import partial

from athwart.power.heating import INSULATIONS, adiabatic_constant
from tests.published._check import Check, each

ROWS = {"pvc 70": 115, "pvc 90": 100, "xlpe 90": 143, "rubber 60": 141, "rubber 85": 134, "silicone 180": 132}
THICK = {"pvc 70": 103, "pvc 90": 86}


def constant(key: str, thick: bool) -> float:
    insulation = INSULATIONS[key]
    final = insulation.final_thick if thick else insulation.final
    assert final is not None
    return adiabatic_constant(insulation.rated, final) * 1e-6


CHECKS = [
    Check(
        source="gost-r-50571-5-54",
        place=f"table A.54.4, {key}{' above 300 mm²' if thick else ''}",
        quantity=f"k of {key}{' above 300 mm²' if thick else ''}",
        theirs=str(printed),
        ours=partial(constant, key, thick),
        unit="A·√s/mm²",
        tolerance=0.7,
        reason="the standard rounds some values down: silicone comes to 132.6 from its own temperatures",
    )
    for thick, table in ((False, ROWS), (True, THICK))
    for key, printed in table.items()
]


@each(CHECKS)
def test_a_k_of_the_table(check: Check) -> None:
    check.holds()
