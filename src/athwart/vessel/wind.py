"""From the wind somebody read to the pressure on the silhouette.

The wind grows with height, so where it was read decides: a forecast holds for 10 m, a masthead for its own height, and a
reading on deck is already the wind that meets the boat: no profile is applied to it a second time. A mean becomes a 3-second
gust by a factor; a gust stays what it is.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from math import log, sqrt
from typing import Literal

from athwart.explain import formula
from athwart.units.names import KilogramPerCubicMetre, Metre, MetrePerSecond, Pascal, Ratio, SquareMetre
from athwart.vessel.gusts import Surroundings, gust_factor
from athwart.vessel.windage import Windage, WindageElement

ReadAt = Literal["forecast 10 m", "masthead", "on deck"]
Average = Literal["mean", "gust"]

RHO_AIR: KilogramPerCubicMetre = 1.225
FORECAST_HEIGHT: Metre = 10.0
FORECAST_AVERAGE: float = 600.0
"""Seconds over which a forecast wind is averaged."""

EXPONENTS: Mapping[Surroundings, Ratio] = {"at sea": 0.11, "off-sea": 0.14, "off-land": 0.16, "in-land": 0.16}
"""Power-law exponents (from memory); inland the coast's value is kept, for a larger one would lower the force."""

ROUGHNESS: Mapping[str, Metre] = {
    "open sea": 0.0002,
    "mud flats": 0.005,
    "open grass": 0.03,
    "low crops": 0.10,
    "scattered obstacles": 0.25,
    "parkland": 0.5,
    "suburb": 1.0,
}
"""Davenport's classes 1 to 7 (source: davenport-roughness)."""

Shelter = Literal["open", "second row", "further rows"]
SHELTER: Mapping[Shelter, Ratio] = {"open": 1.0, "second row": 0.5, "further rows": 0.3}
"""Share of the wind's load on a boat behind others of her size at their berths (source: marina-row-shelter)."""


@formula("q", "Pa", "0.5 * air_density * wind_speed ** 2", source="own-arithmetic")
def dynamic_pressure(wind_speed: MetrePerSecond, air_density: KilogramPerCubicMetre = RHO_AIR) -> Pascal:
    """Pressure of the wind where it is brought to rest.

    Parameters
    ----------
    wind_speed : Speed at the height of what it meets. [m/s]
    air_density : 1.225 at 15 °C and sea level. [kg/m³]

    Examples
    --------
    Twenty knots:

    >>> round(dynamic_pressure(10.29), 2)
    64.85
    """
    return 0.5 * air_density * wind_speed**2


@formula(
    "U(z)",
    "m/s",
    "speed_read * (height / height_read) ** exponent",
    source="wind-power-law",
    valid="about 1 to 100 m over open ground",
)
def wind_by_power_law(
    speed_read: MetrePerSecond, height: Metre, exponent: Ratio, height_read: Metre = FORECAST_HEIGHT
) -> MetrePerSecond:
    """Mean wind at another height, by a power of the ratio of heights.

    Parameters
    ----------
    speed_read : Wind where it was read. [m/s]
    height : Height asked. [m]
    exponent : 0.11 at sea, 0.14 to 0.16 on the coast. [1]
    height_read : Height of the reading. [m]

    Examples
    --------
    Two metres up, in a harbour, when the forecast says 10 m/s:

    >>> round(wind_by_power_law(10.0, 2.0, 0.15), 2)
    7.86
    """
    if height <= 0.0 or height_read <= 0.0:
        raise ValueError(f"heights of {height:g} m and {height_read:g} m; both must be above the water")
    return float(speed_read * (height / height_read) ** exponent)


@formula(
    "U(z)", "m/s", "speed_read * log(height / roughness) / log(height_read / roughness)", source="log-profile",
    valid="height well above the roughness length",
)  # fmt: skip
def wind_by_log_law(
    speed_read: MetrePerSecond, height: Metre, roughness: Metre, height_read: Metre = FORECAST_HEIGHT
) -> MetrePerSecond:
    """Mean wind at another height, by the logarithmic law.

    Parameters
    ----------
    speed_read : Wind where it was read. [m/s]
    height : Height asked. [m]
    roughness : Roughness length of the ground upwind. [m]
    height_read : Height of the reading. [m]

    Examples
    --------
    >>> round(wind_by_log_law(10.0, 2.0, ROUGHNESS["open grass"]), 2)
    7.23
    """
    if roughness <= 0.0 or min(height, height_read) <= roughness:
        raise ValueError(
            f"heights of {height:g} m and {height_read:g} m over a roughness of {roughness:g} m; heights must exceed it"
        )
    return speed_read * log(height / roughness) / log(height_read / roughness)


