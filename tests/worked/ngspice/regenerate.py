"""Run every circuit again and keep the answers: ``python -m tests.worked.ngspice.regenerate`` (needs ngspice)."""

from __future__ import annotations

import shutil
import sys
from pathlib import Path

if __name__ == "__main__":
    sys.path.insert(0, str(Path(__file__).parents[3] / "src"))
    if shutil.which("ngspice") is None:
        sys.exit("ngspice is not installed (Debian: apt-get install ngspice)")
    from tests.worked.ngspice._cases import BOATS, write_outputs

    for boat in BOATS:
        sys.stdout.write(f"{write_outputs(boat)}\n")
