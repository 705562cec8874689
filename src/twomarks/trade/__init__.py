"""The engineering: pure functions over floats with published sources; knows no documents."""