@formula(
    "k_q", "1", "sum of C A (z/z_read)^(2 a) over sum of C A: pressure of the whole silhouette over that where the wind was read",
    source="own-arithmetic", kind="table",
)  # fmt: skip
def pressure_share(
    drag_areas: Sequence[SquareMetre], heights: Sequence[Metre], exponent: Ratio, height_read: Metre = FORECAST_HEIGHT
) -> Ratio:
    """Mean pressure on a silhouette as a share of the pressure where the wind was read.

    Parameters
    ----------
    drag_areas : Drag coefficient times area of each element. [m²]
    heights : Height of the centre of each. [m]
    exponent : Of the power-law profile; nought where the wind is the same at all heights. [1]
    height_read : Height of the reading. [m]

    Examples
    --------
    All of it at 2 m, wind by forecast:

    >>> round(pressure_share((25.0,), (2.0,), 0.15), 3)
    0.617
    """
    total = sum(drag_areas)
    if len(drag_areas) != len(heights) or total <= 0.0:
        raise ValueError(f"{len(drag_areas)} areas with a sum of {total:g} m² and {len(heights)} heights")
    if height_read <= 0.0 or min(heights) <= 0.0:
        raise ValueError("heights must be above the water")
    weighted = (area * (height / height_read) ** (2.0 * exponent) for area, height in zip(drag_areas, heights, strict=True))
    return float(sum(weighted) / total)


@formula(
    "k_q", "1", "sum of C A (ln(z/z_0)/ln(z_read/z_0))^2 over sum of C A: pressure of the whole silhouette over that where read",
    source="log-profile", kind="table", valid="heights well above the roughness length",
)  # fmt: skip
def pressure_share_by_log_law(
    drag_areas: Sequence[SquareMetre], heights: Sequence[Metre], roughness: Metre, height_read: Metre = FORECAST_HEIGHT
) -> Ratio:
    """Mean pressure on a silhouette as a share of the pressure where the wind was read, by the logarithmic law.

    Parameters
    ----------
    drag_areas : Drag coefficient times area of each element. [m²]
    heights : Height of the centre of each. [m]
    roughness : Roughness length of the ground upwind. [m]
    height_read : Height of the reading. [m]

    Examples
    --------
    All of it at 2 m, wind by forecast over open grass:

    >>> round(pressure_share_by_log_law((25.0,), (2.0,), 0.03), 3)
    0.523
    """
    total = sum(drag_areas)
    if len(drag_areas) != len(heights) or total <= 0.0:
        raise ValueError(f"{len(drag_areas)} areas with a sum of {total:g} m² and {len(heights)} heights")
    weighted = (
        area * wind_by_log_law(1.0, height, roughness, height_read) ** 2 for area, height in zip(drag_areas, heights, strict=True)
    )
    return float(sum(weighted) / total)


@formula("q_s", "Pa", "pressure * shelter", source="marina-row-shelter", valid="rows of boats of one size at their berths")
def sheltered_pressure(pressure: Pascal, shelter: Ratio) -> Pascal:
    """Pressure that is left of the wind behind other boats.

    Parameters
    ----------
    pressure : In the open. [Pa]
    shelter : Share left: 1 in the first row, 0.5 in the second, 0.3 in others. [1]
    """
    return pressure * shelter


@formula("U_eq", "m/s", "sqrt(2 * pressure / air_density)", source="own-arithmetic")
def equivalent_speed(pressure: Pascal, air_density: KilogramPerCubicMetre = RHO_AIR) -> MetrePerSecond:
    """The uniform wind that has a given dynamic pressure.

    Parameters
    ----------
    pressure : Dynamic pressure. [Pa]
    air_density : Of the air. [kg/m³]
    """
    return sqrt(2.0 * pressure / air_density)


