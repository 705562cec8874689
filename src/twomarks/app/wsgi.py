"""The pages as a WSGI application, for the server that `twomarks serve` starts."""

from __future__ import annotations

import os

from django.core.wsgi import get_wsgi_application

__all__ = ["application"]

os.environ.setdefault("DJANGO_SETTINGS_MODULE", "twomarks.app.settings.full")
application = get_wsgi_application()
