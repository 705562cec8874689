"""Every calculation of the engineering, asked by name from the command line."""
