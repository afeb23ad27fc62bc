"""Gusts above the mean: a table, a curve of averaging times, the sea profile with its gusts, and peaks of a random wind."""

from __future__ import annotations

from collections.abc import Mapping
from math import log, log10, sqrt, tanh
from typing import Literal

from athwart.explain import formula
from athwart.numerics.tables import log_interpolate
from athwart.units.names import Hertz, Metre, MetrePerSecond, Ratio, Second, SecondPerMetre

Surroundings = Literal["at sea", "off-sea", "off-land", "in-land"]

AVERAGES: tuple[Second, ...] = (60.0, 120.0, 180.0, 600.0, 3600.0)
GUST_TABLE: Mapping[Surroundings, tuple[Ratio, ...]] = {
    "in-land": (1.49, 1.55, 1.58, 1.66, 1.75),
    "off-land": (1.36, 1.42, 1.44, 1.52, 1.60),
    "off-sea": (1.23, 1.28, 1.31, 1.38, 1.45),
    "at sea": (1.11, 1.15, 1.17, 1.23, 1.40),
}
"""Gust of 3 s over the mean of each of ``AVERAGES``. The last figure of the last row looks out of line and is not used."""

EULER: Ratio = 0.5772
REFERENCE_HEIGHT: Metre = 10.0
HOUR: Second = 3600.0
NPD_SLOPE: Ratio = 0.0573
NPD_GROWTH: SecondPerMetre = 0.15
NPD_INTENSITY_GROWTH: SecondPerMetre = 0.043


@formula("G", "1", "3-second gust over the mean, by surroundings and averaging time", source="wmo-gust-factors", kind="table",
         valid="means over 60 s to 1 h; at sea to 600 s")  # fmt: skip
def gust_factor(surroundings: Surroundings, averaging_time: Second) -> Ratio:
    """Gust of three seconds over a mean; between the times of the table along a line in the logarithms.

    Parameters
    ----------
    surroundings : Where the boat lies: at sea; on the coast with wind off the sea or off the land; inland.
    averaging_time : Over how long the mean was taken. [s]

    Examples
    --------
    A forecast mean on the coast, wind off the land:

    >>> round(gust_factor("off-land", 600.0), 2)
    1.52
    """
    longest = 600.0 if surroundings == "at sea" else AVERAGES[-1]
    if not AVERAGES[0] <= averaging_time <= longest:
        raise ValueError(f"a mean over {averaging_time:g} s {surroundings}; the table runs from {AVERAGES[0]:g} to {longest:g} s")
    return log_interpolate(tuple(zip(AVERAGES, GUST_TABLE[surroundings], strict=True)), averaging_time)


@formula(
    "U_t/U_h", "1", "1.277 + 0.296 tanh(0.9 log10(45/t)), t in seconds", source="cem-gust-curve", kind="table", valid="1 s to 1 h"
)
def speed_over_hourly_mean(averaging_time: Second) -> Ratio:
    """Wind averaged over a short time, as a multiple of the mean of an hour.

    Parameters
    ----------
    averaging_time : Time of averaging. [s]

    Examples
    --------
    Three seconds on ten minutes:

    >>> round(speed_over_hourly_mean(3.0) / speed_over_hourly_mean(600.0), 3)
    1.437
    """
    if not 1.0 <= averaging_time <= HOUR:
        raise ValueError(f"an average over {averaging_time:g} s; allowed are 1 to 3600 s")
    return 1.277 + 0.296 * tanh(0.9 * log10(45.0 / averaging_time))


@formula(
    "g",
    "1",
    "sqrt(2 * log(crossing_rate * duration)) + EULER / sqrt(2 * log(crossing_rate * duration))",
    source="gust-theory-sheet",
)
def peak_factor(crossing_rate: Hertz, duration: Second) -> Ratio:
    """Expected largest value of a normal random process, in standard deviations above its mean.

    Parameters
    ----------
    crossing_rate : How often a second the process crosses its mean upwards. [Hz]
    duration : How long it is watched. [s]

    Examples
    --------
    >>> round(peak_factor(0.5, 600.0), 3)
    3.548
    """
    if crossing_rate * duration <= 2.0:
        raise ValueError(f"{crossing_rate * duration:g} crossings; the law wants many")
    k = sqrt(2.0 * log(crossing_rate * duration))
    return k + EULER / k


@formula("U(z)", "m/s",
         "hourly_mean * (1 + NPD_SLOPE * sqrt(1 + NPD_GROWTH * hourly_mean) * log(height / REFERENCE_HEIGHT))",
         source="npd-sea-profile", valid="open sea")  # fmt: skip
def sea_mean(hourly_mean: MetrePerSecond, height: Metre) -> MetrePerSecond:
    """Mean wind of an hour over the open sea at a height, from that at 10 m.

    Parameters
    ----------
    hourly_mean : Mean of an hour at 10 m. [m/s]
    height : Height asked. [m]

    Examples
    --------
    >>> round(sea_mean(10.0, 2.0), 2)
    8.54
    """
    if height <= 0.0:
        raise ValueError(f"a height of {height:g} m")
    return hourly_mean * (1.0 + NPD_SLOPE * sqrt(1.0 + NPD_GROWTH * hourly_mean) * log(height / REFERENCE_HEIGHT))


@formula("I_u", "1", "0.06 * (1 + NPD_INTENSITY_GROWTH * hourly_mean) * (height / REFERENCE_HEIGHT) ** -0.22",
         source="npd-sea-profile", valid="open sea")  # fmt: skip
def sea_turbulence(hourly_mean: MetrePerSecond, height: Metre) -> Ratio:
    """Standard deviation over mean of the wind over the open sea.

    Parameters
    ----------
    hourly_mean : Mean of an hour at 10 m. [m/s]
    height : Height asked. [m]
    """
    if height <= 0.0:
        raise ValueError(f"a height of {height:g} m")
    return float(0.06 * (1.0 + NPD_INTENSITY_GROWTH * hourly_mean) * (height / REFERENCE_HEIGHT) ** -0.22)


@formula("U(z,t)", "m/s",
         "sea_mean(hourly_mean, height) * (1 - 0.41 * sea_turbulence(hourly_mean, height) * log(averaging_time / HOUR))",
         source="npd-sea-profile", valid="open sea, 1 s to 1 h")  # fmt: skip
def sea_wind(hourly_mean: MetrePerSecond, height: Metre, averaging_time: Second) -> MetrePerSecond:
    """Largest wind of a shorter average within the hour, over the open sea.

    Parameters
    ----------
    hourly_mean : Mean of an hour at 10 m. [m/s]
    height : Height asked. [m]
    averaging_time : Time of averaging. [s]

    Examples
    --------
    >>> round(sea_wind(10.0, 10.0, 3.0), 2)
    12.49
    """
    if not 1.0 <= averaging_time <= HOUR:
        raise ValueError(f"an average over {averaging_time:g} s; allowed are 1 to 3600 s")
    return sea_mean(hourly_mean, height) * (1.0 - 0.41 * sea_turbulence(hourly_mean, height) * log(averaging_time / HOUR))
