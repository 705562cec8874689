"""Django looks for tables here; they stand in `records`, one file per subject."""

from __future__ import annotations

from twomarks.keeping.records.answers import AnswerRow
from twomarks.keeping.records.derived import DerivedRow
from twomarks.keeping.records.documents import DocumentRow, RevisionRow, VehicleRow
from twomarks.keeping.records.entries import EntryRow, FollowUpRow
from twomarks.keeping.records.household import HelpCallRow, HomePlaceRow, HouseholdBeingClosed, HouseholdRow, PersonRow
from twomarks.keeping.records.levels import LevelCheckRow, TopUpRow
from twomarks.keeping.records.noticed import MeasurementRow, QuoteRow, SnagRow, VehicleEventRow
from twomarks.keeping.records.readings import ConfirmationRow, ReadingRow
from twomarks.keeping.records.shelf import StockMoveRow, WasteMoveRow
from twomarks.keeping.records.workdays import CardRow, TickRow, WorkdayRow

__all__ = [
    "AnswerRow",
    "CardRow",
    "ConfirmationRow",
    "DerivedRow",
    "DocumentRow",
    "EntryRow",
    "FollowUpRow",
    "HelpCallRow",
    "HomePlaceRow",
    "HouseholdBeingClosed",
    "HouseholdRow",
    "LevelCheckRow",
    "MeasurementRow",
    "PersonRow",
    "QuoteRow",
    "ReadingRow",
    "RevisionRow",
    "SnagRow",
    "StockMoveRow",
    "TickRow",
    "TopUpRow",
    "VehicleEventRow",
    "VehicleRow",
    "WasteMoveRow",
    "WorkdayRow",
]
