"""Our own arithmetic and values from memory: areas of gauges in square millimetres, nobody's published figures."""

from __future__ import annotations

import pytest

from athwart.units import parse

FROM_MEMORY = {"2": 33.63, "0": 53.48, "00": 67.43, "0000": 107.22}
OUR_ARITHMETIC = {"10": 5.26, "6": 13.30, "4": 21.15, "1/0": 53.48, "3/0": 85.03}


@pytest.mark.parametrize(("size", "area"), [*FROM_MEMORY.items(), *OUR_ARITHMETIC.items()])
def test_an_awg_size_has_the_remembered_area(size: str, area: float) -> None:
    assert parse(f"{size} AWG", "conductor") * 1e6 == pytest.approx(area, abs=0.006)
