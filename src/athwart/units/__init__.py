"""Units at the edge: type names that carry them, one reader and one printer for all quantities of the trade.

Inside, every number is SI. :func:`parse` and :func:`read` turn text into it, :func:`show` and its sisters turn it into text;
:data:`QUANTITIES` is the table both use.
"""

from athwart.errors import QuantityError as QuantityError
from athwart.units.gauges import awg_area as awg_area
from athwart.units.gauges import beaufort_of as beaufort_of
from athwart.units.gauges import beaufort_top as beaufort_top
from athwart.units.gauges import gauge_name as gauge_name
from athwart.units.gauges import gauge_of as gauge_of
from athwart.units.gauges import gauge_size as gauge_size
from athwart.units.gauges import sae_area as sae_area
from athwart.units.names import *  # noqa: F403
from athwart.units.printing import fixed as fixed
from athwart.units.printing import preferred as preferred
from athwart.units.printing import printed_in as printed_in
from athwart.units.printing import show as show
from athwart.units.printing import show_band as show_band
from athwart.units.printing import show_cranking as show_cranking
from athwart.units.printing import show_length_ft_in as show_length_ft_in
from athwart.units.quantities import KNOT as KNOT
from athwart.units.quantities import QUANTITIES as QUANTITIES
from athwart.units.quantities import SYSTEMS as SYSTEMS
from athwart.units.quantities import TRADE_KINDS as TRADE_KINDS
from athwart.units.quantities import Quantity as Quantity
from athwart.units.quantities import Unit as Unit
from athwart.units.quantities import factor as factor
from athwart.units.quantities import kinds_in as kinds_in
from athwart.units.reading import CrankingCurrent as CrankingCurrent
from athwart.units.reading import Reading as Reading
from athwart.units.reading import parse as parse
from athwart.units.reading import parse_cranking as parse_cranking
from athwart.units.reading import read as read
