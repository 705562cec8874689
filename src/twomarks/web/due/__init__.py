"""Due: what needs you, and why."""
