"""One sentence on what a finding means for the build, and what to do about it."""

from __future__ import annotations

import re
from typing import Final

from layout.geometry.relations.relation import Overlap
from layout.geometry.space import Axis
from layout.parts.form.link import said_mm
from layout.questions.findings.finding import Finding, Verdict, is_doubtful
from layout.questions.findings.shown import places_of, shown

__all__ = [
    "advice",
    "is_hole",
    "over_all",
    "percent",
    "remedy_of",
    "short",
    "spoken",
    "whose",
]


_BRACKET: Final = "bracket"
"""What a card holds on to the case's opening with."""
_CUT_OUT: Final = "cut-out"
"""What the case's holes for cables are named by."""

_MEASURE: Final = "measure first: "
_ITSELF: Final = "the gap itself"
_IN_BRACKETS: Final = re.compile(r"\([^()]*\)")


_PIECES: Final = {
    "main power": "main power socket",
    "processor power": "processor power socket",
    "internal usb": "internal USB socket",
    "drive data": "drive data sockets",
}
"""Pieces whose names say what they are for, and what they are."""

_NOUNS: Final = {
    "optical": "optical drive",
    "sound": "sound card",
    "graphics": "graphics card",
    "network": "network card",
    "capture": "capture card",
}
"""Keys that are no noun, and what builders mean by them."""


def spoken(name: str) -> str:
    """Return a body's name as a sentence uses it.

    Examples
    --------
    >>> spoken("case/side panel"), spoken("cooler/fan 1"), spoken("disk 1")
    ('the side panel', "the cooler's fan 1", 'disk 1')
    >>> spoken("case/cut-out top edge"), spoken("board/main power")
    ('the cut-out “top edge”', "the board's main power socket")
    >>> spoken("radiator/radiator hoses")
    "the radiator's hoses"
    """
    part, _, piece = name.partition("/")
    if not piece:
        named = _NOUNS.get(part, part)
        return named if part[-1:].isdigit() else f"the {named}"
    if part == "case":
        hole = piece.partition(f"{_CUT_OUT} ")[2] if is_hole(name) else ""
        return f"the {_CUT_OUT} “{hole}”" if hole else f"the {piece}"
    piece = _PIECES.get(piece, piece).removeprefix(f"{part} ")
    owner = f"{part}'" if part.endswith("s") else f"{part}'s"
    return f"the {owner} {piece}"


def whose(name: str) -> str:
    """Return a body's name as the owner of what follows.

    Examples
    --------
    >>> whose("supply"), whose("front fans")
    ("the supply's", "the front fans'")
    """
    owner = spoken(name)
    return f"{owner}'" if owner.endswith("s") else f"{owner}'s"


def _verb(name: str) -> str:
    """Return the verb for one thing or for several: leads reach, a card reaches."""
    return "reach" if name.endswith("s") and not name.endswith("ss") else "reaches"


def is_hole(name: str) -> bool:
    """Tell whether a body of this name is a hole: what meets it covers it."""
    _, _, piece = name.partition("/")
    return piece.startswith(_CUT_OUT)


def _met(names: tuple[str, str], mm: float) -> str:
    """Return how one body meets another: a hole is covered, not reached into.

    Examples
    --------
    >>> _met(("board", "case/cut-out upper edge"), 3.0), _met(("card", "cage"), 7.25)
    ('covers 3.0 mm of', 'reaches 7.2 mm into')
    """
    if is_hole(names[1]):
        return f"covers {mm:.1f} mm of"
    return f"{_verb(names[0])} {mm:.1f} mm into"


def percent(chance: float) -> str:
    """Return a probability as a person says it.

    Examples
    --------
    >>> percent(0.0), percent(0.004), percent(0.164), percent(0.998), percent(1.0)
    ('0 %', 'under 1 %', '16 %', 'over 99 %', '100 %')
    """
    if 0.0 < chance < 0.01:
        return "under 1 %"
    if 0.99 < chance < 1.0:
        return "over 99 %"
    return f"{100 * chance:.0f} %"


