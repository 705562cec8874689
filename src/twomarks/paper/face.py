"""Which signs the face on paper holds, and what is done with those it lacks: an equal sign in its place, or a refusal in words."""

from __future__ import annotations

import struct
import unicodedata
from functools import cache

from twomarks import packaged
from twomarks.errors import InputError

__all__ = ["FACES", "missing_signs", "printable", "signs"]

FACES = ("paper/fonts/atkinson-hyperlegible-next-400.ttf", "paper/fonts/atkinson-hyperlegible-next-600.ttf")
_UNICODE_MAPS = ((3, 1), (0, 3), (0, 4))
_BY_SEGMENTS = 4
_ALIKE = str.maketrans(
    {
        "\u2300": "Ø",
        "\u2205": "Ø",
        "\u2032": "'",
        "\u2033": '"',
        "\u2010": "-",
        "\u2011": "-",
        "\u2015": "\u2014",
        "\u00ad": None,
        "\u200b": None,
        "\ufe0f": None,
        "\t": " ",
    }
)


@cache
def signs() -> frozenset[str]:
    """Return the signs that both weights of the face hold."""
    first, *others = (_signs_of(packaged.data(path)) for path in FACES)
    return first.intersection(*others)


def _signs_of(face: bytes) -> frozenset[str]:
    """Read the map from signs to shapes of a TrueType file (OpenType specification, cmap, format 4)."""
    count = struct.unpack_from(">H", face, 4)[0]
    tables = {face[12 + 16 * n : 16 + 16 * n]: struct.unpack_from(">L", face, 20 + 16 * n)[0] for n in range(count)}
    start = tables[b"cmap"]
    for number in range(struct.unpack_from(">H", face, start + 2)[0]):
        platform, encoding, offset = struct.unpack_from(">HHL", face, start + 4 + 8 * number)
        if (platform, encoding) in _UNICODE_MAPS and struct.unpack_from(">H", face, start + offset)[0] == _BY_SEGMENTS:
            return _by_segments(face, start + offset)
    raise InputError("paper.face", found=str(sorted(tables)))


def _by_segments(face: bytes, start: int) -> frozenset[str]:
    size = struct.unpack_from(">H", face, start + 6)[0]
    half = size // 2
    ends = struct.unpack_from(f">{half}H", face, start + 14)
    starts = struct.unpack_from(f">{half}H", face, start + 16 + size)
    return frozenset(chr(code) for low, high in zip(starts, ends, strict=True) for code in range(low, high + 1) if code != 0xFFFF)


def printable(text: str) -> str:
    """Return `text` with accents joined to their letters and signs that the face lacks put by an equal sign, where there is one."""
    joined = unicodedata.normalize("NFC", text).translate(_ALIKE)
    if signs().issuperset(joined.replace("\n", "")):
        return joined
    return "".join(sign if sign in signs() or sign == "\n" else _equal(sign) for sign in joined)


def _equal(sign: str) -> str:
    spread = unicodedata.normalize("NFKC", sign)
    return spread if signs().issuperset(spread) else sign


def missing_signs(text: str) -> tuple[str, ...]:
    """Return the signs of a printable text that the face lacks, each once, in order."""
    return tuple(dict.fromkeys(sign for sign in text if sign not in signs() and sign != "\n"))
