"""One manoeuvre and ten thousand, as ratios measured interleaved in one run.

``python benchmarks/motion.py [ROUNDS]`` (5 rounds unless said) on a quiet machine. It is no test: nothing fails here.

What is timed
-------------
- ten thousand runs of 180 s in steps of 0.1 s, sixteen side by side, on one and on two threads, sampling included;
- the same blocks by ``benchmarks/reference.cpp``, vectorised by hand and compiled here for this machine, at equal threads; its
  results are compared first;
- one such run on plain floats, exact cross flow;
- the same run by SciPy's adaptive integrator, each step a segment of its own, as the tests use it; its row says what ten thousand
  of them in a loop would take.

Goals: within twice the reference at equal threads; two threads at least 1000 times faster than the looped integrator; one plain
run under 50 ms. Without a C++ compiler the reference is left out and said to be.
"""

from __future__ import annotations

import ctypes
import shutil
import subprocess
import sys
import tempfile
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


Block = Callable[[many.Packed, Any, Any], Any]
"""One block of runs by some method."""


def by_reference() -> Block | None:
    """The reference compiled for this machine; None without a compiler."""
    compiler = shutil.which("g++") or shutil.which("clang++")
    if compiler is None:
        return None
    source = ROOT / "benchmarks" / "reference.cpp"
    options = [
        "-O3",
        "-march=native",
        "-fno-math-errno",
        "-fno-trapping-math",
        "-ffp-contract=fast",
        "-shared",
        "-fPIC",
        "-Wno-psabi",
    ]
    with tempfile.TemporaryDirectory(prefix="reference-") as folder:
        made = Path(folder) / "reference.so"
        subprocess.run([compiler, *options, str(source), "-o", str(made)], check=True)
        work = ctypes.CDLL(str(made)).block
    work.restype = None

    def at(array: Any) -> ctypes.c_void_p:
        return ctypes.c_void_p(array.ctypes.data)

    def run(pack: many.Packed, rows: Any, seeds: Any) -> Any:
        result = np.zeros((12, many_lanes()))
        wind_x, wind_y, wind_n = pack.wind
        work(
            at(rows), at(seeds), at(pack.hull), at(pack.node_x), at(pack.node_c), len(pack.node_x), at(wind_x), at(wind_y),
            at(wind_n), len(wind_x), at(pack.losses), len(pack.losses), at(pack.bow), at(pack.task), at(result),
        )  # fmt: skip
        return result

    return run


def ours(pack: many.Packed, rows: Any, seeds: Any) -> Any:
    """A block as the program runs it."""
    return many.run_block(pack, rows, seeds)[0]


def on_threads(blocks: list[tuple[Any, Any]], pack: many.Packed, threads: int, method: Block = ours) -> float:
    """Seconds for all runs."""
    from concurrent.futures import ThreadPoolExecutor

    began = perf_counter()
    with ThreadPoolExecutor(threads) as pool:
        list(
            pool.map(
                lambda part: [method(pack, *rows) for rows in part],
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
    reference_block = by_reference()
    rows: dict[str, list[float]] = {"1 thread": [], "2 threads": [], "plain": [], "integrator": []}
    if reference_block is None:
        say("no C++ compiler: the reference is left out")
    else:
        apart = max(float(np.max(np.abs(ours(pack, *one) - reference_block(pack, *one)))) for one in blocks[:20])
        say(f"largest difference from the reference in any result of 320 runs: {apart:.1e}")
        rows |= {"reference, 1": [], "reference, 2": []}
    for _ in range(rounds):
        if reference_block is not None:
            rows["reference, 1"].append(on_threads(blocks, pack, 1, reference_block))
            rows["reference, 2"].append(on_threads(blocks, pack, 2, reference_block))
        rows["1 thread"].append(on_threads(blocks, pack, 1))
        rows["2 threads"].append(on_threads(blocks, pack, 2))
        rows["plain"].append(RUNS * timed(lambda: simulate(BOAT, TASK, gusty(6.0, 1.0), DRIVER)))
        rows["integrator"].append(RUNS * timed(lambda: reference(BOAT, TASK, gusty(6.0, 1.0), DRIVER, TASK.duration)))
    base = median(rows["2 threads"])
    for name, values in rows.items():
        say(f"{name:12} {median(values):10.2f} s for {RUNS} runs   {median(values) / base:10.1f} times two threads")
    if reference_block is not None:
        for threads, name in ((1, "1 thread"), (2, "2 threads")):
            ratio = median(rows[name]) / median(rows[f"reference, {threads}"])
            say(f"{name}: {ratio:.2f} times the reference at equal threads (goal 2)")
    say(f"one plain run {median(rows['plain']) / RUNS * 1e3:.1f} ms")


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 5)
