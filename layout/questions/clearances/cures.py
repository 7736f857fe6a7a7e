"""What helps in one machine and not in another: a remedy and when it can be had.

A remedy names nothing that the machine does not have: no cage where a drive lies in
the case's own bay, no other slot on a board with one, no fan raised that is none.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Final, TypeAlias

from layout.build.assemble import CASE
from layout.build.placed import Build, PlacedBody
from layout.parts.form.form import Role
from layout.questions.findings.remedy import Remedy
from layout.values import dataclass

__all__ = [
    "Cure",
    "When",
    "among",
    "behind_socket",
    "both",
    "caged",
    "can_raise",
    "first_fitting",
    "has",
    "in_case",
    "other_slot",
    "riser_card",
    "under_riser_card",
]

When: TypeAlias = Callable[[Build, tuple[PlacedBody, ...]], bool]
"""Whether something holds of a machine and the bodies that a finding names."""

_TOWERS: Final = frozenset({"tower cooler", "twin tower"})


@dataclass(frozen=True, slots=True)
class Cure:
    """What helps, and when it can be had."""

    remedy: Remedy
    when: When


def first_fitting(
    cures: Sequence[Cure],
    usual: Remedy,
    build: Build,
    *,
    bodies: tuple[PlacedBody, ...],
) -> Remedy:
    """Return the first cure that the machine can have, else what always helps."""
    return next((each.remedy for each in cures if each.when(build, bodies)), usual)


def among(*roles: Role, on: str | None = None) -> When:
    """Ask whether one of the bodies has a role, on a face where one is named."""

    def holds(build: Build, bodies: tuple[PlacedBody, ...]) -> bool:
        del build
        return any(e.role in roles and (on is None or e.where == on) for e in bodies)

    return holds


def has(*roles: Role, on: str | None = None) -> When:
    """Ask whether the machine has a body of a role, on a face where one is named."""
    asked = among(*roles, on=on)
    return lambda build, bodies: bool(bodies) and asked(build, build.bodies)


def both(one: When, other: When) -> When:
    """Ask whether two things hold."""
    return lambda build, bodies: one(build, bodies) and other(build, bodies)


def in_case(build: Build, bodies: tuple[PlacedBody, ...]) -> bool:
    """Tell whether one of the bodies is a wall of the case."""
    del build
    return any(each.part == CASE for each in bodies)


def behind_socket(build: Build, bodies: tuple[PlacedBody, ...]) -> bool:
    """Tell whether one of the bodies is a hole in the tray behind the socket."""
    chips = [e.body.bounds for e in build.bodies if e.role is Role.PROCESSOR]
    holes = [e.body.bounds for e in bodies if e.role is Role.CUT_OUT]
    return any(
        all(h.low[k] <= c.low[k] and c.high[k] <= h.high[k] for k in (0, 1))
        for h in holes
        for c in chips
    )


def caged(build: Build, bodies: tuple[PlacedBody, ...]) -> bool:
    """Tell whether one of the bodies is a cage, or a drive in one."""
    cages = {each.part for each in build.bodies if each.role is Role.CAGE}
    hosts = {part.key: part.hosts for part in build.parts}
    return any(
        each.part in cages or not cages.isdisjoint(hosts.get(each.part, ()))
        for each in bodies
    )


def riser_card(build: Build, bodies: tuple[PlacedBody, ...]) -> bool:
    """Tell whether one of the bodies is of a card on a riser bracket."""
    return any(not _in_slot(build, each.part) for each in _cards(bodies))


def under_riser_card(build: Build, bodies: tuple[PlacedBody, ...]) -> bool:
    """Tell whether one of the bodies is a support under a card on a riser bracket."""
    hosts = {part.key: part.hosts for part in build.parts}
    borne = [
        host
        for each in bodies
        if each.role is Role.CARD_SUPPORT
        for host in hosts.get(each.part, ())
    ]
    return any(not _in_slot(build, host) for host in borne)


def other_slot(build: Build, bodies: tuple[PlacedBody, ...]) -> bool:
    """Tell whether a card among the bodies is in a slot, and its board has others."""
    cards = _cards(bodies)
    slots = [e for e in build.bodies if e.role is Role.CARD_SLOT]
    hosts = {host for part in build.parts for host in part.hosts}
    mine = [each for each in slots if each.part in hosts and each.part != CASE]
    return len(mine) > 1 and any(_in_slot(build, each.part) for each in cards)


def can_raise(build: Build, bodies: tuple[PlacedBody, ...]) -> bool:
    """Tell whether one of the bodies is a tower's fan, which can be hung higher."""
    kinds = {part.key: part.kind for part in build.parts}
    return any(
        each.role is Role.COOLER_FAN and kinds.get(each.part) in _TOWERS
        for each in bodies
    )


def _cards(bodies: tuple[PlacedBody, ...]) -> list[PlacedBody]:
    return [each for each in bodies if each.role in _OF_CARD]


_OF_CARD: Final = frozenset(
    {Role.CARD, Role.CARD_PLUG, Role.CARD_BRACKET, Role.CARD_VENT}
)


def _in_slot(build: Build, part: str) -> bool:
    return any(e.key == part and e.seat.startswith("slot ") for e in build.parts)
