"""Plain write-ups read into drafts of procedures: a grammar and a vocabulary, and never a guess."""

from twomarks.procedures.write_ups.draft import DraftedStep, DraftedWriteUp, FigureOfWriteUp, drafted

__all__ = ["DraftedStep", "DraftedWriteUp", "FigureOfWriteUp", "drafted"]
