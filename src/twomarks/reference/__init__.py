"""Bibliography, published tables with a source in every row, and vocabulary."""
