"""How sure a share is that was counted: Wilson's interval."""

from __future__ import annotations

from math import sqrt

from athwart.explain import formula
from athwart.numerics.normal import normal_deviate
from athwart.units.names import Ratio


@formula(
    "p_low", "1", "lower end of Wilson's interval of a share counted in so many trials", source="wilson-interval", kind="table"
)
def wilson_low(share: Ratio, trials: Ratio, confidence: Ratio = 0.95) -> Ratio:
    """Lower end of the interval that holds the share of endless trials.

    Parameters
    ----------
    share : Counted. [1]
    trials : How many. [1]
    confidence : How often such intervals hold the true share. [1]

    Examples
    --------
    >>> round(wilson_low(0.83, 1000.0), 3)
    0.805
    """
    middle, half = _wilson(share, trials, confidence)
    return 0.0 if share == 0.0 else max(0.0, middle - half)


@formula(
    "p_high", "1", "upper end of Wilson's interval of a share counted in so many trials", source="wilson-interval", kind="table"
)
def wilson_high(share: Ratio, trials: Ratio, confidence: Ratio = 0.95) -> Ratio:
    """Upper end of the interval that holds the share of endless trials.

    Parameters
    ----------
    share : Counted. [1]
    trials : How many. [1]
    confidence : How often such intervals hold the true share. [1]

    Examples
    --------
    >>> round(wilson_high(0.83, 1000.0), 3)
    0.852
    """
    middle, half = _wilson(share, trials, confidence)
    return 1.0 if share == 1.0 else min(1.0, middle + half)


def _wilson(share: Ratio, trials: Ratio, confidence: Ratio) -> tuple[Ratio, Ratio]:
    if not 0.0 <= share <= 1.0 or trials < 1.0 or not 0.0 < confidence < 1.0:
        raise ValueError(f"a share of {share:g} in {trials:g} trials at a confidence of {confidence:g}")
    z = normal_deviate(0.5 + 0.5 * confidence)
    middle = (share + z * z / (2.0 * trials)) / (1.0 + z * z / trials)
    half = z * sqrt(share * (1.0 - share) / trials + z * z / (4.0 * trials * trials)) / (1.0 + z * z / trials)
    return middle, half
