"""The user model of the pages, which points at a person of the household."""
