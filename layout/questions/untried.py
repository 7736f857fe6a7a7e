"""What may still help where no change that was tried does: other parts, another case.

A rule's own remedy names changes that the program tries; once they have failed they
would mislead, and only what it cannot try is left.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Final

__all__ = ["HOSE_REACH", "HOSE_REMEDIES", "NOTHING", "left_of"]

HOSE_REACH: Final = "hoses-reach"
HOSE_REMEDIES: Final = (
    "turn the radiator end for end, take another mount, or a cooler with longer hoses",
    "turn the radiator end for end, take another mount, or longer hoses",
)

NOTHING: Final = (
    "nothing that can be tried mends it: take other parts, or a case with more room"
)

_TRIED: Final = re.compile(
    r"end for end|\bmount\b|\bslot\b|raise the fan|intake to"
    r"|another place for (?:the drive|it)|move the cage|take it out"
    r"|angled plugs?\b(?! there)"
    r"|thinner (?:fans|card|radiator|rear fan)|lower (?:card|cooler|memory)"
    r"|shorter (?:card|supply)"
)
"""Changes that the program tries itself, as remedies name them."""
_ELSEWHERE: Final = re.compile(r"put .* elsewhere|shorter one")
"""A change that is tried of cards and drives, but of what is screwed on a board."""
_BETWEEN: Final = re.compile(r", or |, (?!of )|(?<!smaller)(?<!higher)(?<!block) or ")
_VERB: Final = re.compile(r"(?:take|put|move|leave|turn|use|clear|lead|raise|plug) ")

_SMALLER: Final = re.compile(r"take (?:a smaller one|smaller ones)")
_PUMP: Final = ("the pump block or the radiator", "the pump block")
"""A pump block's turns are not among what is tried."""

_NAMED: Final = {
    "move it to the other side": "move the fan to the cooler's other side",
    "take one with its ports elsewhere": (
        "take a radiator for {} with its ports elsewhere"
    ),
    "take one with its leads fixed": "take a supply with its leads fixed",
    "take none over the cooler": "leave out the fan over the cooler",
    "take none there": "leave out the fan there",
    "take a cooler with more room over it": (
        "take a cooler with more room over the memory"
    ),
    "leave it out": "leave the fan out",
    "clear what is before it": "clear what is before {}",
    "clear what is under it": "clear what is under {}",
}
"""Alternatives that lean on one before them, as they stand alone."""


def left_of(remedy: str, *, of: str, on_board: bool = False) -> str:
    """Return what of a remedy is left once every change that it names has failed.

    Parameters
    ----------
    remedy : str
        As a rule tells it; one that names no change that is tried stays as it is.
    of : str
        The part that is to give, as a sentence uses it.
    on_board : bool
        Whether one of the parts is screwed on the board, with no place but its own.

    Examples
    --------
    >>> left_of("take a lower card, an angled plug, or a wider case", of="the card")
    'take a wider case'
    >>> left_of("put the drive elsewhere", of="stick", on_board=True)
    'put the drive elsewhere'
    """
    told = list(_alternatives(remedy.replace(*_PUMP)))
    left = [e for e in told if not _is_tried(e, on_board=on_board)]
    if len(left) == len(told) and _PUMP[0] not in remedy:
        return remedy
    if not left:
        return NOTHING
    first = left[0] = _NAMED.get(left[0], left[0]).format(of)
    if _SMALLER.fullmatch(left[0]):
        both = sum(bool(_SMALLER.fullmatch(each)) for each in left) > 1
        left = [each for each in left if not _SMALLER.fullmatch(each)]
        left.insert(0, "take a smaller one of the two" if both else f"{first} for {of}")
    return ", or ".join(left)


def _alternatives(remedy: str) -> Iterator[str]:
    """Yield what a remedy names, each with its verb."""
    verb = "take "
    for each in _BETWEEN.split(remedy):
        own = _VERB.match(each)
        verb = own[0] if own else verb
        yield each if own else f"{verb}{each}"


def _is_tried(told: str, *, on_board: bool) -> bool:
    return bool(_TRIED.search(told)) or (not on_board and bool(_ELSEWHERE.search(told)))
