"""How sure a need and a thrust are, and the chance that the one covers the other.

Every sigma is relative, one standard deviation, and shipped as an editable default (own judgement where no source is named).
Need and thrust are taken as log-normal about their nominal values, so a band is a factor up and a factor down.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import exp, log, sqrt

from athwart.explain import formula
from athwart.numerics.normal import normal_deviate, normal_share
from athwart.units.names import Metre, Newton, Ratio

SIDE_COEFFICIENT: Ratio = 0.12
"""Side-force coefficient of the table, 30 to 150 degrees: rms against a real 31 m vessel, rounded up."""
ELEMENT_COEFFICIENT: Ratio = 0.20
TWO_HULLS_COEFFICIENT: Ratio = 0.30
"""A catamaran by elements: the hull in the lee of the other is not counted (own judgement)."""
LEVER_OF_LENGTH: Ratio = 0.05
"""Place of the side force, as a share of the length."""
ELEMENT_HEIGHT: Ratio = 0.15
AREA: Ratio = 0.10
WIND_SPEED: Ratio = 0.07
PROFILE: Ratio = 0.07
GUST_FACTOR: Ratio = 0.08
CATALOGUE_THRUST: Ratio = 0.10
FORMULA_THRUST: Ratio = 0.20
IMMERSION: Ratio = 0.10
CURRENT: Ratio = 0.06
"""Of a unit in the design state."""
RATED_TIME: Ratio = 0.15
"""Time a motor runs at rated current before it trips."""
CAPACITY: Ratio = 0.10
"""Of an aged bank."""
FUSE_TIME: Ratio = 0.30
"""Time at which a fuse or a protection circuit opens."""
CHARGE_FACTOR: Ratio = 0.08
"""Charge put in over charge taken out."""
CHARGER_OUTPUT: Ratio = 0.10
CATALOGUE_MASS: Ratio = 0.03
CABLE_RUN: Ratio = 0.10
IMMERSION_SHALLOW: Ratio = 0.20
"""Of the immersion factor where the axis lies less than 1.5 diameters deep."""


@formula(
    "σ_N", "1",
    "sqrt(coefficient ** 2 + area ** 2 + (2 * wind_speed) ** 2 + (2 * profile) ** 2 + (2 * gust_factor) ** 2 + lever ** 2)",
    source="own-arithmetic",
)  # fmt: skip
def need_sigma(coefficient: Ratio, area: Ratio, wind_speed: Ratio, profile: Ratio, gust_factor: Ratio, lever: Ratio) -> Ratio:
    """Standard deviation of a need, relative: root-sum-square of independent causes.

    Speeds count twice, for the force goes with their square.

    Parameters
    ----------
    coefficient : Of the side-force coefficient. [1]
    area : Of the lateral area. [1]
    wind_speed : Of the wind asked. [1]
    profile : Of the height profile; nought for a wind read on deck. [1]
    gust_factor : Of the gust factor; nought where the wind asked is a gust. [1]
    lever : Of the lever of the wind. [1]

    Examples
    --------
    A gust read on deck, areas from a drawing:

    >>> round(need_sigma(0.12, 0.05, 0.05, 0.0, 0.0, 0.09), 3)
    0.187
    """
    return sqrt(coefficient**2 + area**2 + (2.0 * wind_speed) ** 2 + (2.0 * profile) ** 2 + (2.0 * gust_factor) ** 2 + lever**2)


@formula("σ_lever", "1", "share_of_length * length_overall / abs(wind_place - pivot_place)", source="own-arithmetic")
def lever_sigma(length_overall: Metre, wind_place: Metre, pivot_place: Metre, share_of_length: Ratio = LEVER_OF_LENGTH) -> Ratio:
    """Standard deviation of the wind's lever about a pivot (or about the other unit), relative.

    Parameters
    ----------
    length_overall : Of the hull. [m]
    wind_place : Where the side force acts. [m]
    pivot_place : Where the lever begins. [m]
    share_of_length : How sure the place of the side force is, as a share of the length. [1]

    Examples
    --------
    Wind amidships, stern made fast:

    >>> round(lever_sigma(12.0, 0.0, -6.0), 3)
    0.1
    """
    if wind_place == pivot_place:
        raise ValueError("the wind acts on the pivot: it has no lever, and no share of one")
    return share_of_length * length_overall / abs(wind_place - pivot_place)


@formula("σ_T", "1", "sqrt(catalogue ** 2 + (2 * speed) ** 2 + immersion ** 2)", source="own-arithmetic")
def thrust_sigma(catalogue: Ratio, speed: Ratio, immersion: Ratio) -> Ratio:
    """Standard deviation of a thrust, relative; the rotor's speed counts twice, for thrust goes with its square.

    Parameters
    ----------
    catalogue : Of the thrust stated. [1]
    speed : Of the rotor's speed: of the terminal volts, near enough. [1]
    immersion : Of the factor for immersion. [1]

    Examples
    --------
    >>> round(thrust_sigma(0.10, 0.04, 0.0), 3)
    0.128
    """
    return sqrt(catalogue**2 + (2.0 * speed) ** 2 + immersion**2)


@formula("P", "1", "normal_share(log(thrust / need) / sqrt(thrust_spread ** 2 + need_spread ** 2))", source="own-arithmetic",
         valid="need and thrust log-normal and independent")  # fmt: skip
def hold_probability(thrust: Newton, need: Newton, thrust_spread: Ratio, need_spread: Ratio) -> Ratio:
    """Chance that the thrust covers the need.

    Parameters
    ----------
    thrust : Nominal thrust. [N]
    need : Nominal need. [N]
    thrust_spread : Standard deviation of the thrust, relative. [1]
    need_spread : Standard deviation of the need, relative. [1]

    Examples
    --------
    A quarter more thrust than need:

    >>> round(hold_probability(1250.0, 1000.0, 0.10, 0.22), 2)
    0.82
    """
    if thrust <= 0.0 or need <= 0.0:
        raise ValueError(f"a thrust of {thrust:g} N and a need of {need:g} N; both must be above nought")
    if thrust_spread**2 + need_spread**2 == 0.0:
        raise ValueError("a chance wants at least one of the two to be unsure")
    return normal_share(log(thrust / need) / sqrt(thrust_spread**2 + need_spread**2))


@formula("T_P", "N", "need * exp(deviate * sqrt(thrust_spread ** 2 + need_spread ** 2))", source="own-arithmetic")
def thrust_for_deviate(need: Newton, deviate: Ratio, thrust_spread: Ratio, need_spread: Ratio) -> Newton:
    """Nominal thrust that holds with a chance given by its standard deviate (0.84 for 0.8).

    Parameters
    ----------
    need : Nominal need. [N]
    deviate : Standard deviate of the chance. [1]
    thrust_spread : Standard deviation of the thrust, relative. [1]
    need_spread : Standard deviation of the need, relative. [1]
    """
    return need * exp(deviate * sqrt(thrust_spread**2 + need_spread**2))


def thrust_for_probability(need: Newton, probability: Ratio, thrust_spread: Ratio, need_spread: Ratio) -> Newton:
    """Nominal thrust that holds with a given chance: :func:`hold_probability` turned round."""
    if not 0.0 < probability < 1.0:
        raise ValueError(f"a chance of {probability:g}; allowed is more than 0 and less than 1")
    return thrust_for_deviate(need, normal_deviate(probability), thrust_spread, need_spread)


@dataclass(frozen=True, slots=True)
class Band:
    """A nominal value with the factor of one standard deviation up and down."""

    nominal: float
    low: float
    high: float


def band(nominal: float, sigma: Ratio, deviates: Ratio = 1.0) -> Band:
    """Band of a log-normal value: one deviate covers two chances in three, 1.28 four in five.

    >>> held = band(1000.0, 0.22)
    >>> round(held.low), round(held.high)
    (803, 1246)
    """
    if sigma < 0.0:
        raise ValueError(f"a standard deviation of {sigma:g}")
    return Band(nominal, nominal * exp(-deviates * sigma), nominal * exp(deviates * sigma))


@formula("σ_t", "1", "sqrt((exponent * current) ** 2 + limit ** 2)", source="own-arithmetic")
def run_time_sigma(exponent: Ratio, current: Ratio, limit: Ratio) -> Ratio:
    """Relative standard deviation of a run time.

    Parameters
    ----------
    exponent : By which the time falls with the current: 2 by heat, 1 by charge. [1]
    current : Of the current. [1]
    limit : Of what ends the run at a given current. [1]

    Examples
    --------
    >>> round(run_time_sigma(2.0, CURRENT, RATED_TIME), 3)
    0.192
    """
    return sqrt((exponent * current) ** 2 + limit**2)


@formula("σ_r", "1", "sqrt(current ** 2 + charger ** 2 + factor ** 2)", source="own-arithmetic")
def refill_sigma(current: Ratio = CURRENT, charger: Ratio = CHARGER_OUTPUT, factor: Ratio = CHARGE_FACTOR) -> Ratio:
    """Relative standard deviation of a refill time after bursts of given length.

    Parameters
    ----------
    current : Of the unit's current. [1]
    charger : Of the charger's output. [1]
    factor : Of charge put in over charge taken out. [1]

    Examples
    --------
    >>> round(refill_sigma(), 3)
    0.141
    """
    return sqrt(current**2 + charger**2 + factor**2)
