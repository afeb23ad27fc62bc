"""Compiling ahead, and that one run on plain numbers asks for no array library."""

from __future__ import annotations

import subprocess
import sys

from athwart.plant.warm import is_warm, warm

PLAIN = """
import sys
from athwart.plant.manoeuvres import Size, exercises
from athwart.plant.motion import Driver, simulate
from athwart.plant import warm
found = {name.split('.')[0] for name in sys.modules}
print(sorted(found & {'numpy', 'scipy', 'numba', 'llvmlite', 'pandas'}))
"""


def test_what_is_compiled_is_found_again() -> None:
    warm()
    assert is_warm()


def test_one_run_imports_no_array_library() -> None:
    out = subprocess.run([sys.executable, "-c", PLAIN], check=True, capture_output=True, text=True).stdout
    assert out.strip() == "[]"
