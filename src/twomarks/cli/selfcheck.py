"""`twomarks selfcheck`: whether what is kept is whole, and whether the package is."""

from __future__ import annotations

import click

from twomarks.cli.looked_at import of_home, of_ledgers, of_package
from twomarks.cli.options import Asking, asks
from twomarks.cli.said import Terminal
from twomarks.words import say

__all__ = ["selfcheck"]

NOT_IN_ORDER = 1


@click.command()
@asks
def selfcheck(asking: Asking) -> int:
    """Check the database, its ledgers and their chain, the disk, the copies, and the parts that ship.

    Every household in the home is looked at. The exit code is 1 where anything is not in order, else 0.
    """
    asking.opener(asking.home)
    from twomarks.keeping.health import health
    from twomarks.keeping.home import home_of

    home = home_of(asking.home)
    found = (*of_home(health(home)), *of_ledgers(), *of_package())
    whole = all(one.state != "not in order" for one in found)
    reader = asking.reader()
    if asking.as_json:
        from twomarks.exchange.answers.said import said
        from twomarks.exchange.answers.selfcheck import LookedAtSaid, SelfcheckAnswer

        looked_at = tuple(LookedAtSaid(thing=one.thing, state=one.state, what=said(one.what, reader)) for one in found)
        Terminal.json(SelfcheckAnswer(on=asking.today(), home=str(home.folder), in_order=whole, looked_at=looked_at))
    else:
        terminal = Terminal(reader)
        terminal.heading("selfcheck.head", home=str(home.folder))
        for one in found:
            terminal.line(say("selfcheck.line", state=say(f"selfcheck.{one.state.replace(' ', '_')}"), what=one.what))
        terminal.line(say("selfcheck.whole" if whole else "selfcheck.not_whole"), indent=0)
    return 0 if whole else NOT_IN_ORDER
