"""A supply's vent at a wall that is perforated for it, wholly or in part."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import Final

from layout.build.placed import PlacedBody
from layout.geometry.space import Axis
from layout.parts.form import Role
from layout.questions.remedy import Remedy
from layout.questions.rule import Rule
from layout.questions.walls import OUTWARDS

__all__ = ["before_vent"]

_PERFORATED: Final = "case/perforated {}"
_COVERS: Final = "the {}'s closed sheet covers part of the {}'s fan, and chokes it"
_REMEDY: Final = Remedy(
    "turn the supply's intake to the other side",
    "take a case that is perforated under the whole fan",
)


_NORMALS: Final = {
    **{role: to.axis for role, to in OUTWARDS.items()},
    Role.TRAY: Axis.WIDTH,
    Role.SHROUD: Axis.HEIGHT,
}
"""Across which axis each sheet of a case lies."""


def before_vent(
    rule: Rule, vent: PlacedBody, wall: PlacedBody, *, bodies: Sequence[PlacedBody]
) -> Rule | None:
    """Return what is asked of a vent and a wall; None where the wall is not before it.

    A wall whose perforated part lies over the whole vent lets air in: the closed sheet
    round it is no object before the vent.  A wall, tray or shroud beside the vent is
    none either.
    """
    if vent.role is not Role.SUPPLY_VENT or wall.role not in _NORMALS:
        return rule
    a, normal = vent.body.bounds, _NORMALS[wall.role].index
    deep_mm = [high - low for low, high in zip(a.low, a.high, strict=True)]
    if deep_mm[normal] > min(deep_mm):
        return None
    _, _, name = wall.name.partition("/")
    mesh = next((e for e in bodies if e.name == _PERFORATED.format(name)), None)
    if mesh is None:
        return rule
    b = mesh.body.bounds
    across = [k for k in range(3) if k != normal]
    if all(b.low[k] <= a.low[k] and a.high[k] <= b.high[k] for k in across):
        return None
    return replace(rule, why=_COVERS.format(name, vent.part), remedy=_REMEDY, cures=())
