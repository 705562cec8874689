"""Full settings: the pages, accounts, and every migration."""

from __future__ import annotations

import os
import secrets
from typing import Any

from twomarks.app.settings.database import databases
from twomarks.keeping.home import home_of
from twomarks.web import framework

_SECRET = home_of(None).secret

SECRET_KEY = _SECRET.read_text("ascii").strip() if _SECRET.is_file() else secrets.token_urlsafe(48)
DEBUG = False
ALLOWED_HOSTS = ["127.0.0.1", "localhost", "[::1]"]
TWOMARKS_ON = os.environ.get("TWOMARKS_ON", "")

INSTALLED_APPS = [*framework.APPS, "twomarks.keeping"]
AUTH_USER_MODEL = framework.USER_MODEL
MIDDLEWARE = framework.MIDDLEWARE
TEMPLATES: list[dict[str, Any]] = framework.TEMPLATES
CONTENT_SECURITY_POLICY = framework.CONTENT_SECURITY_POLICY
STORAGES = framework.STORAGES
ROOT_URLCONF = "twomarks.web.urls"
STATIC_URL = "/static/"
# The files of the package are served where they lie: nothing is gathered into a folder first.
WHITENOISE_USE_FINDERS = True
WHITENOISE_AUTOREFRESH = False

DATABASES = databases()
DEFAULT_AUTO_FIELD = "django.db.models.BigAutoField"
USE_TZ = True
TIME_ZONE = "UTC"
USE_I18N = False
SECURE_CONTENT_TYPE_NOSNIFF = True
SECURE_REFERRER_POLICY = "same-origin"
X_FRAME_OPTIONS = "DENY"
CSRF_COOKIE_HTTPONLY = False
CSRF_COOKIE_SAMESITE = "Lax"
