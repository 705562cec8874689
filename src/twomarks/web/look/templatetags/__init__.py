"""Tags that templates draw sheets with."""
