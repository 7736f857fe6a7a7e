"""How much room a text takes on paper: measured without any drawing library."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterator
from functools import lru_cache
from typing import Final

__all__ = [
    "EM_PER_HEIGHT",
    "NO_BREAK",
    "fitted",
    "has_outlines",
    "plain",
    "unbroken",
    "width_mm",
    "wrapped",
]

NO_BREAK: Final = "\N{NO-BREAK SPACE}"
"""Set as a space, at which no line ends."""

_TOGETHER: Final = re.compile(
    r"(?<=\d) (?=mm\b)|(?<=[a-z]) (?=\d+(?:$|,| \N{EN DASH}))"
)
"""Spaces before a unit, and before the number that ends a name."""

EM_PER_HEIGHT: Final = 2048 / 1493
"""Type size over the height of a capital, which is what ISO 3098 calls the height."""

ASCENT: Final = 1556 / 1493
DESCENT: Final = 483 / 1493
"""Reach over and under the base line of letters without accents, per height."""

_UNITS: Final = 2048

# Advance widths of DejaVu Sans 2.37 and its bold, in units of the em, read from the
# fonts' tables of horizontal metrics: U+0020 to U+007E, then U+00A0 to U+00FF.
_ASCII: Final = (
    "651 821 942 1716 1303 1946 1597 563 799 799 1024 1716 651 739 651 690 1303 1303 "
    "1303 1303 1303 1303 1303 1303 1303 1303 690 690 1716 1716 1716 1087 2048 1401 "
    "1405 1430 1577 1294 1178 1587 1540 604 604 1343 1141 1767 1532 1612 1235 1612 "
    "1423 1300 1251 1499 1401 2025 1403 1251 1403 799 690 799 1716 1024 1024 1255 "
    "1300 1126 1300 1260 721 1300 1298 569 569 1186 569 1995 1298 1253 1300 1300 842 "
    "1067 803 1298 1212 1675 1212 1212 1075 1303 690 1303 1716"
)
_LATIN_1: Final = (
    "651 821 1303 1303 1303 1303 690 1024 1024 2048 965 1253 1716 739 2048 1024 1024 "
    "1716 821 821 1024 1303 1303 651 1024 821 965 1253 1985 1985 1985 1087 1401 1401 "
    "1401 1401 1401 1401 1995 1430 1294 1294 1294 1294 604 604 604 604 1587 1532 1612 "
    "1612 1612 1612 1612 1716 1612 1499 1499 1499 1499 1251 1239 1290 1255 1255 1255 "
    "1255 1255 1255 2011 1126 1260 1260 1260 1260 569 569 569 569 1253 1298 1253 1253 "
    "1253 1253 1253 1716 1253 1298 1298 1298 1298 1212 1300 1212"
)
_BOLD_ASCII: Final = (
    "713 934 1067 1716 1425 2052 1786 627 936 936 1071 1716 778 850 778 748 1425 "
    "1425 1425 1425 1425 1425 1425 1425 1425 1425 819 819 1716 1716 1716 1188 2048 "
    "1585 1561 1503 1700 1399 1399 1681 1714 762 762 1587 1305 2038 1714 1741 1501 "
    "1741 1577 1475 1397 1663 1585 2259 1579 1483 1485 936 748 936 1716 1024 1024 "
    "1382 1466 1214 1466 1389 891 1466 1458 702 702 1362 702 2134 1458 1407 1466 "
    "1466 1010 1219 979 1458 1335 1892 1321 1335 1192 1458 748 1458 1716"
)
_BOLD_LATIN_1: Final = (
    "713 934 1425 1425 1303 1425 748 1024 1024 2048 1155 1323 1716 850 2048 1024 "
    "1024 1716 897 897 1024 1507 1303 778 1024 897 1155 1323 2120 2120 2120 1188 "
    "1585 1585 1585 1585 1585 1585 2222 1503 1399 1399 1399 1399 762 762 762 762 "
    "1716 1714 1741 1741 1741 1741 1741 1716 1741 1663 1663 1663 1663 1483 1511 "
    "1473 1382 1382 1382 1382 1382 1382 2146 1214 1389 1389 1389 1389 702 702 702 "
    "702 1407 1458 1407 1407 1407 1407 1407 1716 1407 1458 1458 1458 1458 1335 1466 "
    "1335"
)
_MORE: Final = "\u2013…≥≤\u2212“”"
_MORE_ADVANCES: Final = "1024 2048 1716 1716 1716 1061 1061"
_BOLD_MORE: Final = "1024 2048 1716 1716 1716 1346 1346"


def _table(ascii_letters: str, latin_1: str, more: str) -> dict[str, int]:
    letters = [*map(chr, range(0x20, 0x7F)), *map(chr, range(0xA0, 0x100)), *_MORE]
    advances = f"{ascii_letters} {latin_1} {more}".split()
    return dict(zip(letters, map(int, advances), strict=True))


_ADVANCE: Final = _table(_ASCII, _LATIN_1, _MORE_ADVANCES)
_BOLD_ADVANCE: Final = _table(_BOLD_ASCII, _BOLD_LATIN_1, _BOLD_MORE)
_UNKNOWN: Final = 2900
"""Wider than any letter of the Latin, Greek and Cyrillic blocks, bold included."""


@lru_cache(maxsize=4096)  # a sheet asks the same of many a text
def width_mm(text: str, height_mm: float, *, bold: bool = False) -> float:
    """Return the width of a line of text, kerning left out (it only narrows).

    Parameters
    ----------
    text : str
        One line.
    height_mm : float
        Height of a capital.
    """
    advance = _BOLD_ADVANCE if bold else _ADVANCE
    units = sum(advance.get(each, _UNKNOWN) for each in text)
    return units / _UNITS * EM_PER_HEIGHT * height_mm


def has_outlines(text: str) -> bool:
    """Tell whether every letter is one whose width is known."""
    return all(each in _ADVANCE for each in text)


@lru_cache(maxsize=4096)
def plain(text: str) -> str:
    r"""Return the text on one line, without what no letter stands for.

    Examples
    --------
    >>> plain("front\n  fans")
    'front fans'
    """
    kept = (
        " " if unicodedata.category(each) in _UNPRINTABLE else each for each in text
    )
    return " ".join("".join(kept).split())


_UNPRINTABLE: Final = frozenset({"Cc", "Cf", "Cs", "Co", "Cn", "Zl", "Zp"})


def unbroken(text: str) -> str:
    r"""Return a text in which no number loses its unit, nor a name its number.

    Examples
    --------
    >>> unbroken("fan 1, 9 mm").split(" ") == ["fan\xa01,", "9\xa0mm"]
    True
    """
    return _TOGETHER.sub(NO_BREAK, text)


def fitted(text: str, height_mm: float, most_mm: float, *, bold: bool = False) -> str:
    """Return the text, cut with an ellipsis where it is wider than allowed."""
    if width_mm(text, height_mm, bold=bold) <= most_mm:
        return text
    while text and width_mm(text + "…", height_mm, bold=bold) > most_mm:
        text = text[:-1]
    return text.rstrip() + "…"


@lru_cache(maxsize=4096)  # a table is set several ways before one is taken
def wrapped(
    text: str, height_mm: float, most_mm: float, *, bold: bool = False
) -> tuple[str, ...]:
    """Return the text broken into lines no wider than allowed, nothing left out.

    Lines break between words, but not at a no-break space; a word that is wider than
    a line is broken too.
    """
    lines: list[str] = []
    for word in filter(None, text.split(" ")):
        longer = f"{lines[-1]} {word}" if lines else word
        if lines and width_mm(longer, height_mm, bold=bold) <= most_mm:
            lines[-1] = longer
        else:
            lines.extend(_pieces(word, height_mm, most_mm, bold=bold))
    return tuple(each.replace(NO_BREAK, " ") for each in lines)


def _pieces(
    word: str, height_mm: float, most_mm: float, *, bold: bool
) -> Iterator[str]:
    """Yield a word in pieces that fit; a single letter always does."""
    piece = ""
    for letter in word:
        if piece and width_mm(piece + letter, height_mm, bold=bold) > most_mm:
            yield piece
            piece = ""
        piece += letter
    yield piece
