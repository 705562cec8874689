"""When, with what, bought how, in what order: pure functions over procedures, documents and engineering."""