def _mended(text: str, remedy: str, measure: tuple[str, ...]) -> str:
    """Return what is wrong, what to do, and what to measure before doing it."""
    todo = f"{text}: {remedy}" if remedy else text
    return f"{todo}; {_MEASURE}{'; '.join(measure)}" if measure else todo


def short(
    text: str, remedy: str, measure: tuple[str, ...], *, off_mm: tuple[float, float]
) -> str:
    """Return what is wanting and what to do: first of all measure where it is little.

    Parameters
    ----------
    off_mm : (float, float)
        Margin and tolerance, mm.
    """
    margin_mm, scatter_mm = off_mm
    if not is_doubtful(margin_mm, scatter_mm):
        return _mended(text, remedy, measure)
    small = f"{text}, far less than the figures may be off ({said_mm(scatter_mm)})"
    return _mended(small, "order no other part for it yet", measure or (_ITSELF,))


def remedy_of(finding: Finding) -> str:
    """Return what a finding's advice says is to be done, without what is wrong.

    What is wrong ends at the first colon that stands neither in brackets nor behind
    the part's own name; advice that has none there is a remedy only where something
    is missing.
    """
    told = finding.advice.partition(f"; {_MEASURE}")[0]
    if told.startswith(_MEASURE):
        return ""
    told = told.removeprefix(f"{spoken(finding.a)}: ")
    open_text = _IN_BRACKETS.sub(lambda found: "." * len(found[0]), told)
    wrong, colon, _ = open_text.partition(": ")
    if colon:
        return told[len(wrong + colon) :]
    return told if finding.verdict is Verdict.MISSING else ""


def over_all(names: tuple[str, str], remedy: str, measure: tuple[str, ...]) -> str:
    """Return the sentence of a body that lies over all of a hole.

    By how much it does tells nothing then.
    """
    a, b = map(spoken, names)
    text = f"{a} covers the whole of {b}, and no cable passes there"
    return _mended(text, remedy, measure)


def advice(
    names: tuple[str, str],
    verdict: Verdict,
    *,
    numbers: tuple[float, float, float],
    axis: Axis | None,
    overlap: Overlap | None,
    remedy: str,
    measure: tuple[str, ...],
    chance: float | None = None,
) -> str:
    """Return the sentence.

    Parameters
    ----------
    names : (str, str)
        Bodies a and b.
    numbers : (float, float, float), mm
        Gap, need and tolerance.
    measure : tuple of str
        The assumptions without which the verdict would be another.
    chance : float, optional
        The probability that the gap is under its need; default: not told.
    """
    a, b = map(spoken, names)
    gap_mm, need_mm, tolerance_mm = numbers
    if verdict is Verdict.CLASH and overlap is not None:
        if a.endswith(_BRACKET) and b.endswith(_BRACKET):
            owners = (each.removesuffix(f"'s {_BRACKET}") for each in (a, b))
            text = f"{' and '.join(owners)} take the same opening of the case"
            return _mended(text, remedy, measure)
        give_mm = overlap.mm + need_mm
        more = f", {need_mm:.1f} of them the room it needs" if need_mm else ""
        text = (
            f"{a} {_met(names, overlap.mm)} {b}; "
            f"{give_mm:.1f} mm must give along {overlap.axis.value}{more}"
        )
        return _mended(text, remedy, measure)
    if verdict is Verdict.SHORT:
        along = f" along {axis.value}" if axis else ""
        give_mm = need_mm - gap_mm
        places = places_of(give_mm)
        text = (
            f"{shown(gap_mm, places=places)} mm lie between {a} and {b} where "
            f"{shown(need_mm, places=places)} are needed; {shown(give_mm)} mm must "
            f"give{along}"
        )
        return short(text, remedy, measure, off_mm=(-give_mm, tolerance_mm))
    if measure:
        return f"{_MEASURE}{'; '.join(measure)}"
    if verdict is Verdict.TIGHT:
        told = None if chance is None else percent(chance)
        likely = "" if told is None else f" (chance of too little: {told})"
        return (
            f"{gap_mm:.1f} mm lie between {a} and {b} where {need_mm:.1f} are needed, "
            f"but the figures may be off by {tolerance_mm:.1f}{likely}: "
            "measure before ordering"
        )
    return ""
