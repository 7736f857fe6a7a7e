"""What helps two parts that are in one place: which of them can give, and how."""

from __future__ import annotations

import math
from collections.abc import Iterable
from typing import Final

from layout.build.assemble import CASE
from layout.build.placed import Build, PlacedBody
from layout.parts.card.card_support import REACHES, ROOM_UNDER
from layout.parts.form.form import Role
from layout.questions.clearances.cures import caged, other_slot
from layout.questions.findings.advice import spoken
from layout.questions.findings.remedy import Remedy

__all__ = ["EITHER", "apart_remedy"]

EITHER: Final = Remedy(others="move one of them, or take a smaller one")
"""What helps where nothing is known of the two."""

_LINING: Final = "lining"
_CUT_BACK: Final = Remedy(others="cut the lining back there")
_TOLD: Final = Remedy(others="measure both on the board, and correct the file")
_LARGER: Final = Remedy(others="take a case with more room there")


def apart_remedy(build: Build, a: PlacedBody, b: PlacedBody) -> Remedy:
    """Return what helps where two bodies meet, by what of them can move.

    Nothing of a case moves by itself, and a board has its place: what stands in their
    way gives.

    Notes
    -----
    A case with more room is no help where a part meets another one.
    """
    if a.part == b.part != CASE:
        return _TOLD
    kinds = {part.key: part.kind for part in build.parts}
    ours = [each for each in (a, b) if each.part != CASE]
    if len(ours) == 1 and (lower := _lower_post(build, ours[0])):
        return Remedy(others=lower)
    giving = [each for each in ours if kinds.get(each.part) not in _FIXED] or ours
    helps = [_gives(build, each, kinds.get(each.part, "")) for each in giving]
    if any(e.part == CASE and e.name.endswith(_LINING) for e in (a, b)):
        # a smaller part often meets it just so: a radiator's tanks lie on any size
        helps = [Remedy(each.tried) for each in helps] + [_CUT_BACK]
    elif len(ours) < 2:
        helps.append(_LARGER)
    return Remedy(
        tried=_any_of(each.tried for each in helps),
        others=_any_of(each.others for each in helps),
    )


def _lower_post(build: Build, body: PlacedBody) -> str:
    """Return what post to take where one is higher than the room under its card."""
    stated = {k: v for e in build.parts if e.key == body.part for k, v in e.stated}
    if REACHES not in stated or stated[REACHES].mm <= stated[ROOM_UNDER].mm:
        return ""
    return f"take a post that sets to {math.floor(stated[ROOM_UNDER].mm)} mm or shorter"


_FIXED: Final = frozenset({"board", "processor"})
"""Kinds that give only at the case itself."""


def _any_of(told: Iterable[str]) -> str:
    return ", or ".join(each for each in dict.fromkeys(told) if each)


def _gives(build: Build, body: PlacedBody, kind: str) -> Remedy:
    """Return how a part gives way."""
    name = spoken(body.part)
    if body.role is Role.HOSE:
        return Remedy(others=f"have the hoses of {name} leave elsewhere")
    if body.role in {Role.FAN, Role.RADIATOR} and body.where is not None:
        smaller = _RADIATOR if kind == "liquid cooler" else _smaller(name)
        return Remedy(f"move {name} to another mount", smaller)
    if kind == "card" and other_slot(build, (body,)):
        return Remedy(f"put {name} into another slot")
    if kind == "drive":
        cage = f"move the cage of {name}, or " if caged(build, (body,)) else ""
        return Remedy(f"{cage}put {name} elsewhere")
    tried, others = _BY_KIND.get(kind, ("", f"move {{}} or {_smaller(name)}"))
    return Remedy(tried.format(name), others.format(name))


def _smaller(name: str) -> str:
    """Return the advice to take a smaller one of what a sentence calls so."""
    _, the, own = name.partition("the ")
    if not the:
        return f"take a smaller one for {name}"
    several = own.endswith("s") and not own.endswith("ss")
    return f"take smaller {own}" if several else f"take a smaller {own}"


_RADIATOR: Final = "take a smaller radiator"
_COOLER: Final = ("", "take a smaller cooler")
_BY_KIND: Final = {
    "board": ("", "take a smaller board"),
    "processor": ("", "take another cooler"),
    "memory": ("take lower memory", ""),
    "tower cooler": _COOLER,
    "twin tower": _COOLER,
    "low cooler": _COOLER,
    "liquid cooler": ("", "take one with a smaller pump block"),
    "supply": ("", "take a smaller supply"),
    "cage": ("move {} or take it out", ""),
    "card": ("", "take a smaller card"),
    "m.2 drive": ("", "put {} elsewhere"),
    "card support": ("", "move {} along the card"),
}
"""By kind what is tried, and what else helps."""
