"""The only place that knows all rooms: settings, the command's entry point, serving and the demo."""
