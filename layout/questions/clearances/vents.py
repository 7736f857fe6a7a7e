"""What lies before a vent or a mains inlet: walls perforated for it are no object."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import Final

from layout.build.placed import PlacedBody
from layout.geometry.relations.relation import CONTACT_TOLERANCE_MM
from layout.geometry.space import Axis, Direction
from layout.parts.case.case_panels import SidePanel
from layout.parts.form.form import Role
from layout.questions.clearances.rule import Rule
from layout.questions.findings.remedy import Remedy
from layout.questions.findings.walls import OUTWARDS

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
    rule: Rule,
    vent: PlacedBody,
    other: PlacedBody,
    *,
    bodies: Sequence[PlacedBody],
    panel: SidePanel | None,
) -> Rule | None:
    """Return what is asked of a vent or inlet; None where the other is not before it.

    A wall whose perforated part lies over the whole vent lets air in: the closed sheet
    round it is no object before the vent.  A wall, tray or shroud beside the vent is
    none either.
    """
    if vent.role is Role.SUPPLY_INLET:
        return rule if _before_inlet(vent, other) else None
    if other.name == _PANEL and panel is not None and panel.vented:
        return None if vent.role in _VENTS else rule
    if vent.role is not Role.SUPPLY_VENT or other.role not in _NORMALS:
        return rule
    return _at_wall(rule, vent, other, bodies=bodies)


_PANEL: Final = "case/side panel"
_VENTS: Final = frozenset({Role.SUPPLY_VENT, Role.CARD_VENT, Role.COOLER_VENT})


def _before_inlet(inlet: PlacedBody, other: PlacedBody) -> bool:
    """Tell whether something lies where the mains plug goes in.

    An inlet at the case's top or front reaches through that wall; none does through
    the floor, on which the case stands.
    """
    looks = inlet.turn.direction(Direction.REAR)
    k, box, wall = looks.axis.index, inlet.body.bounds, other.body.bounds
    across = [i for i in range(3) if i != k]
    if any(wall.high[i] <= box.low[i] or box.high[i] <= wall.low[i] for i in across):
        return False
    ahead_mm = (
        wall.low[k] - box.high[k] if looks.sign > 0 else box.low[k] - wall.high[k]
    )
    if looks is not Direction.DOWN and OUTWARDS.get(other.role) is looks:
        return ahead_mm > CONTACT_TOLERANCE_MM
    beyond_mm = (
        wall.high[k] - box.high[k] if looks.sign > 0 else box.low[k] - wall.low[k]
    )
    return beyond_mm > CONTACT_TOLERANCE_MM


def _at_wall(
    rule: Rule, vent: PlacedBody, wall: PlacedBody, *, bodies: Sequence[PlacedBody]
) -> Rule | None:
    """Return what is asked of a supply's vent and a wall, tray or shroud."""
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
