"""What helps two parts that are in one place: which of them can give, and how."""

from __future__ import annotations

from typing import Final

from layout.build.placed import Build, PlacedBody
from layout.parts.form import Role
from layout.questions.advice import spoken
from layout.questions.cures import caged, other_slot

__all__ = ["EITHER", "apart_remedy"]

EITHER: Final = "move one of them, or take a smaller one"
"""What helps where nothing is known of the two."""

_CASE: Final = "case"
_LARGER: Final = "a case with more room there"


def apart_remedy(build: Build, a: PlacedBody, b: PlacedBody) -> str:
    """Return what helps where two bodies meet, by what of them can move.

    Nothing of a case moves by itself, and a board has its place: what stands in their
    way gives.

    Notes
    -----
    A case with more room is no help where a part meets another one.
    """
    kinds = {part.key: part.kind for part in build.parts}
    ours = [each for each in (a, b) if each.part != _CASE]
    giving = [each for each in ours if kinds.get(each.part) not in _FIXED] or ours
    told = [_gives(build, each, kinds.get(each.part, "")) for each in giving]
    if len(ours) < 2:
        takes = any("take a smaller" in e or "take smaller" in e for e in told)
        told.append(_LARGER if takes else f"take {_LARGER}")
    return ", or ".join(dict.fromkeys(told)) if told else EITHER


_FIXED: Final = frozenset({"board", "processor"})
"""Kinds that give only at the case itself."""


def _gives(build: Build, body: PlacedBody, kind: str) -> str:
    """Return how a part gives way."""
    name = spoken(body.part)
    several = body.part.endswith("s") and not body.part.endswith("ss")
    smaller = "take smaller ones" if several else "take a smaller one"
    if body.role is Role.HOSE:
        return f"have the hoses of {name} leave elsewhere"
    if body.role in {Role.FAN, Role.RADIATOR} and body.where is not None:
        if kind == "liquid cooler":
            smaller = "take a smaller radiator"
        return f"move {name} to another mount or {smaller}"
    if kind == "card":
        slot = other_slot(build, (body,))
        return f"put {name} into another slot" if slot else f"take a smaller {kind}"
    if kind == "drive" and caged(build, (body,)):
        return f"move the cage of {name}, or put {name} elsewhere"
    return _BY_KIND.get(kind, f"move {{}} or {smaller}").format(name)


_BY_KIND: Final = {
    "board": "take a smaller board",
    "processor": "take another cooler",
    "memory": "take lower memory",
    "tower cooler": "take a smaller cooler",
    "twin tower": "take a smaller cooler",
    "low cooler": "take a smaller cooler",
    "liquid cooler": "take one with a smaller pump block",
    "supply": "take a smaller supply",
    "cage": "move {} or take it out",
    "drive": "put {} elsewhere",
    "m.2 drive": "put {} elsewhere",
    "card support": "move {} along the card",
}
