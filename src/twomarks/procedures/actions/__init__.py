"""What each action does to the state: one small function per action, by what the action is about."""

from __future__ import annotations

from twomarks.procedures.actions import engine, fluids, looking, openings, support
from twomarks.procedures.actions.effect import EFFECTS
from twomarks.procedures.actions.playing import play, start_state
from twomarks.procedures.actions.readings import reading_now

__all__ = ["EFFECTS", "SUBJECTS", "play", "reading_now", "start_state"]

SUBJECTS = (support, openings, fluids, engine, looking)
"""The modules whose functions stand in `EFFECTS`; a new subject is added here."""
