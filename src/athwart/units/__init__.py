"""Units at the edge: type names that carry them, one reader and one printer for all quantities of the trade."""

from athwart.units.names import *  # noqa: F403
