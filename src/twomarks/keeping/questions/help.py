"""What is said on the telephone when somebody is hurt."""

from __future__ import annotations

from twomarks.keeping.records.household import HelpCallRow
from twomarks.keeping.scope import Scope
from twomarks.keeping.storing import question
from twomarks.planning.help_call import HelpCall

__all__ = ["help_call"]


@question
def help_call(scope: Scope) -> HelpCall:
    """Return the number and the address that the owner entered; empty where none was."""
    row = HelpCallRow.objects.filter(household=scope.household).first()
    return HelpCall() if row is None else HelpCall(number=row.number, address=row.address)
