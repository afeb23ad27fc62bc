"""Gusts in time: spectra of the wind, a series with a given spectrum, a recursive filter with nearly the same one, a design gust.

Spectra are one-sided, per hertz. No function here draws chances: phases and deviates are handed in, so that the same ones give
the same wind anywhere.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from math import cos, exp, log, pi, sqrt

from athwart.explain import formula
from athwart.units.names import Hertz, Metre, MetrePerSecond, Ratio, Second, SquareMetre, SquareMetrePerSecond

LENGTH_OF_HEIGHT: Ratio = 5.67
HIGHEST: Metre = 60.0
DAVENPORT_LENGTH: Metre = 1200.0
NPD_SPREAD: Ratio = 0.468
LOWEST_HZ: Hertz = 1.0 / 600.0
HIGHEST_HZ: Hertz = 2.0
BINS = 220
PEAK_OF_GUST: Ratio = 2.8
"""Standard deviations that the 3-second gust of ten minutes stands above the mean (own judgement)."""


@formula("I_u", "1", "(gust_factor - 1) / PEAK_OF_GUST", source="own-judgement", valid="gusts of 3 s over means of ten minutes")
def intensity_of_gust_factor(gust_factor: Ratio) -> Ratio:
    """Standard deviation over mean that goes with a gust factor, so that a series and the static check speak of one wind.

    Parameters
    ----------
    gust_factor : Gust of 3 s over the mean. [1]

    Examples
    --------
    >>> round(intensity_of_gust_factor(1.42), 3)
    0.15
    """
    if gust_factor < 1.0:
        raise ValueError(f"a gust factor of {gust_factor:g}; a gust is not below its mean")
    return (gust_factor - 1.0) / PEAK_OF_GUST


@formula("L_k", "m", "LENGTH_OF_HEIGHT * min(height, HIGHEST)", source="kaimal-iec")
def kaimal_length(height: Metre) -> Metre:
    """Length scale of the gusts at a height.

    Parameters
    ----------
    height : Above the water. [m]

    Examples
    --------
    >>> round(kaimal_length(2.5), 2)
    14.18
    """
    if height <= 0.0:
        raise ValueError(f"a height of {height:g} m")
    return LENGTH_OF_HEIGHT * min(height, HIGHEST)


@formula("S", "m²/s", "sigma ** 2 * 4 * length_scale / mean / (1 + 6 * frequency * length_scale / mean) ** (5 / 3)",
         source="kaimal-iec", valid="the inertial range and below; near the ground")  # fmt: skip
def kaimal(frequency: Hertz, mean: MetrePerSecond, sigma: MetrePerSecond, length_scale: Metre) -> SquareMetrePerSecond:
    """Kaimal's spectrum in the form of the wind turbine standard; its integral is the variance.

    Parameters
    ----------
    frequency : Above nought. [Hz]
    mean : Mean wind. [m/s]
    sigma : Standard deviation. [m/s]
    length_scale : Of the gusts. [m]

    Examples
    --------
    >>> round(kaimal(0.1, 10.0, 1.5, kaimal_length(10.0)), 3)
    4.316
    """
    _positive(frequency, mean)
    return float(sigma**2 * 4.0 * length_scale / mean / (1.0 + 6.0 * frequency * length_scale / mean) ** (5.0 / 3.0))


@formula("S", "m²/s",
         "sigma ** 2 * 2 / 3 * (DAVENPORT_LENGTH / mean) ** 2 * frequency"
         " / (1 + (frequency * DAVENPORT_LENGTH / mean) ** 2) ** (4 / 3)",
         source="gust-spectra")  # fmt: skip
def davenport(frequency: Hertz, mean: MetrePerSecond, sigma: MetrePerSecond) -> SquareMetrePerSecond:
    """Davenport's spectrum: a second opinion, its gusts as long at every height.

    Parameters
    ----------
    frequency : Above nought. [Hz]
    mean : Mean wind at 10 m. [m/s]
    sigma : Standard deviation. [m/s]
    """
    _positive(frequency, mean)
    x = frequency * DAVENPORT_LENGTH / mean
    return float(sigma**2 * 2.0 / 3.0 * (DAVENPORT_LENGTH / mean) ** 2 * frequency / (1.0 + x * x) ** (4.0 / 3.0))


@formula("S", "m²/s", "sigma ** 2 * 4 * length_scale / mean / (1 + 70.8 * (frequency * length_scale / mean) ** 2) ** (5 / 6)",
         source="gust-spectra")  # fmt: skip
def harris(frequency: Hertz, mean: MetrePerSecond, sigma: MetrePerSecond, length_scale: Metre) -> SquareMetrePerSecond:
    """Harris' spectrum: a second opinion.

    Parameters
    ----------
    frequency : Above nought. [Hz]
    mean : Mean wind. [m/s]
    sigma : Standard deviation. [m/s]
    length_scale : Of the gusts. [m]
    """
    _positive(frequency, mean)
    return float(sigma**2 * 4.0 * length_scale / mean / (1.0 + 70.8 * (frequency * length_scale / mean) ** 2) ** (5.0 / 6.0))


@formula("S", "m²/s", "320 (U/10)² (z/10)^0.45 / (1 + x^n)^(5/3n), x = 172 f (z/10)^(2/3) (U/10)^-0.75",
         source="npd-spectrum", kind="table", valid="open sea, over 1/2400 Hz")  # fmt: skip
def sea_spectrum(frequency: Hertz, hourly_mean: MetrePerSecond, height: Metre) -> SquareMetrePerSecond:
    """Spectrum of the wind over the open sea, slow gusts included.

    Parameters
    ----------
    frequency : Above nought. [Hz]
    hourly_mean : Mean of an hour at 10 m. [m/s]
    height : Above the water. [m]

    Examples
    --------
    >>> [round(sea_spectrum(f, 10.0, 10.0), 4) for f in (0.01, 0.1, 1.0)]
    [16.7653, 1.2119, 0.0443]
    """
    _positive(frequency, hourly_mean)
    x = 172.0 * frequency * (height / 10.0) ** (2.0 / 3.0) * (hourly_mean / 10.0) ** -0.75
    whole = (1.0 + x**NPD_SPREAD) ** (5.0 / (3.0 * NPD_SPREAD))
    return float(320.0 * (hourly_mean / 10.0) ** 2 * (height / 10.0) ** 0.45 / whole)


@formula("χ", "1", "1 / (1 + (2 * frequency * sqrt(area) / mean) ** (4 / 3))", source="simulator-theory-manual")
def admittance(frequency: Hertz, area: SquareMetre, mean: MetrePerSecond) -> Ratio:
    """Share of a gust's speed that a whole silhouette feels: small gusts do not cover her.

    Parameters
    ----------
    frequency : Of the gust. [Hz]
    area : Of the silhouette. [m²]
    mean : Mean wind. [m/s]

    Examples
    --------
    >>> [round(admittance(f, 25.0, 10.0), 4) for f in (0.05, 0.1, 0.5)]
    [0.9819, 0.9556, 0.7159]
    """
    _positive(frequency, mean)
    return float(1.0 / (1.0 + (2.0 * frequency * sqrt(area) / mean) ** (4.0 / 3.0)))


@formula("u", "m/s", "rise / 2 * (1 - cos(2 * pi * min(max(time, 0), duration) / duration))", source="own-judgement")
def design_gust(time: Second, rise: MetrePerSecond, duration: Second) -> MetrePerSecond:
    """One gust that comes and goes, above the mean.

    Parameters
    ----------
    time : Since it began. [s]
    rise : Its height, (gust factor - 1) times the mean. [m/s]
    duration : Of the whole gust, 6 to 10 s. [s]

    Examples
    --------
    >>> [round(design_gust(t, 4.0, 8.0), 2) for t in (0.0, 2.0, 4.0, 9.0)]
    [0.0, 2.0, 4.0, 0.0]
    """
    return rise / 2.0 * (1.0 - cos(2.0 * pi * min(max(time, 0.0), duration) / duration))


# ---- a series with a spectrum


@dataclass(frozen=True, slots=True)
class GustSeries:
    """A sum of cosines. Frequencies lie one in each bin and are no multiples of each other, so the series does not come round.

    Built by :func:`gust_series`, which scales it to the standard deviation asked over the band of its bins.
    """

    mean: MetrePerSecond
    amplitudes: tuple[MetrePerSecond, ...]
    rates: tuple[float, ...]  # rad/s
    phases: tuple[float, ...]

    def __call__(self, time: Second) -> MetrePerSecond:
        """Wind at a time, never below nought."""
        return max(0.0, self.mean + self.fluctuation(time))

    def fluctuation(self, time: Second) -> MetrePerSecond:
        """Above or below the mean."""
        return sum(a * cos(w * time + p) for a, w, p in zip(self.amplitudes, self.rates, self.phases, strict=True))

    @property
    def sigma(self) -> MetrePerSecond:
        """Standard deviation of the sum in the long run."""
        return sqrt(sum(a * a for a in self.amplitudes) / 2.0)


def gust_series(
    spectrum: Callable[[Hertz], float],
    mean: MetrePerSecond,
    sigma: MetrePerSecond,
    chances: Sequence[float],
    lowest: Hertz = LOWEST_HZ,
    highest: Hertz = HIGHEST_HZ,
) -> GustSeries:
    """A series of gusts from uniform chances between 0 and 1: two for each bin, its frequency's place and its phase."""
    bins = len(chances) // 2
    if bins < 20:
        raise ValueError(f"{len(chances)} chances make {bins} bins; 40 chances or more are needed")
    step = log(highest / lowest) / bins
    amplitudes, rates, phases = [], [], []
    for k in range(bins):
        low, high = lowest * exp(step * k), lowest * exp(step * (k + 1))
        at = low + (high - low) * chances[2 * k]
        amplitudes.append(sqrt(2.0 * spectrum(at) * (high - low)))
        rates.append(2.0 * pi * at)
        phases.append(2.0 * pi * chances[2 * k + 1])
    found = sqrt(sum(a * a for a in amplitudes) / 2.0)
    scale = sigma / found if found > 0.0 else 0.0
    return GustSeries(mean, tuple(a * scale for a in amplitudes), tuple(rates), tuple(phases))


