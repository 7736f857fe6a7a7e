"""Whether a part that was made anew takes the room that cables need to bend."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import field, replace
from typing import TypeAlias

from layout.build.placed import Build
from layout.geometry.relations.query import meeting
from layout.questions.bends.bends import bends, bends_lacking
from layout.questions.bends.cable_ways import Ways
from layout.questions.findings.finding import Finding
from layout.values import dataclass

__all__ = ["Cables"]


_Asked: TypeAlias = tuple[int, frozenset[str], bool]
"""Which build, told apart by identity, the parts, and whether what lacks alone."""


@dataclass(frozen=False, eq=False, slots=True)
class Cables:
    """The room of cables in builds that differ in little."""

    ways: Ways = field(default_factory=Ways)
    _known: dict[_Asked, tuple[Build, tuple[Finding, ...]]] = field(
        default_factory=dict
    )

    def bends(
        self, build: Build, keys: Collection[str], *, lacking: bool = False
    ) -> tuple[Finding, ...]:
        """Return the findings on bends that name parts made anew in a build.

        Cables of other parts are looked at only where one of these reaches into their
        room: elsewhere they take none.  With ``lacking`` those alone are told that have
        no room, at less cost.
        """
        of = id(build), frozenset(keys), lacking
        if of not in self._known:
            self._known[of] = build, self._bends(build, keys, lacking=lacking)
        return self._known[of][1]

    def _bends(
        self, build: Build, keys: Collection[str], *, lacking: bool
    ) -> tuple[Finding, ...]:
        own = [each for each in build.bodies if each.part in keys]
        by_them = self.ways.near(build, [each.body.bounds for each in own])
        theirs = tuple(each for each in by_them if each.part not in keys)
        others = self.ways.every(replace(build, plugs=theirs))
        bodies = [*(each.body for each in own), *(each.body for each in others)]
        pairs = [(i, j) for i in range(len(own)) for j in range(len(own), len(bodies))]
        met = zip(pairs, meeting(bodies, pairs).tolist(), strict=True)
        reached = {others[j - len(own)].of for (_, j), meets in met if meets}
        plugs = [each for each in build.plugs if each.part in keys]
        plugs += dict.fromkeys(each.placed for each in others if each.of in reached)
        if not plugs:
            return ()
        there = replace(build, plugs=tuple(plugs))
        found = bends_lacking(there, self.ways) if lacking else bends(there)
        return tuple(each for each in found if each.parts & {*keys})
