"""The user of the pages: a name and a password that open one person's household."""

from __future__ import annotations

from typing import ClassVar

from django.contrib.auth.base_user import AbstractBaseUser, BaseUserManager
from django.db import models

__all__ = ["User"]


class User(AbstractBaseUser):
    """A user; the person it points at belongs to exactly one household. Served on this computer alone, nobody needs one."""

    name = models.CharField(max_length=120, unique=True)
    person = models.OneToOneField("keeping.PersonRow", on_delete=models.PROTECT, related_name="+")
    is_active = models.BooleanField(default=True)

    USERNAME_FIELD = "name"
    REQUIRED_FIELDS: ClassVar[list[str]] = ["person"]

    objects = BaseUserManager()

    class Meta:
        db_table = "account"

    def __str__(self) -> str:
        return self.name
