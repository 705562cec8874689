"""Light settings for commands: what is kept, and nothing that only pages need. Migrations never run under these."""

from __future__ import annotations

from twomarks.app.settings.database import databases

INSTALLED_APPS = ["twomarks.keeping"]
DATABASES = databases()
DEFAULT_AUTO_FIELD = "django.db.models.BigAutoField"
USE_TZ = True
TIME_ZONE = "UTC"
USE_I18N = False
LOGGING_CONFIG = None
