"""Workdays: what a day needs, whether it is ready, and the job card it is worked from."""
