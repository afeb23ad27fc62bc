"""Settings of every test: Hypothesis without chance or clock, one printed seed, one switch for the circuit simulator."""

from __future__ import annotations

import os
import random
import shutil

import pytest
from hypothesis import HealthCheck, settings

SEED = 20_260_101
"""Seed of every test that draws numbers without Hypothesis."""

settings.register_profile("ci", derandomize=True, deadline=None, print_blob=True, suppress_health_check=[HealthCheck.too_slow])
settings.register_profile("explore", derandomize=False, deadline=None, print_blob=True, max_examples=2_000)
settings.load_profile(os.environ.get("HYPOTHESIS_PROFILE", "ci"))


def pytest_report_header() -> list[str]:
    """What a reader needs to repeat the run."""
    profile = os.environ.get("HYPOTHESIS_PROFILE", "ci")
    simulator = shutil.which("ngspice") or "not installed"
    return [f"seed: {SEED}, hypothesis profile: {profile}, circuit simulator: {simulator}"]


def pytest_runtest_setup(item: pytest.Item) -> None:
    """A test marked ``ngspice`` is skipped without the simulator, unless the run must not go without it."""
    if item.get_closest_marker("ngspice") is None or shutil.which("ngspice"):
        return
    if os.environ.get("ATHWART_REQUIRE_NGSPICE") == "1":
        pytest.fail("ngspice is missing, and ATHWART_REQUIRE_NGSPICE=1 says this run must have it", pytrace=False)
    pytest.skip("ngspice is not installed (Debian: apt-get install ngspice)")


@pytest.fixture
def rng() -> random.Random:
    """A generator with the printed seed, fresh for each test."""
    return random.Random(SEED)
