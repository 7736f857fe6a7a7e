"""Which cables have a way open, and what limits it: not by how much others lack one."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from layout.build.placed import Build, PlacedPlug
from layout.questions.bends.cable_ways import Ways
from layout.questions.bends.ways import Answer, Blocked, answers
from layout.values import dataclass

__all__ = ["OpenWays", "open_ways"]


@dataclass(frozen=True, slots=True, kw_only=True)
class OpenWays:
    """What limits the open ways, and the plugs that have none.

    ``lacking`` are those by their ways' ``of``, each with a way and what blocks it.
    """

    limited: tuple[Answer, ...]
    lacking: Mapping[tuple[str, ...], Blocked]
    shut_in: tuple[PlacedPlug, ...]


def open_ways(
    build: Build, *, spares: bool = True, known: Ways | None = None
) -> OpenWays:
    """Return what limits the ways of a build's cables, as far as they are open.

    As in a check, a cable goes straight on only where it can turn to no side.  Not
    ``spares``: only which cables lack a way is asked.  ``known`` are ways made before.
    """
    known = known or Ways()
    ways = known.of(build)
    aside = answers(build, ways, lacks=False, spares=spares)
    stuck = {id(each.placed): each.placed for each in ways if each.of in aside.shut}
    ahead = replace(build, plugs=tuple(stuck.values()))
    further = known.of(ahead, on=True) if stuck else []
    on = answers(ahead, further, lacks=False, spares=spares)
    passable = {each.of for each in further} - on.shut.keys()
    lacking = {of: each for of, each in aside.shut.items() if of not in passable}
    shut_in = {id(each.placed): each.placed for each in ways if each.of in lacking}
    return OpenWays(
        limited=(*aside.limited, *on.limited),
        lacking=lacking,
        shut_in=tuple(shut_in.values()),
    )
