"""The versioned JSON answers of commands and API, with their schemas."""
