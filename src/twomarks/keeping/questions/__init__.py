"""What is asked of the household: one function per question, each under a scope; answers are plain values."""

from twomarks.keeping.questions.cost import Cost, VehicleCost, cost, own_time_rate
from twomarks.keeping.questions.daybook import daybook, done, filled_with, follow_ups
from twomarks.keeping.questions.due import Outlook, due, outlook
from twomarks.keeping.questions.evidence import chain_head, verify
from twomarks.keeping.questions.help import help_call
from twomarks.keeping.questions.kept import kept_answer
from twomarks.keeping.questions.noticed import measurements, quotes, snags, stated_use, vehicle_events
from twomarks.keeping.questions.people import household_name, last_number, people, reader
from twomarks.keeping.questions.places import DesignTemperatures, climate, design_temperatures, place
from twomarks.keeping.questions.preparation import prepare, procedures
from twomarks.keeping.questions.readings import history, readings, usage
from twomarks.keeping.questions.shelf import answers, can_with_room, cans, shelf, stock
from twomarks.keeping.questions.vehicles import documents, revision, revisions, sheet, sheet_revision, vehicle, vehicles
from twomarks.keeping.questions.workdays import StepState, card, filled_figures, progress, ticks, workday, workdays

__all__ = [
    "Cost",
    "DesignTemperatures",
    "Outlook",
    "StepState",
    "VehicleCost",
    "answers",
    "can_with_room",
    "cans",
    "card",
    "chain_head",
    "climate",
    "cost",
    "daybook",
    "design_temperatures",
    "documents",
    "done",
    "due",
    "filled_figures",
    "filled_with",
    "follow_ups",
    "help_call",
    "history",
    "household_name",
    "kept_answer",
    "last_number",
    "measurements",
    "outlook",
    "own_time_rate",
    "people",
    "place",
    "prepare",
    "procedures",
    "progress",
    "quotes",
    "reader",
    "readings",
    "revision",
    "revisions",
    "sheet",
    "sheet_revision",
    "shelf",
    "snags",
    "stated_use",
    "stock",
    "ticks",
    "usage",
    "vehicle",
    "vehicle_events",
    "vehicles",
    "verify",
    "workday",
    "workdays",
]
