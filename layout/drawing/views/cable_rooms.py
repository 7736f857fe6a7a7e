"""The room in which each plug's cable bends, and whose cable leaves otherwise."""

from __future__ import annotations

from collections.abc import Iterator

from layout.build.placed import Build
from layout.geometry.bodies.body import Body, Shape
from layout.parts.wiring.plug import room
from layout.questions.bends.bends import best_ways
from layout.questions.bends.cable_ways import Way
from layout.questions.bends.ways import Answer

__all__ = ["cable_rooms", "led_otherwise"]


def cable_rooms(build: Build) -> Iterator[tuple[Body, bool]]:
    """Yield the room of each cable's best way, and whether some of it is lacking."""
    for best in best_ways(build):
        way = best if isinstance(best, Way) else best.way
        lacks = isinstance(best, Answer) and best.spare_mm < 0.0
        solids = room(way.plug, way.to, straight_mm=way.straight_mm)
        yield Body(name=way.placed.name, shape=Shape(solids)), lacks


def led_otherwise(before: Build, build: Build) -> frozenset[str]:
    """Return the plugs that both builds have, and whose cable leaves otherwise.

    A plug that only stands elsewhere has moved with its body.
    """
    was, now = (
        {
            (each.name, each.plug.kind): (each.plug.shape, each.plug.cable)
            for each in one.plugs
        }
        for one in (before, build)
    )
    return frozenset(key[0] for key in {*was} & {*now} if was[key] != now[key])
