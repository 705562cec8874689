"""How service categories are written: the spellings of labels and handbooks, and the one of the tables."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import cache

from twomarks.errors import InputError
from twomarks.reference.oil_categories import CategoryRow, categories

__all__ = ["Category", "parse_category"]


@dataclass(frozen=True, slots=True)
class Category:
    """A service category, such as API CK-4 or ACEA C3 of the edition of 2021; `year` 0 where the label names none."""

    body: str
    name: str
    year: int = 0

    @property
    def key(self) -> str:
        """The name without the year, as the tables have it."""
        return f"{self.body} {self.name}"

    @property
    def row(self) -> CategoryRow:
        """What the tables say of it."""
        return categories()[self.key]

    def __str__(self) -> str:
        return f"{self.key}-{self.year % 100:02}" if self.year else self.key


def _squeezed(text: str) -> str:
    return re.sub(r"[^A-Z0-9]", "", text.upper().replace("+", "PLUS"))


@cache
def _spellings() -> dict[str, str]:
    return {_squeezed(key): key for key in categories()}


@cache
def _bare() -> dict[str, str]:
    bare: dict[str, str] = {}
    for key, row in categories().items():
        bare.setdefault(_squeezed(row.name), key)
    return bare


_YEAR = re.compile(r"(.*[A-Z]\d{1,2})(?:\s*[-–(]\s*((?:19|20)?\d{2})\)?|\s+(20\d{2}))")


def parse_category(text: str, *, body: str = "") -> Category:
    """Return the service category written in a text.

    Parameters
    ----------
    text : str
        Such as ``API CK-4``, ``acea c3-21``, ``A3/B4`` or ``SN Plus``.
    body : str
        Who issues it, where the text itself does not say (``API`` in ``API SP/CK-4``).

    Returns
    -------
    Category
        The category in the spelling of the tables.

    Raises
    ------
    InputError
        If no known category is written like this.

    Notes
    -----
    Case, spaces, hyphens and "service" do not matter; an edition is read after ACEA classes only, of two digits or four.
    Departs from the sources: none.

    References
    ----------
    api_guide, acea_update_rule
    """
    upper = re.sub(r"\s+", " ", text.strip().upper()).replace("API SERVICE", "API")
    upper = re.sub(r"^(JASO)?[ :-]*T ?903[ :-]*", lambda match: f"{match[1] or ''} ", upper).strip()
    year = 0
    if upper.startswith("ACEA") or body.upper() == "ACEA" or _bare().get(_squeezed(upper)) is None:
        dated = _YEAR.fullmatch(upper)
        if dated and ("ACEA" in (upper.split(" ")[0], body.upper()) or _bare().get(_squeezed(dated[1]), "").startswith("ACEA")):
            upper, year = dated[1], _year(dated[2] or dated[3])
    squeezed = _squeezed(upper)
    key = _spellings().get(squeezed) or (_spellings().get(_squeezed(body) + squeezed) if body else _bare().get(squeezed))
    if key is None:
        raise InputError("oil.category_unknown", found=text, example="API CK-4")
    row = categories()[key]
    return Category(row.body, row.name, year)


def _year(digits: str) -> int:
    """Return the year of an edition of two digits or four; the first was that of 1996."""
    if len(digits) == 4:
        return int(digits)
    return int(digits) + (1900 if int(digits) > 90 else 2000)
