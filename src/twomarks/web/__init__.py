"""Pages: one folder per feature with its own templates, static files and help."""
