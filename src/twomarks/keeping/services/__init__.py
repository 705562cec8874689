"""The only writers: each takes a scope first, and does all of its work or none."""
