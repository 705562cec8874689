"""Words on a label that take back what it seems to say: "not", "level", "replaces", "applied for", and the like."""

from __future__ import annotations

import re

__all__ = ["CODE", "GRADE", "doubts_approval", "doubts_category", "doubts_grade", "doubts_mark", "takes_back"]

CODE, GRADE = "\x00", "\x01"
"""What stands for a category, and for a viscosity grade, in words whose doubt is asked for."""

_DOUBT = re.compile(
    r"\b(?:not|no|non|none|nor|neither|never|without|cannot|lacks?|lacking|missing|un\w*approved|unlike|like|similar|comparable|equals?"
    r"|equivalent|basis|based|replac\w+|substitut\w*|alternative|supersed\w+|surpass\w*|exceed\w*|beyond|former\w*|previous\w*|once"
    r"|withdrawn|expired|revoked|refused|pending|applied|submitted|planned|review|preparation|requir\w*|asks?|asked|demand\w*|calls?|called"
    r"|needs?|needed|wants?|wanted|necessary|prescribed|where|if|unless|except|instead|than|behav\w+|test(?:s|ed|ing)|unofficial\w*|self"
    r"|dealers?|sellers?|customers?|candidate|see|check\w*|almost|nearly|close)\b|n['’]t\b|\?",
    re.IGNORECASE,
)
_AFTER_CODE = re.compile(rf"{CODE}[\W_]*(?:level|quality|performance|type|style|standard|technology)\b", re.IGNORECASE)
_LIKE = re.compile(
    rf"{GRADE}[\W_]*(?:like|equivalent|type|style|level|quality|performance|replacement|substitute|alternative)\b"
    rf"|\b(?:replac\w+|like|unlike|as|than|not|no|non|instead\s+of|similar\s+to|equivalent\s+to)[\W_]*{GRADE}",
    re.IGNORECASE,
)
_BEFORE = re.compile(rf"([^\W\d_][^\W\d_'’]*)[\W_]*?{CODE}")
_AFTER = re.compile(rf"{CODE}[^\w\x00\x01]*([^\W\d_][^\W\d_'’]*)(?![\w'’]|[\s-]*\d)")
_FOR = re.compile(rf"\b(?:for|to|in|on|as|with)\b[^{CODE}]*{CODE}", re.IGNORECASE)
_BESIDE = re.compile(
    r"and|or|of|oils?|lubricant|synthetic|mineral|multigrade|fully|full|semi|part|motor|engine|petrol|diesel|gasoline|service|categor(?:y|ies)"
    r"|class(?:es)?|specifications?|specs?|sequences?|rating|resource|energy|low|mid|high|saps|ash|plus|litres?|licensed|certified|is|are|for"
    r"|gear|axle|transmission|motorcycle|scooter"
)
_OF_APPROVAL = re.compile(rf"{_BESIDE.pattern}|but|maker(?:s|'s)?|manufacturer(?:s|'s)?|oem|official(?:ly)?|with|has|holds")
_LAST_WORD = re.compile(r"([^\W\d_][^\W\d_'’]*)[\W_]*$")
_BACK = re.compile(
    r"\b(?:withdrawn|expired|revoked|refused|pending|applied\s+for|no\s+longer|not\s+(?:yet|met|held|granted|claimed|licensed|certified))\b",
    re.IGNORECASE,
)


def _stranger(word: str, known: re.Pattern[str]) -> bool:
    """Return whether a word in small letters is none of those that a label has beside a code; names and codes have capitals."""
    return word == word.lower() and known.fullmatch(word) is None


def doubts_category(words: str) -> bool:
    """Return whether words, in which `CODE` stands for each category, leave it open that the oil has it.

    Parameters
    ----------
    words : str
        A stretch of a label, its categories replaced by `CODE` and its grades by `GRADE`.

    Returns
    -------
    bool
        True where a word takes it back, or one stands beside it that no plain label has there.

    Notes
    -----
    The words are those met on labels; an unknown one in small letters doubts too. Departs from the sources: none.

    References
    ----------
    common_practice
    """
    if _DOUBT.search(words) or _AFTER_CODE.search(words) or _FOR.search(words):
        return True
    return any(_stranger(match[1], _BESIDE) for beside in (_BEFORE, _AFTER) for match in beside.finditer(words))


def doubts_mark(words: str) -> bool:
    """Return whether words, in which `CODE` stands for a mark such as ``DOT 4``, leave it open that the fluid has it.

    Parameters
    ----------
    words : str
        A stretch of a label, one of its marks replaced by `CODE`.

    Returns
    -------
    bool
        True where a word takes it back, or says what the fluid is for instead of what it is.

    Notes
    -----
    Departs from the sources: none.

    References
    ----------
    common_practice
    """
    return bool(_DOUBT.search(words) or _AFTER_CODE.search(words) or _FOR.search(words))


def doubts_approval(before: str, after: str) -> bool:
    """Return whether the words around "approved" leave it open that the oil is.

    Parameters
    ----------
    before : str
        What stands before "approved" in the same part of the label.
    after : str
        What stands after it.

    Returns
    -------
    bool
        True where a word takes it back, or the one just before is none that goes with an approval.

    Notes
    -----
    Departs from the sources: none.

    References
    ----------
    common_practice
    """
    if _DOUBT.search(before) or _DOUBT.search(after) or re.search(r"\bfor\b", before, re.IGNORECASE):
        return True
    last = _LAST_WORD.search(before)
    return last is not None and bool(after.strip()) and _stranger(last[1], _OF_APPROVAL)


def doubts_grade(words: str) -> bool:
    """Return whether words, in which `GRADE` stands for each viscosity grade, only liken the oil to that grade.

    Parameters
    ----------
    words : str
        A part of a label, its grades replaced by `GRADE`.

    Returns
    -------
    bool
        True where a grade is one that the oil is like, or stands in for.

    Notes
    -----
    Departs from the sources: none.

    References
    ----------
    common_practice
    """
    return _LIKE.search(words) is not None


def takes_back(words: str) -> bool:
    """Return whether words without any code take back what stood before them, such as "applied for".

    Parameters
    ----------
    words : str
        A part of a label.

    Returns
    -------
    bool
        True where they do.

    Notes
    -----
    Departs from the sources: none.

    References
    ----------
    common_practice
    """
    return _BACK.search(words) is not None
