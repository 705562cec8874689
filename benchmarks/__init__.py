"""Benches: each is a module with a `main` that times one thing as a ratio, prints it and writes its evidence."""
