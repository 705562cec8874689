"""What the framework must know about the pages: features, middleware, templates, content policy; `app` puts it into the settings."""

from __future__ import annotations

from typing import Any

__all__ = ["APPS", "CONTENT_SECURITY_POLICY", "MIDDLEWARE", "STORAGES", "TEMPLATES", "USER_MODEL"]

FEATURES = ("look", "start", "due", "vehicles", "procedures", "workdays", "shelf", "daybook", "settings")
APPS = [
    "django.contrib.contenttypes",
    "django.contrib.auth",
    "django.contrib.staticfiles",
    "twomarks.web.accounts",
    *(f"twomarks.web.{feature}" for feature in FEATURES),
]
USER_MODEL = "accounts.User"
MIDDLEWARE = [
    "django.middleware.security.SecurityMiddleware",
    "whitenoise.middleware.WhiteNoiseMiddleware",
    "csp.middleware.CSPMiddleware",
    "django.middleware.common.CommonMiddleware",
    "django.middleware.csrf.CsrfViewMiddleware",
    "django.middleware.clickjacking.XFrameOptionsMiddleware",
    "twomarks.web.visit.VisitMiddleware",
    "twomarks.web.faults.FaultMiddleware",
]
TEMPLATES: list[dict[str, Any]] = [
    {
        "BACKEND": "django.template.backends.django.DjangoTemplates",
        "APP_DIRS": True,
        "OPTIONS": {"context_processors": ["django.template.context_processors.csrf", "twomarks.web.visit.shown_on_every_page"]},
    }
]
STORAGES = {
    "default": {"BACKEND": "django.core.files.storage.InMemoryStorage"},
    "staticfiles": {"BACKEND": "django.contrib.staticfiles.storage.StaticFilesStorage"},
}
_SELF, _NONE = "'self'", "'none'"
CONTENT_SECURITY_POLICY = {
    "DIRECTIVES": {
        "default-src": [_SELF],
        "object-src": [_NONE],
        "base-uri": [_NONE],
        "form-action": [_SELF],
        "frame-ancestors": [_NONE],
    }
}
