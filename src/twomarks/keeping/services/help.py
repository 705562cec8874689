"""What is said on the telephone when somebody is hurt: entered once, before it is needed."""

from __future__ import annotations

import re

from twomarks.errors import InputError
from twomarks.keeping.records.household import HelpCallRow
from twomarks.keeping.scope import Scope
from twomarks.keeping.storing import service
from twomarks.planning.help_call import HelpCall

__all__ = ["LONGEST_ADDRESS", "LONGEST_NUMBER", "settle_help"]

LONGEST_NUMBER = 24
LONGEST_ADDRESS = 240
_NUMBER = re.compile(r"\+?[0-9*# ()/-]*")


@service
def settle_help(scope: Scope, *, number: str, address: str) -> HelpCall:
    """Keep the number to call and the address to say; either may be empty, and what is empty is taken from the reader's country.

    Raises
    ------
    InputError
        Where the number is none that a telephone dials, or either is too long.
    """
    number, address = " ".join(number.split()), " ".join(address.split())
    if len(number) > LONGEST_NUMBER or not _NUMBER.fullmatch(number) or (number and not re.search(r"\d", number)):
        raise InputError("wrong.help_number", where="number", found=number[:40], expected=LONGEST_NUMBER)
    if len(address) > LONGEST_ADDRESS:
        raise InputError("wrong.help_address", where="address", found=address[:40], expected=LONGEST_ADDRESS)
    row = HelpCallRow.objects.filter(household=scope.household).first() or HelpCallRow(household_id=scope.household)
    row.number, row.address = number, address
    row.save()
    return HelpCall(number=number, address=address)
