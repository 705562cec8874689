"""Which containers to buy: for one need, and over months to come for all that the vehicles will need."""

from twomarks.planning.buying.cover import Line, Purchase, purchase
from twomarks.planning.buying.lots import LotPlan, lot_sizes
from twomarks.planning.buying.offers import Offer

__all__ = ["Line", "LotPlan", "Offer", "Purchase", "lot_sizes", "purchase"]
