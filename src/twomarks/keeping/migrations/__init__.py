"""The migrations of what is kept: none is ever removed, changed or squashed once released."""