# ---- a filter with nearly the same spectrum

FILTER: tuple[tuple[float, float], ...] = ((0.31269939, 0.07233062), (0.57415309, 0.40490102), (0.11314753, 4.99707175))
"""Share of the variance and corner, as frequency times length scale over mean, of three first-order filters side by side."""


@dataclass(frozen=True, slots=True)
class GustFilter:
    """Three first-order filters, each with its own chances: keep[k] * state[k] + drive[k] * deviate, summed."""

    mean: MetrePerSecond
    keep: tuple[float, float, float]
    drive: tuple[float, float, float]

    def step(self, states: tuple[float, float, float], deviates: Sequence[float]) -> tuple[float, float, float]:
        """States one step on, from three standard deviates; the gust is their sum."""
        a, b = self.keep, self.drive
        return (
            a[0] * states[0] + b[0] * deviates[0],
            a[1] * states[1] + b[1] * deviates[1],
            a[2] * states[2] + b[2] * deviates[2],
        )

    @property
    def settled(self) -> tuple[float, float, float]:
        """Standard deviations of the three states in the long run: where a run begins."""
        a, b = self.keep, self.drive
        return (
            b[0] / sqrt(1.0 - a[0] ** 2),
            b[1] / sqrt(1.0 - a[1] ** 2),
            b[2] / sqrt(1.0 - a[2] ** 2),
        )


