"""Compile the simulation of many runs ahead of its first use, and tell whether that was done.

``python -m athwart.plant.warm`` compiles.
"""

from __future__ import annotations

from importlib import import_module
from math import cos, sin
from pathlib import Path

from athwart.plant.motion import Boat, Manoeuvre


def is_warm() -> bool:
    """Whether compiled code lies in the store of the compiler. Does not import the compiler where it can be seen without."""
    beside = Path(__file__).with_name("__pycache__")
    if any(beside.glob("lanes.block*.nbi")):
        return True
    lanes = import_module("athwart.plant.lanes")
    return any(Path(str(lanes.block.stats.cache_path)).glob("lanes.block*.nbi"))


def warm() -> None:
    """Run one block of one second, which compiles and stores what all later runs load."""
    import numpy as np

    from athwart.plant import lanes, many

    boat, task = _any()
    pack = many.packed(boat, task)
    rows = np.ones((lanes.RUN_SIZE, lanes.LANES))
    many.run_block(pack, rows, np.ones(lanes.LANES, dtype=np.uint64))


def _any() -> tuple[Boat, Manoeuvre]:
    """A boat and a task of no importance: the compiled code is the same for all."""
    from athwart.plant.motion import Pusher, SteadyThrust
    from athwart.vessel.harmonics import harmonics
    from athwart.vessel.loads import WindLoad
    from athwart.vessel.underwater import Dimensions, hull_in_water

    hull = hull_in_water(Dimensions("tender", 6.0, 2.0, 0.4, 1500.0))
    pusher = Pusher(2.0, SteadyThrust(100.0, 100.0), 5.0, 0.3, 0.5, "on/off")
    wind = harmonics(lambda angle: WindLoad(angle, -cos(angle), -sin(angle), 0.0, 0.0, 0.0), 1.0, 6.0)
    return Boat(hull, wind, pusher), Manoeuvre("stay", "stay", 1.0)


if __name__ == "__main__":
    warm()
