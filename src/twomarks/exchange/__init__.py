"""Files in and out, and the versioned JSON of commands and API."""