@dataclass(frozen=True, slots=True)
class WindAsked:
    """A wind as somebody states it; ``gust_factor`` overrides the table, ``exponent`` the one of the surroundings.

    With a ``roughness`` length the logarithmic law takes the place of the power law. ``shelter`` is the share of the load that
    reaches a boat behind others.
    """

    speed: MetrePerSecond
    read_at: ReadAt
    is_: Average
    surroundings: Surroundings = "off-land"
    read_height: Metre | None = None
    gust_factor: Ratio | None = None
    exponent: Ratio | None = None
    roughness: Metre | None = None
    shelter: Ratio = 1.0

    def __post_init__(self) -> None:
        if self.speed < 0.0:
            raise ValueError(f"a wind of {self.speed:g} m/s")
        if self.read_at == "masthead" and not self.read_height:
            raise ValueError("a wind read at the masthead needs the height of the masthead")
        if self.gust_factor is not None and self.gust_factor < 1.0:
            raise ValueError(f"a gust factor of {self.gust_factor:g}; a gust is not below the mean")


@dataclass(frozen=True, slots=True)
class DesignWind:
    """What the silhouette is held against: ``speed`` is the uniform wind with the same pressure."""

    asked: WindAsked
    gust_factor: Ratio
    gust_where_read: MetrePerSecond
    height_read: Metre | None
    exponent: Ratio
    pressure_share: Ratio
    pressure: Pascal
    speed: MetrePerSecond
    notes: tuple[str, ...]

    def speed_at(self, height: Metre) -> MetrePerSecond:
        """The gust at a height."""
        if self.height_read is None:
            here = self.gust_where_read
        elif self.asked.roughness is not None:
            here = wind_by_log_law(self.gust_where_read, height, self.asked.roughness, self.height_read)
        else:
            here = wind_by_power_law(self.gust_where_read, height, self.exponent, self.height_read)
        return here * sqrt(self.asked.shelter)


def design_wind(
    asked: WindAsked, windage: Windage, *, by_drag: bool = False, air_density: KilogramPerCubicMetre = RHO_AIR
) -> DesignWind:
    """The wind to hold.

    The pressure is averaged over the elements by their areas (``by_drag``: by drag coefficient times area, as the sum of
    elements wants it). It is exactly proportional to the square of the speed asked. The gust factor is taken as the same at
    all heights.
    """
    notes: list[str] = []
    factor = _factor(asked, notes)
    gust = asked.speed * factor
    height, exponent = _profile(asked, notes)
    areas = tuple(_weight(element, by_drag) for element in windage.elements)
    heights = tuple(element.centroid_height for element in windage.elements)
    if height is None:
        share = 1.0
    elif asked.roughness is not None:
        share = pressure_share_by_log_law(areas, heights, asked.roughness, height)
    else:
        share = pressure_share(areas, heights, exponent, height)
    if asked.shelter < 1.0:
        notes.append(f"behind other boats: {asked.shelter:.0%} of the load")
    pressure = sheltered_pressure(dynamic_pressure(gust, air_density) * share, asked.shelter)
    share *= asked.shelter
    return DesignWind(
        asked, factor, gust, height, exponent, share, pressure, equivalent_speed(pressure, air_density), tuple(notes)
    )


def _weight(element: WindageElement, by_drag: bool) -> SquareMetre:
    return element.lateral_area * (element.shape.beam if by_drag else 1.0)


def _factor(asked: WindAsked, notes: list[str]) -> Ratio:
    if asked.is_ == "gust":
        notes.append("the wind asked is a gust already: no gust factor applied")
        return 1.0
    if asked.gust_factor is not None:
        notes.append(f"gust factor {asked.gust_factor:g} as given")
        return asked.gust_factor
    factor = gust_factor(asked.surroundings, FORECAST_AVERAGE)
    notes.append(f"mean of ten minutes to a gust of three seconds, {asked.surroundings}: gust factor {factor:g}")
    return factor


def _profile(asked: WindAsked, notes: list[str]) -> tuple[Metre | None, Ratio]:
    if asked.read_at == "on deck":
        notes.append("read on deck: no height profile applied")
        return None, 0.0
    exponent = EXPONENTS[asked.surroundings] if asked.exponent is None else asked.exponent
    height = FORECAST_HEIGHT if asked.read_at == "forecast 10 m" else asked.read_height
    if asked.roughness is not None:
        notes.append(f"logarithmic profile over a roughness of {asked.roughness:g} m from {height:g} m down to each element")
        return height, 0.0
    notes.append(f"height profile with exponent {exponent:g} from {height:g} m down to each element")
    return height, exponent
