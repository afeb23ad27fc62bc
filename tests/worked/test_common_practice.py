"""What the trade takes for granted: COMMON PRACTICE, NO SOURCE."""

from __future__ import annotations

from math import degrees

import pytest

from athwart.vessel import balance, blendermann, loads
from athwart.vessel.balance import Demand
from athwart.vessel.wind import WindAsked, design_wind
from athwart.vessel.windage import Windage, area_with_centroid

# ---- thrust for an 18 m motor yacht: 48 m² from the side, 14.4 m² from ahead, 20 kn on deck, steady and uniform, stern made fast


@pytest.fixture
def yacht() -> Demand:
    """The boat, with her thruster 0.42 of the length forward of amidships."""
    boat = Windage((area_with_centroid("silhouette", "hull", 48.0, 0.0, 1.5, frontal_area=14.4),), 18.0)
    wind = design_wind(WindAsked(10.29, "on deck", "mean", gust_factor=1.0), boat)
    model = blendermann.model(blendermann.ROWS["speed boat"], boat, wind.pressure)
    return balance.one_end_held(model, loads.all_round(), 0.42 * 18.0, -9.0)


def test_an_18_m_motor_yacht_needs_what_the_trade_fits_on_the_beam(yacht: Demand) -> None:
    assert 1400.0 <= yacht.beam_thrust <= 1650.0
    assert 1100.0 <= yacht.beam_thrust <= 1800.0, "what the trade fits to such a boat"


def test_an_18_m_motor_yacht_needs_more_at_her_worst_heading(yacht: Demand) -> None:
    assert 1800.0 <= yacht.worst_thrust <= 2100.0
    assert 50.0 <= degrees(yacht.worst_angle) <= 60.0
