"""Cold process times of the commands, as ratios to a bare interpreter.

Run it on a quiet machine: ``python benchmarks/cold.py [ROUNDS]`` (9 rounds unless said). Every round starts each command once,
one after the other, so that a slow minute of the machine falls on all of them; the figure is the median of the rounds. It is no
test: times depend on the machine, and nothing fails here.

Budgets
-------
- ``athwart --help``: at most 5 times a bare interpreter. Missed, and known: importing click alone costs more than that;
  the line ``import click`` of the table shows its share. Below it athwart imports nothing but its own list of commands.
- ``athwart propose`` of any example: under 1.5 s. The drawing, typesetting and spreadsheet libraries are imported only where
  papers are asked for.
- ``athwart propose --papers``: no budget of its own here; the typesetting engine is most of it.
"""

from __future__ import annotations

import os
import subprocess
import sys
import tempfile
from collections.abc import Callable
from pathlib import Path
from statistics import median
from time import perf_counter

ROOT = Path(__file__).parents[1]
PROPOSE_MOST = 1.5
HELP_MOST = 5.0
ENVIRONMENT = os.environ | {"PYTHONPATH": str(ROOT / "src"), "PYTHONHASHSEED": "0"}


def commands(folder: Path) -> dict[str, list[str]]:
    """What is timed, by its name in the table."""
    athwart = [sys.executable, "-m", "athwart"]
    examples = sorted((ROOT / "examples").glob("*.yaml"))
    found = {
        "bare interpreter": [sys.executable, "-c", "pass"],
        "import click": [sys.executable, "-c", "import click"],
        "athwart --help": [*athwart, "--help"],
    }
    found |= {f"propose {file.stem}": [*athwart, "propose", str(file)] for file in examples}
    found[f"propose {examples[0].stem} --papers"] = [*athwart, "propose", str(examples[0]), "--papers", str(folder / "papers")]
    return found


def once(command: list[str]) -> tuple[float, int]:
    """Seconds of one run and its exit code."""
    start = perf_counter()
    done = subprocess.run(command, env=ENVIRONMENT, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, check=False)
    return perf_counter() - start, done.returncode


def budget(name: str, seconds: float, ratio: float) -> str:
    """What the table says of a line's budget."""
    if name == "athwart --help":
        return f"at most {HELP_MOST:g} x: {'kept' if ratio <= HELP_MOST else 'missed, known: click itself'}"
    if name.startswith("propose") and "--papers" not in name:
        return f"under {PROPOSE_MOST:g} s: {'kept' if seconds < PROPOSE_MOST else 'MISSED'}"
    return ""


def measure(rounds: int, folder: Path, say: Callable[[str], object]) -> None:
    """Time everything and print the table."""
    timed = commands(folder)
    times: dict[str, list[float]] = {name: [] for name in timed}
    codes: dict[str, int] = {}
    for command in timed.values():
        once(command)  # byte code compiled, files in the cache: cold is the process, not the disk
    for _ in range(rounds):
        for name, command in timed.items():
            seconds, codes[name] = once(command)
            times[name].append(seconds)
    bare = median(times["bare interpreter"])
    wide = max(map(len, timed))
    say(f"{'command':<{wide}}  {'median ms':>9}  {'of bare':>7}  exit  budget")
    for name in timed:
        seconds = median(times[name])
        ratio = seconds / bare
        line = f"{name:<{wide}}  {seconds * 1e3:9.0f}  {ratio:6.1f}x  {codes[name]:4d}  {budget(name, seconds, ratio)}"
        say(line.rstrip())


if __name__ == "__main__":
    with tempfile.TemporaryDirectory() as made:
        measure(int(sys.argv[1]) if len(sys.argv) > 1 else 9, Path(made), lambda line: sys.stdout.write(line + "\n"))
