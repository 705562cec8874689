"""Settings: `command` for the command line, `full` for the pages and for every migration."""
