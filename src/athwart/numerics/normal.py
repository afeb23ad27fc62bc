"""The normal distribution."""

from __future__ import annotations

from math import erfc, inf, sqrt

from athwart.explain import formula
from athwart.numerics.roots import brent
from athwart.units.names import Ratio


@formula(
    "Φ", "1", "area under the normal curve to the left of the deviate: 0.5 erfc(-deviate/√2)", "own-arithmetic", kind="table"
)
def normal_share(deviate: Ratio) -> Ratio:
    """Share of a normal distribution that lies below a standard deviate.

    Parameters
    ----------
    deviate : Distance from the mean in standard deviations. [1]

    Examples
    --------
    One deviation above the mean:

    >>> round(normal_share(1.0), 4)
    0.8413
    """
    return 0.5 * erfc(-deviate / sqrt(2.0))


def normal_deviate(share: Ratio) -> Ratio:
    """The standard deviate with ``share`` of the distribution below it: the inverse of :func:`normal_share`.

    >>> round(normal_deviate(0.9), 4)
    1.2816
    """
    if not 0.0 <= share <= 1.0:
        raise ValueError(f"a share of {share:g}; allowed are 0 to 1")
    if share in (0.0, 1.0):
        return -inf if share == 0.0 else inf
    if share > 0.5:
        return -normal_deviate(1.0 - share)
    return brent(lambda deviate: 0.5 * erfc(-deviate / sqrt(2.0)) - share, -40.0, 0.0)
