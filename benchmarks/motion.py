"""One manoeuvre and ten thousand, as ratios measured interleaved in one run.

``python benchmarks/motion.py [ROUNDS]`` (5 rounds unless said) on a quiet machine. It is no test: nothing fails here.

What is timed
-------------
- ten thousand runs of 180 s in steps of 0.1 s, sixteen side by side, on one and on two threads, sampling included;
- one such run on plain floats, exact cross flow;
- the same run by SciPy's adaptive integrator, each step a segment of its own, as the tests use it; its row says what ten thousand
  of them in a loop would take.

Goals: two threads at least 1000 times faster than the looped integrator; one plain run under 50 ms. A hand-vectorised
reference in C++ is still to be written, so the goal of twice its time is not judged here.
"""

from __future__ import annotations

import sys
from collections.abc import Callable
from pathlib import Path
from statistics import median
from time import perf_counter
from typing import Any

import numpy as np

ROOT = Path(__file__).parents[1]
sys.path[:0] = [str(ROOT / "src"), str(ROOT)]

from athwart.plant import many  # noqa: E402
from athwart.plant.motion import Conditions, Driver, Manoeuvre, simulate  # noqa: E402
from tests.unit.plant._boats import boat, bow, gusty  # noqa: E402
from tests.worked.test_motion_in_time import reference  # noqa: E402

RUNS = 10_000
TASK = Manoeuvre("hold", "stay", 180.0, limit_heading=9.0)
DRIVER = Driver("bang-bang", look_ahead=3.0)
BOAT = boat(first=bow(2500.0))


def packed_runs() -> list[tuple[Any, Any]]:
    """Rows of all blocks."""
    blocks = []
    for block in range(RUNS // many_lanes()):
        runs = [many.Run(gusty(6.0, 0.001 * (block * 16 + i), 7 + 2 * (block * 16 + i)), DRIVER, Conditions()) for i in range(16)]
        blocks.append(many.rows(runs, TASK))
    return blocks


def many_lanes() -> int:
    """Runs in a block."""
    from athwart.plant import lanes

    return lanes.LANES


def on_threads(blocks: list[tuple[Any, Any]], pack: many.Packed, threads: int) -> float:
    """Seconds for all runs."""
    from concurrent.futures import ThreadPoolExecutor

    began = perf_counter()
    with ThreadPoolExecutor(threads) as pool:
        list(
            pool.map(
                lambda part: [many.run_block(pack, *rows) for rows in part],
                np.array_split(np.array(blocks, dtype=object), threads),
            )
        )
    return perf_counter() - began


def timed(work: Callable[[], object]) -> float:
    """Seconds of one call."""
    began = perf_counter()
    work()
    return perf_counter() - began


def say(line: str) -> None:
    """A line of the table."""
    sys.stdout.write(line + "\n")


def main(rounds: int) -> None:
    """Print the table."""
    pack, blocks = many.packed(BOAT, TASK), packed_runs()
    began = perf_counter()
    many.run_block(pack, *blocks[0])
    say(f"compiling or loading the compiled text: {perf_counter() - began:.2f} s")
    rows: dict[str, list[float]] = {"1 thread": [], "2 threads": [], "plain": [], "integrator": []}
    for _ in range(rounds):
        rows["1 thread"].append(on_threads(blocks, pack, 1))
        rows["2 threads"].append(on_threads(blocks, pack, 2))
        rows["plain"].append(RUNS * timed(lambda: simulate(BOAT, TASK, gusty(6.0, 1.0), DRIVER)))
        rows["integrator"].append(RUNS * timed(lambda: reference(BOAT, TASK, gusty(6.0, 1.0), DRIVER, TASK.duration)))
    base = median(rows["2 threads"])
    for name, values in rows.items():
        say(f"{name:12} {median(values):10.2f} s for {RUNS} runs   {median(values) / base:10.1f} times two threads")
    say(f"one plain run {median(rows['plain']) / RUNS * 1e3:.1f} ms")


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 5)
