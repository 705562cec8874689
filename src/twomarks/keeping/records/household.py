"""The household (the tenant), its people and its home place."""

from __future__ import annotations

import uuid

from django.db import models

__all__ = ["HelpCallRow", "HomePlaceRow", "HouseholdBeingClosed", "HouseholdRow", "PersonRow"]


class HouseholdRow(models.Model):
    """A household: the number of its last ledger row and the head of the chain over all of them."""

    id = models.UUIDField(primary_key=True, default=uuid.uuid4, editable=False)
    name = models.CharField(max_length=120)
    last_number = models.BigIntegerField(default=0)
    chain_head = models.CharField(max_length=64, default="", blank=True)

    class Meta:
        db_table = "household"
        constraints = [models.CheckConstraint(condition=models.Q(last_number__gte=0), name="household_counts_up")]

    def __str__(self) -> str:
        return self.name


class PersonRow(models.Model):
    """A person of a household, and how they read: market, units by kind, zone, currency, decimal mark."""

    id = models.UUIDField(primary_key=True, default=uuid.uuid4, editable=False)
    household = models.ForeignKey(HouseholdRow, on_delete=models.PROTECT, related_name="+")
    name = models.CharField(max_length=120)
    role = models.CharField(max_length=16, default="owner")
    language = models.CharField(max_length=16, default="en")
    market = models.CharField(max_length=16, default="metric")
    units = models.TextField(default="{}")
    zone = models.CharField(max_length=64, default="UTC")
    currency = models.CharField(max_length=3, default="EUR")

    class Meta:
        db_table = "person"
        constraints = [
            models.UniqueConstraint(fields=["household", "name"], name="person_name"),
            models.CheckConstraint(condition=models.Q(role__in=["owner", "member", "reader"]), name="person_role"),
        ]

    def __str__(self) -> str:
        return self.name


class HomePlaceRow(models.Model):
    """Where the household's vehicles stand; names the climate record (a document) of the place."""

    household = models.ForeignKey(HouseholdRow, on_delete=models.PROTECT, related_name="+")
    name = models.CharField(max_length=120)
    latitude = models.FloatField()
    longitude = models.FloatField()
    zone = models.CharField(max_length=64)
    climate = models.UUIDField(null=True)

    class Meta:
        db_table = "home_place"
        constraints = [
            models.UniqueConstraint(fields=["household"], name="home_place_one"),
            models.CheckConstraint(condition=models.Q(latitude__gte=-90, latitude__lte=90), name="home_place_latitude"),
            models.CheckConstraint(condition=models.Q(longitude__gte=-180, longitude__lte=180), name="home_place_longitude"),
        ]

    def __str__(self) -> str:
        return self.name


class HelpCallRow(models.Model):
    """What is said on the telephone when somebody is hurt at the household's place: the number to call, and where it is."""

    household = models.ForeignKey(HouseholdRow, on_delete=models.PROTECT, related_name="+")
    number = models.CharField(max_length=24, blank=True, default="")
    address = models.CharField(max_length=240, blank=True, default="")

    class Meta:
        db_table = "help_call"
        constraints = [models.UniqueConstraint(fields=["household"], name="help_call_one")]

    def __str__(self) -> str:
        return self.number


class HouseholdBeingClosed(models.Model):
    """The household whose ledger rows may be deleted now; filled and emptied by one service in its transaction."""

    household = models.UUIDField(primary_key=True)

    class Meta:
        db_table = "household_being_closed"

    def __str__(self) -> str:
        return str(self.household)
