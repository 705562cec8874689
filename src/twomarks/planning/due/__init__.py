"""When each service item is due: whichever of its limits comes first, with the spread of that day."""

from twomarks.planning.due.items import due_items
from twomarks.planning.due.values import BEFORE, IN_WINDOW, NOT_KNOWN, PAST, Binds, Bound, Done, DueItem, DueState, Happening

__all__ = ["BEFORE", "IN_WINDOW", "NOT_KNOWN", "PAST", "Binds", "Bound", "Done", "DueItem", "DueState", "Happening", "due_items"]