def gust_filter(mean: MetrePerSecond, sigma: MetrePerSecond, length_scale: Metre, step: Second) -> GustFilter:
    """The filter for a time step: Kaimal's spectrum within 8 % from a thousandth of mean over length scale to twenty times it."""
    keep, drive = [], []
    for share, corner in FILTER:
        a = exp(-2.0 * pi * corner * mean / length_scale * step)
        keep.append(a)
        drive.append(sigma * sqrt(share * (1.0 - a * a)))
    return GustFilter(mean, (keep[0], keep[1], keep[2]), (drive[0], drive[1], drive[2]))


@formula("S", "m²/s", "over three filters: share times sigma² times 2/(π f_c) / (1 + (f/f_c)²)",
         source="own-arithmetic", kind="table", valid="the step much shorter than the gusts looked at")  # fmt: skip
def filter_spectrum(frequency: Hertz, mean: MetrePerSecond, sigma: MetrePerSecond, length_scale: Metre) -> SquareMetrePerSecond:
    """Spectrum of the recursive filter, in the limit of short steps.

    Parameters
    ----------
    frequency : Above nought. [Hz]
    mean : Mean wind. [m/s]
    sigma : Standard deviation. [m/s]
    length_scale : Of the gusts. [m]

    Examples
    --------
    Beside Kaimal's, 14 m, 8 m/s:

    >>> round(filter_spectrum(0.1, 8.0, 1.0, 14.0) / kaimal(0.1, 8.0, 1.0, 14.0), 2)
    0.97
    """
    _positive(frequency, mean)
    total = 0.0
    for share, corner in FILTER:
        at = corner * mean / length_scale
        total += share * 2.0 / (pi * at) / (1.0 + (frequency / at) ** 2)
    return sigma**2 * total


def _positive(frequency: Hertz, mean: MetrePerSecond) -> None:
    if frequency <= 0.0 or mean <= 0.0:
        raise ValueError(f"a frequency of {frequency:g} Hz and a mean of {mean:g} m/s; both must be more than 0")
