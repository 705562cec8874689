"""What `selfcheck` looks at: the home, each household's ledgers, the parts that ship with the package."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Literal

from twomarks.errors import TwomarksError
from twomarks.words import Message, message_of, say

if TYPE_CHECKING:
    from twomarks.keeping.health import Health

__all__ = ["LookedAt", "of_home", "of_ledgers", "of_package"]

State = Literal["in order", "look at this", "not in order"]
GOOD: State = "in order"
DOUBTFUL: State = "look at this"
BAD: State = "not in order"
LEAST_FREE_MB, LITTLE_FREE_MB = 50, 500
OLD_COPY_DAYS = 3.0


@dataclass(frozen=True, slots=True)
class LookedAt:
    """One thing that was looked at, whether it is in order, and in what words."""

    thing: str
    state: State
    what: Message


def of_home(found: Health) -> Iterator[LookedAt]:
    """Yield what the home's database, disk and copies are like."""
    if found.damage:
        yield LookedAt("database", BAD, say("selfcheck.database_damaged", found=found.damage[0], count=len(found.damage)))
    else:
        yield LookedAt("database", GOOD, say("selfcheck.database", kind=found.kind))
    if found.schema is not None:
        state = GOOD if found.schema == found.schema_expected else BAD
        key = "selfcheck.schema" if state == GOOD else "selfcheck.schema_other"
        yield LookedAt("schema", state, say(key, found=found.schema, expected=found.schema_expected))
    if found.triggers_missing:
        yield LookedAt("triggers", BAD, say("selfcheck.triggers_missing", found=found.triggers_missing))
    else:
        yield LookedAt("triggers", GOOD, say("selfcheck.triggers", count=found.triggers))
    state = BAD if found.free_mb < LEAST_FREE_MB else DOUBTFUL if found.free_mb < LITTLE_FREE_MB else GOOD
    yield LookedAt("disk", state, say("selfcheck.disk" if state == GOOD else "selfcheck.disk_low", free=found.free_mb))
    yield _copies(found)


def _copies(found: Health) -> LookedAt:
    if found.copies is None:
        return LookedAt("backups", DOUBTFUL, say("selfcheck.backups_own"))
    if found.newest_copy_days is None:
        return LookedAt("backups", DOUBTFUL, say("selfcheck.backups_none"))
    old = found.newest_copy_days > OLD_COPY_DAYS
    key = "selfcheck.backups_old" if old else "selfcheck.backups"
    return LookedAt("backups", DOUBTFUL if old else GOOD, say(key, count=found.copies, days=int(found.newest_copy_days)))


def of_ledgers() -> Iterator[LookedAt]:
    """Yield whether each household's ledgers are whole, row by row along the chain."""
    from twomarks.keeping import questions
    from twomarks.keeping.health import scopes

    households = scopes()
    if not households:
        yield LookedAt("ledgers", GOOD, say("selfcheck.no_household"))
    for name, scope in households:
        verified = questions.verify(scope)
        if verified.whole:
            yield LookedAt("ledgers", GOOD, say("selfcheck.chain", household=name, count=verified.rows, head=verified.head[:16]))
        for fault in verified.faults:
            yield LookedAt("ledgers", BAD, say("selfcheck.chain_fault", household=name, fault=fault))


def of_package() -> Iterator[LookedAt]:
    """Yield whether the parts that ship are there and can be read."""
    parts = {"fonts": _fonts, "procedures": _procedures, "schemas": _schemas, "texts": _texts}
    for thing, look in parts.items():
        try:
            count = look()
        except TwomarksError as error:
            yield LookedAt(thing, BAD, say("selfcheck.part_missing", part=thing, fault=message_of(error)))
        else:
            state = GOOD if count else BAD
            yield LookedAt(thing, state, say("selfcheck.part" if count else "selfcheck.part_empty", part=thing, count=count))
    missing = _missing_files()
    if missing:
        yield LookedAt("package", BAD, say("selfcheck.files_missing", count=len(missing), found=missing[:3]))


def _fonts() -> int:
    from twomarks import packaged

    names = packaged.names("paper/fonts", ".ttf")
    return len(names) if all(packaged.data(f"paper/fonts/{name}") for name in names) else 0


def _procedures() -> int:
    from twomarks.procedures.library import library

    return len(library())


def _schemas() -> int:
    from twomarks.exchange.answers.catalogue import ANSWERS
    from twomarks.exchange.answers.schemas import schema_of as answer_schema
    from twomarks.model.loading import DOCUMENTS
    from twomarks.model.schemas import schema_of

    return sum(bool(schema_of(form)) for form in DOCUMENTS) + sum(bool(answer_schema(name)) for name in ANSWERS)


def _texts() -> int:
    from twomarks.words import keys

    return len(keys())


def _missing_files() -> tuple[str, ...]:
    """Return the files that the installed package lists but does not have; none in a checkout, which lists none."""
    from importlib.metadata import PackageNotFoundError, files

    try:
        listed = files("twomarks") or []
    except PackageNotFoundError:
        return ()
    return tuple(str(one) for one in listed if not str(one).startswith("..") and not Path(one.locate()).exists())
