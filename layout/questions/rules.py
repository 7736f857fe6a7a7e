"""The rules: which bodies need room between them, how much, why, and who says so."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from layout.build.placed import PlacedBody
from layout.parts.form import BEHIND_TRAY, Role
from layout.questions.finding import Group
from layout.standards.figure import COMMON_PRACTICE
from layout.standards.supplies import VENT_CLEARANCE

__all__ = ["NO_INTERFERENCE", "RULES", "Picked", "Rule"]


@dataclass(frozen=True, slots=True)
class Picked:
    """Which bodies a rule means.

    Parameters
    ----------
    roles : frozenset of Role
    where : frozenset of str, optional
        The places they sit at; default: wherever they sit.
    elsewhere : str, optional
        A place at which they do not sit.
    named : str, optional
        The one part or body meant; default: all of those roles.
    """

    roles: frozenset[Role]
    where: frozenset[str] | None = None
    elsewhere: str | None = None
    named: str | None = None

    def holds(self, body: PlacedBody) -> bool:
        """Tell whether the rule means this body."""
        return (
            body.role in self.roles
            and (self.where is None or body.where in self.where)
            and (self.elsewhere is None or body.where != self.elsewhere)
            and (self.named is None or self.named in {body.part, body.name})
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Rule:
    """A need between two sorts of bodies.

    Parameters
    ----------
    a, b : tuple of Picked
        A body is meant where any of them holds; which of two bodies is a and which
        is b decides how the finding reads.
    nearest_only : bool
        Whether only the nearest b of each a makes a finding.
    remedy : str
        What a builder does when the room is not there.
    """

    name: str
    group: Group = Group.DISTANCE
    a: tuple[Picked, ...]
    b: tuple[Picked, ...]
    need_mm: float
    why: str
    source: str = COMMON_PRACTICE
    remedy: str
    nearest_only: bool = False

    def means(self, a: PlacedBody, b: PlacedBody) -> bool:
        """Tell whether the rule asks about this ordered pair."""
        return any(each.holds(a) for each in self.a) and any(
            each.holds(b) for each in self.b
        )


NO_INTERFERENCE: Final = "no-interference"
"""Name of the rule for every pair that no other rule names."""


def _of(*roles: Role, on: str | None = None) -> Picked:
    """Pick bodies by role; ``on`` names the mounts, separated by blanks."""
    return Picked(frozenset(roles), frozenset(on.split()) if on else None)


_COOLER = (_of(Role.COOLER, Role.COOLER_FAN),)
_CARD = (_of(Role.CARD, Role.CARD_PLUG),)
_ON_FRONT = _of(Role.FAN, Role.RADIATOR, on="front")
_RISING = (
    _of(Role.BOARD, Role.MEMORY, Role.REGULATOR_HEATSINK),
    _of(Role.REAR_CONNECTORS, Role.BOARD_CONNECTOR),
)
_STORAGE = (Picked(frozenset({Role.CAGE, Role.DRIVE}), elsewhere=BEHIND_TRAY),)
_SHROUD = (
    _of(Role.SHROUD),
    Picked(frozenset({Role.GRILLE}), named="case/shroud"),  # a perforated one
)

RULES: Final = (
    Rule(
        name="panel-over-cooler",
        a=(*_COOLER, _of(Role.PUMP_BLOCK)),
        b=(_of(Role.SIDE_PANEL),),
        need_mm=2.0,
        why="the panel must close without pressing on the cooler",
        remedy="take a lower cooler or a wider case",
    ),
    Rule(
        name="cooler-over-memory",
        a=_COOLER,
        b=(_of(Role.MEMORY),),
        need_mm=1.0,
        why="a fan must not rest on the memory, and modules must come out",
        remedy="take lower memory, raise the fan, or move it to the other side",
    ),
    Rule(
        name="cooler-over-board-parts",
        a=_COOLER,
        b=(_of(Role.REGULATOR_HEATSINK, Role.REAR_CONNECTORS),),
        need_mm=1.0,
        why="fins and fan must pass the heatsinks and connectors round the socket",
        remedy="take a cooler with higher or narrower fins",
    ),
    Rule(
        name="cooler-beside-card",
        a=_COOLER,
        b=(_of(Role.CARD, Role.CARD_BRACKET),),
        need_mm=2.0,
        why="the card must slide in past the cooler",
        remedy="use a lower slot or a cooler that is narrower towards the card",
    ),
    Rule(
        name="cooler-under-top",
        a=_COOLER,
        b=(_of(Role.FAN, Role.RADIATOR, on="top"),),
        need_mm=2.0,
        why="what hangs from the top must not rest on the cooler",
        remedy="take thinner fans at the top or none over the cooler",
    ),
    Rule(
        name="cooler-before-rear-fan",
        a=_COOLER,
        b=(_of(Role.FAN, Role.RADIATOR, on="rear"),),
        need_mm=3.0,
        why="the rear fan must go in and out past the cooler",
        remedy="take a thinner rear fan or a cooler that is shallower to the rear",
    ),
    Rule(
        name="card-to-front",
        a=_CARD,
        b=(_of(Role.FRONT), _ON_FRONT, *_STORAGE),
        need_mm=5.0,
        why="a card is tilted into its slot and needs play at its far end",
        remedy="take a shorter card, or clear what is before it",
        nearest_only=True,
    ),
    Rule(
        name="card-over-card",
        a=(_of(Role.CARD),),
        b=(_of(Role.CARD),),
        need_mm=5.0,
        why="the card's fans must have something to breathe",
        remedy="put one of the cards into another slot",
    ),
    Rule(
        name="card-to-panel",
        a=_CARD,
        b=(_of(Role.SIDE_PANEL),),
        need_mm=2.0,
        why="the panel must close without pressing on the card or its plug",
        remedy="take a lower card, an angled plug, or a wider case",
    ),
    Rule(
        name="card-above-floor",
        a=(_of(Role.CARD),),
        b=(
            _of(Role.FLOOR),
            *_SHROUD,
            _of(Role.FAN, Role.RADIATOR, on="floor"),
        ),
        need_mm=5.0,
        why="the card's fans must have something to breathe",
        remedy="use a higher slot, or clear what is under the card",
        nearest_only=True,
    ),
    Rule(
        name="supply-to-cage",
        a=(_of(Role.SUPPLY),),
        b=_STORAGE,
        need_mm=2.0,
        why="the supply must slide in past the cage",
        remedy="move the cage, take it out, or take a shorter supply",
    ),
    Rule(
        name="leads-to-cage",
        a=(_of(Role.SUPPLY_LEADS),),
        b=(*_STORAGE, _of(Role.FAN, Role.RADIATOR, on="front floor")),
        need_mm=15.0,
        why="the leads must bend away behind their plugs",
        remedy="move the cage, take it out, or take a shorter supply",
    ),
    Rule(
        name="supply-under-shroud",
        a=(_of(Role.SUPPLY),),
        b=_SHROUD,
        need_mm=1.0,
        why="the supply must slide in under the shroud",
        remedy="take a supply of a lower form",
    ),
    # The rear panel is beside the vent of a supply screwed to it, never before it.
    Rule(
        name="supply-vent",
        a=(_of(Role.SUPPLY_VENT),),
        b=(_of(*(role for role in Role if role.stops_air and role is not Role.REAR)),),
        need_mm=VENT_CLEARANCE.mm,
        why="objects near a supply's vent choke its fan",
        source=VENT_CLEARANCE.source,
        remedy="turn the supply's intake to the other side or clear what is before it",
        nearest_only=True,
    ),
    Rule(
        name="radiator-ends",
        a=(_of(Role.RADIATOR, on="front"),),
        b=(_of(Role.FLOOR, Role.TOP), *_SHROUD),
        need_mm=1.0,
        why="a radiator is longer than its fans by both end tanks",
        remedy="take a radiator a size shorter, or mount it farther from the end",
    ),
    Rule(
        name="top-radiator-ends",
        a=(_of(Role.RADIATOR, on="top"),),
        b=(_of(Role.FRONT, Role.REAR), _of(Role.FAN, on="rear"), _ON_FRONT),
        need_mm=1.0,
        why="a radiator is longer than its fans by both end tanks",
        remedy="take a radiator a size shorter, or mount it farther from the end",
    ),
    Rule(
        name="mount-to-board",
        a=(_of(Role.FAN, Role.RADIATOR, on="top front floor"),),
        b=_RISING,
        need_mm=1.0,
        why="fans and radiators must pass the board and what rises from it",
        remedy="take thinner fans or radiator, lower memory, or another mount",
        nearest_only=True,
    ),
    Rule(
        name="cage-to-front-fans",
        a=_STORAGE,
        b=(_ON_FRONT,),
        need_mm=3.0,
        why="the fans must go in and out past the cage",
        remedy="move the cage or take it out",
    ),
    Rule(
        name="board-to-cut-out",
        a=(_of(Role.BOARD),),
        b=(_of(Role.CUT_OUT),),
        need_mm=5.0,
        why="cables must pass the cut-out beside the board's edge",
        remedy="take a smaller board or a case with its cut-outs farther out",
    ),
    Rule(
        name="drive-behind-tray",
        a=(Picked(frozenset({Role.DRIVE}), where=frozenset({BEHIND_TRAY})),),
        b=(_of(Role.BACK_PANEL),),
        need_mm=2.0,
        why="the back panel must close without pressing on the drive",
        remedy="take a thinner drive or another place for it",
    ),
    Rule(
        name="room-behind-tray",
        a=(_of(Role.TRAY),),
        b=(_of(Role.BACK_PANEL),),
        need_mm=15.0,
        why="the thickest cable must lie behind the tray with the back panel closed",
        remedy="lead the thickest cable elsewhere or take a case with more room there",
    ),
)
