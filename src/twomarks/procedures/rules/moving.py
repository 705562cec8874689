"""Rules about driving off in the middle of a job, and about where it stands afterwards."""

from __future__ import annotations

from twomarks.procedures.rules.rule import Moment, Rule, acting, must, must_all
from twomarks.procedures.state import LONG_MIN

__all__ = ["RULES"]

_driving = acting("drive")


def _went(moment: Moment) -> bool:
    return moment.end and bool(moment.state.get("driven"))


def _ran_or_drove(moment: Moment) -> bool:
    return moment.end and (bool(moment.state.get("driven")) or moment.state.number("since stop") != LONG_MIN)


RULES = (
    Rule(id="run_on_wheels", family="moving", grade="advice", when=acting("run_engine"), holds=must("support", "wheels")),
    Rule(id="drive_on_wheels", family="moving", grade="harm", when=_driving, holds=must("support", "wheels"), protects=True),
    Rule(id="drive_chocks", family="moving", grade="damage", when=_driving, holds=must("chocks", "away")),
    Rule(id="drive_bonnet", family="moving", grade="harm", when=_driving, holds=must("bonnet", "shut"), protects=True),
    Rule(id="drive_tray", family="moving", grade="damage", when=_driving, holds=must("undertray", "on")),
    Rule(id="parked_level", family="moving", grade="advice", when=_went, holds=must("ground", "hard and level")),
    Rule(id="parked", family="moving", grade="harm", when=_ran_or_drove, holds=must_all(("brake", "gear"), "on", "in"), protects=True),
)
