"""What the label of an oil says: grade, categories, approvals, the seller's own words, and what was not understood."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, field
from functools import cache

from twomarks.errors import InputError
from twomarks.reference.oil_categories import categories
from twomarks.trade.arrays import require
from twomarks.trade.category_names import Category, parse_category
from twomarks.trade.doubt import CODE, GRADE, doubts_approval, doubts_category, doubts_grade, takes_back
from twomarks.trade.gear_grades import GearOilGrade, parse_gear_grade
from twomarks.trade.grades import EngineOilGrade, parse_grade
from twomarks.trade.label_marks import fluid_of, marks_in, without_marks

__all__ = ["Label", "approval_key", "read_label", "same_approval"]

LONGEST = 1000
"""Characters of the longest label that is read."""


@dataclass(frozen=True, slots=True)
class Label:
    """A label as understood; `claims` are the seller's words for what nobody but the seller vouches for.

    `marks` are words with a meaning of their own, such as ``DOT 4`` or ``limited slip``; `fluid` is "" where it is not said.
    """

    text: str = ""
    grade: EngineOilGrade | GearOilGrade | None = None
    categories: tuple[Category, ...] = ()
    approvals: tuple[str, ...] = ()
    claims: tuple[str, ...] = ()
    not_understood: tuple[str, ...] = ()
    marks: tuple[str, ...] = ()
    fluid: str = ""


@dataclass(slots=True)
class _Reading:
    grade: EngineOilGrade | GearOilGrade | None = None
    categories: list[Category] = field(default_factory=list)
    approvals: list[str] = field(default_factory=list)
    claims: list[str] = field(default_factory=list)
    not_understood: list[str] = field(default_factory=list)
    marks: list[str] = field(default_factory=list)
    mode: str = ""
    body: str = ""
    year: str = ""
    torn: bool = False


_SAYS_APPROVED = re.compile(
    r"\b(?:officially\s+)?(?:approvals?|approved|licensed|homologated)(?:\s+(?:by|to|for|under))?"
    r"(?:\s+(?:the\s+)?(?:maker|manufacturer)s?)?\b[:\s]*",
    re.IGNORECASE,
)
_NOT_APPROVED = re.compile(r"\b(?:not|no|without|pending|never)\b[\w\s-]{0,12}$|\bnon[- ]?$", re.IGNORECASE)
_FRESH = re.compile(r"\b(?:and|but)\s*$", re.IGNORECASE)
_WANTED = re.compile(
    r"\b(?:requir\w*|pending|applied|asks?|asked|calls?|called|needs?|needed|necessary|prescribed|specif\w+)\b", re.IGNORECASE
)
_CLAIM = re.compile(
    r"\b(?:suitable|recommended|designed|formulated|compatible|equivalent|intended)\b(?:\s+(?:for|with|to)\b)?(?:\s+(?:use|applications?)\b)?(?:\s+(?:where|in|with|requiring)\b)?"
    r"|\b(?:can|may|to)\s+be\s+used(?:\s+(?:for|in|where))?\b|\bfor\s+use(?:\s+(?:in|where|with))?\b|\bperformance\s+level\b"
    r"|\b(?:meets?|meeting|exceeds?|satisf(?:y|ies)|fulfils?|conforms?|complies|corresponds?)\b"
    r"(?:\s+(?:(?:and|or|&|/)\s*)?(?:exceeds?|with|to|the)\b)*(?:\s+requirements?(?:\s+of)?)?",
    re.IGNORECASE,
)
_GRADE = re.compile(
    r"\b(?:SAE\s*)?\d{1,2}\s*W\s*[-–/ ]?\s*\d{1,3}\b|\b(?:SAE(?:\s*HD)?|HD|mono-?grade|straight)[\s:-]*\d{1,3}(?:\s*W)?\b"
    r"|\b\d{1,2}\s*W\b(?!\s*[-/]?\s*\d)",
    re.IGNORECASE,
)
_GRADE_WORDS = re.compile(r"\b(?:HD|mono-?grade|straight)[\s:-]*", re.IGNORECASE)
_BODY = re.compile(r"\b(API(?:\s+SERVICE)?|ACEA|ILSAC|JASO)\b", re.IGNORECASE)
_EDITION = r"(?:\s*[-(]\s*(?:(?:19|20)\d{2}|\d{2})\b\)?|\s+20[0-3]\d\b)?"
_YEAR_FIRST = re.compile(r"\b(ACEA)[\s:-]*((?:19|20)\d{2})\b", re.IGNORECASE)
_TWO_B = re.compile(r"\bA(\d)\s*/\s*B(\d)\s*/\s*B(\d)\b", re.IGNORECASE)
_SPLIT_NAME = re.compile(r"\bM(A)-([12])\b", re.IGNORECASE)
_NEEDS_BODY = re.compile(r"E[235]", re.IGNORECASE)
"""Classes that read like a kind of petrol ("E5") unless the label names who issues them."""


@cache
def _category_pattern() -> re.Pattern[str]:
    names = sorted({row.name for row in categories().values()}, key=len, reverse=True)
    spelt = [re.escape(name).replace(r"\ ", r"\s*").replace("PLUS", r"(?:PLUS|\+)").replace(r"\-", r"[-\s]?") for name in names]
    return re.compile(
        rf"(?:T\s?903\s*[:-]?\s*)?(?<![A-Z0-9])(?<![A-Z0-9]-)(?:{'|'.join(spelt)}){_EDITION}(?![A-Z0-9])(?!\s?\+(?!\s*[A-Z]))",
        re.IGNORECASE,
    )


def approval_key(text: str) -> str:
    """Return an approval as it is compared: apart from case, spaces and hyphens, nothing may differ.

    Parameters
    ----------
    text : str
        The maker's code as printed.

    Returns
    -------
    str
        The code without spaces and hyphens, in one case.

    Notes
    -----
    Nothing is inferred from a code: no maker's list of successors is known here. Departs from the sources: none.

    References
    ----------
    house_judgement
    """
    return re.sub(r"[\s\-–\u00a0]", "", text).casefold()


def same_approval(one: str, other: str) -> bool:
    """Return whether two texts name the same approval.

    Parameters
    ----------
    one : str
        A maker's code as printed.
    other : str
        Another.

    Returns
    -------
    bool
        True where they are alike apart from case, spaces and hyphens. Where both part their digits they part them alike: EX
        22-95 is not EX 229-5, and EX 2295 may be either.

    Notes
    -----
    Compared as text alone; one code never stands in for another. Departs from the sources: none.

    References
    ----------
    house_judgement
    """
    if approval_key(one) != approval_key(other):
        return False
    digits, others = _digits(one), _digits(other)
    return digits == others or "" in (_parted(one), _parted(other))


def _parted(code: str) -> str:
    """Return the first sign that parts two digits, "" where none does."""
    found = re.search(r"(?<=\d)[\s\-–\u00a0]+(?=\d)", code)
    return found[0] if found else ""


def _digits(code: str) -> tuple[str, ...]:
    return tuple(re.findall(r"\d+", code))


def read_label(text: str) -> Label:
    """Return what an oil's label says.

    Parameters
    ----------
    text : str
        The label as typed, in any order, such as ``SAE 5W-30, API SP/CK-4, ACEA C3-21, approval EX 229-5``.

    Returns
    -------
    Label
        What stands after "meets", "suitable for" and the like is a claim, never a category or an approval, and so is what
        other words beside it leave in doubt ("ACEA C3 level", "replaces ACEA C3"); what could not be read is listed, not
        dropped. Of two different grades on a label neither is taken.

    Raises
    ------
    InputError
        If the text is longer than a label can be, 1000 characters.

    Notes
    -----
    Approvals are what follows "approval" or "approved", up to a semicolon, a full stop or a line's end. Gear oil grades (70W
    and up) are told from engine oil grades by their numbers. "ACEA 2016 C3" is an edition, "ACEA A3/B3/B4" are two classes.
    Departs from the sources: none.

    References
    ----------
    sae_j300, sae_j306, api_guide
    """
    require(len(text) <= LONGEST, "label.too_long", found=len(text), expected=LONGEST)
    read = _Reading()
    spelt = _SPLIT_NAME.sub(r"M\1\2", _TWO_B.sub(r"A\1/B\2 A\1/B\3", text))
    for sentence in re.split(r"[;\n•|]|\.(?=\s|$)", spelt):
        read.mode = read.body = read.year = ""
        before = len(read.categories), len(read.approvals)
        for part in re.split(r",(?!\d)", sentence):
            if takes_back(part) and not re.search(r"\d", part):
                _take_back(read, *before)
            _take(read, part)
    return Label(
        " ".join(text.split()),
        read.grade,
        tuple(dict.fromkeys(read.categories)),
        tuple(dict.fromkeys(read.approvals)),
        tuple(dict.fromkeys(read.claims)),
        tuple(dict.fromkeys(read.not_understood)),
        tuple(dict.fromkeys(read.marks)),
        fluid_of(marks=read.marks, grade=read.grade, categories=read.categories),
    )


def _take_back(read: _Reading, categories: int, approvals: int) -> None:
    """Turn into claims what a sentence has said of categories and approvals beyond these counts."""
    read.claims += [str(category) for category in read.categories[categories:]] + read.approvals[approvals:]
    del read.categories[categories:], read.approvals[approvals:]


def _take(read: _Reading, part: str) -> None:
    if _GRADE.fullmatch(part.strip()):
        _take_grade(read, part)
        return
    for mode, words in _moods(part):
        if mode:
            read.mode = mode
            read.body = ""
        if read.mode == "approval":
            _approvals(read, words)
        elif read.mode == "claim":
            read.claims += [said for said in [_tidy(words)] if said]
        else:
            _plain(read, words)


def _moods(part: str) -> Iterator[tuple[str, str]]:
    """Yield the stretches of a part, each with the mode that its first words switch to ("" goes on as before)."""
    marks = [(match.start(), match.end(), "claim") for match in _CLAIM.finditer(part)]
    for match in _SAYS_APPROVED.finditer(part):
        refused = _NOT_APPROVED.search(part[: match.start()])
        within_claim = any(end <= match.start() for _, end, _ in marks) and not _FRESH.search(part[: match.start()])
        wanted = _WANTED.search(part[: match.start()]) or _WANTED.search(part[match.end() :])
        before = _category_pattern().sub(" ", _GRADE.sub(" ", _BODY.sub(" ", re.split(r"\b(?:and|but)\b", part[: match.start()])[-1])))
        doubted = doubts_approval(before, part[match.end() :])
        mode = "claim" if refused or within_claim or wanted or doubted else "approval"
        marks.append((refused.start() if refused else match.start(), match.end(), mode))
    at, mode = 0, ""
    for start, end, next_mode in sorted(marks):
        if start < at:
            continue
        if next_mode == "claim" and not mode and not part[end:].strip():
            break  # "ACEA C3 equivalent": the word belongs to what stands before it
        if part[at:start].strip() or mode:
            before = part[at:start]
            trailing = next_mode == "approval" and not mode and not part[end:].strip()
            yield (next_mode if trailing else mode), before
            if trailing:
                return
        at, mode = end, next_mode
    yield mode, part[at:]


def _approvals(read: _Reading, words: str) -> None:
    rest = _take_grade(read, words)
    for code in re.split(r"\s+/\s+|\s+(?:and|&)\s+|\s*\+\s*", rest):
        body = _BODY.search(code)
        named = _tidy(code[: body.start()] if body else code)
        if named and (re.search(r"\d", named) or named == named.upper()):
            read.approvals.append(named)
        elif named:
            # "see the handbook" is no code, and what follows it is none either.
            read.claims.append(named)
            read.mode = "claim"
        if body:
            _plain(read, code[body.start() :])


def _take_grade(read: _Reading, words: str) -> str:
    """Take the grade out of words, and return what is left of them; a second, different one leaves neither standing."""
    if doubts_grade(_GRADE.sub(GRADE, words)):
        return words
    rest, at = "", 0
    for match in _GRADE.finditer(words):
        grade = _grade(match[0])
        if grade is None:
            continue
        rest, at = f"{rest}{words[at : match.start()]} ", match.end()
        if read.grade is None and not read.torn:
            read.grade = grade
        elif grade != read.grade:
            read.not_understood += [str(one) for one in (read.grade, grade) if one is not None]
            read.grade, read.torn = None, True
    return rest + words[at:]


def _grade(text: str) -> EngineOilGrade | GearOilGrade | None:
    for parse in (parse_grade, parse_gear_grade):
        try:
            return parse(_GRADE_WORDS.sub("SAE ", re.sub("–", "-", text)).replace("SAE SAE", "SAE"))
        except InputError:
            continue
    return None


def _plain(read: _Reading, words: str) -> None:
    rest = _take_grade(read, words)
    coded = _category_pattern().sub(CODE, _BODY.sub(" ", _GRADE.sub(GRADE, without_marks(words))))
    if CODE in coded and doubts_category(coded):
        read.claims += [said for said in [_tidy(rest)] if said]
        read.mode = "claim"
        return
    read.marks += marks_in(rest)
    rest = without_marks(rest)
    dated = _YEAR_FIRST.search(rest)
    if dated:
        read.year = dated[2]
        rest = f"{rest[: dated.end(1)]}{rest[dated.end() :]}"
    pieces = _BODY.split(rest)
    left = [_take_categories(read, pieces[0], read.body)]
    for body, run in zip(pieces[1::2], pieces[2::2], strict=True):
        read.body = body.split()[0].upper()
        taken = _take_categories(read, run, read.body)
        left.append(f"{body} {taken}" if taken == run and run.strip() else taken)
    if read.grade is None and re.fullmatch(r"\s*\d{2}\s*", left[0]):
        read.grade = _grade(left[0])
        left[0] = "" if read.grade else left[0]
    read.not_understood += [word for word in (_tidy(part) for part in left) if word]


def _take_categories(read: _Reading, run: str, body: str) -> str:
    """Take the categories out of a run of words; return what is left of it."""
    found = []
    alone = not re.search(r"[A-Za-z0-9]", _category_pattern().sub("", run))
    for match in _category_pattern().finditer(run):
        category = _category(match[0], body)
        if category is None or (not body and _NEEDS_BODY.fullmatch(category.name)):
            continue
        if category.body == body or alone or re.search(r"\d", match[0]):
            found.append(match)
            if read.year and category.body == "ACEA" and not category.year:
                category = parse_category(f"{category}-{read.year}")
            read.categories.append(category)
    for match in reversed(found):
        run = run[: match.start()] + " " + run[match.end() :]
    return run


def _category(text: str, body: str) -> Category | None:
    """Return the category of a stretch, of this issuer or, where it issues none of that name, of any other."""
    for issuer in dict.fromkeys((body, "")):
        try:
            return parse_category(text, body=issuer)
        except InputError:
            continue
    return None


def _tidy(text: str) -> str:
    said = re.sub(r"\s+", " ", text).strip(" \t,:/-–()&=").lstrip("+ ")
    return "" if said.casefold() in ("", "sae", "and", "or", "with", "the", "to", "of") else said
