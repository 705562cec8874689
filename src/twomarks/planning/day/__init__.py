"""The order of a day's work: the steps of several jobs, merged so that waits are used and set-ups are shared."""

from __future__ import annotations
