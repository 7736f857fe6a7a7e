"""The ways in which cables may leave their plugs, each with the body that it needs."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import field, replace
from typing import Final

from layout.build.placed import Build, PlacedPlug
from layout.geometry.bodies.body import Body, shapes_of_rows
from layout.geometry.space import Box, Direction
from layout.parts.form.form import Plug, Role
from layout.parts.wiring.plug import deep_mm, leaves, room_box, room_rows, run_mm
from layout.questions.clearances.plug_rules import PLUG_RULES, PlugRule
from layout.values import dataclass

__all__ = ["Way", "Ways", "ways_of"]


@dataclass(frozen=True, slots=True)
class Way:
    """One way in which a plug's cable may leave, with the body it needs."""

    rule: PlugRule
    placed: PlacedPlug
    to: Direction
    straight_mm: float
    body: Body

    @property
    def plug(self) -> Plug:
        """Return the plug in its place."""
        return self.placed.plug

    @property
    def of(self) -> tuple[str, str, str, str]:
        """Return which plug it is; it may be at one of several places."""
        placed = self.placed
        return self.rule.name, placed.part, placed.plug.kind.value, str(self._place)

    @property
    def _place(self) -> float | tuple[float, ...]:
        """Return where in its row or field a plug stands; 0 for those with a choice."""
        if self.rule.on is Role.CARD:
            return self.plug.at_mm
        on_board = self.rule.on in {Role.BOARD_CONNECTOR, Role.BOARD}
        return self.plug.at_mm[0] if on_board else 0.0


def ways_of(build: Build, *, on: bool = False) -> Iterator[Way]:
    """Yield every way of every plug that a rule asks about and the build uses.

    The ways aside, or with ``on`` those straight on, where plugs allow it.
    """
    roles = {body.name: body.role for body in build.bodies}
    drives = Role.DRIVE in roles.values()
    needs = dict(build.needs)
    found = [
        (rule, placed, to)
        for rule in PLUG_RULES
        for placed in build.plugs
        if roles.get(placed.name) is rule.on and placed.plug.kind in rule.kinds
        if not placed.plug.spare
        if drives or rule.name != "board-data-bend"
        for to in leaves(placed.plug)
        if on is (to is placed.plug.out)
    ]
    straights = [
        _straight_mm(placed.plug, to, needs.get(rule.name))
        for rule, placed, to in found
    ]
    rooms = shapes_of_rows(
        [
            room_rows(placed.plug, to, straight_mm=straight_mm)
            for (_, placed, to), straight_mm in zip(found, straights, strict=True)
        ]
    )
    for (rule, placed, to), mm, shape in zip(found, straights, rooms, strict=True):
        yield Way(rule, placed, to, mm, Body(name=placed.name, shape=shape))


def _straight_mm(plug: Plug, to: Direction, need_mm: float | None) -> float:
    """Return the straight run: the kind's, or what a need of the file's leaves."""
    if need_mm is None:
        return run_mm(plug)
    return max(0.0, need_mm - deep_mm(plug, to, straight_mm=0.0))


@dataclass(frozen=False, eq=False, slots=True)
class Ways:
    """The ways of cables, each plug's made once however many builds share it.

    The builds have the same needs, and their bodies of one name the same role.
    """

    _known: dict[tuple[int, bool, bool], tuple[PlacedPlug, list[Way]]] = field(
        default_factory=dict
    )
    _boxes: dict[int, tuple[PlacedPlug, Box]] = field(default_factory=dict)

    def of(self, build: Build, *, on: bool = False) -> list[Way]:
        """Return what :func:`ways_of` yields."""
        return self._made(build, (on,))

    def every(self, build: Build) -> list[Way]:
        """Return the ways aside and those straight on, by rule."""
        return self._made(build, (False, True))

    def _made(self, build: Build, which: tuple[bool, ...]) -> list[Way]:
        """Return the ways that go on as asked, making only those that are new."""
        drives = any(each.role is Role.DRIVE for each in build.bodies)
        for on in which:
            new = [e for e in build.plugs if (id(e), drives, on) not in self._known]
            self._known.update({(id(e), drives, on): (e, []) for e in new})
            there = replace(build, plugs=tuple(new))
            for way in ways_of(there, on=on) if new else ():
                self._known[id(way.placed), drives, on][1].append(way)
        found = [
            way
            for each in build.plugs
            for on in which
            for way in self._known[id(each), drives, on][1]
        ]
        return sorted(found, key=lambda way: _PLACES[way.rule.name])

    def near(self, build: Build, boxes: Iterable[Box]) -> Iterator[PlacedPlug]:
        """Yield the plugs whose cables could come into a box, however they leave."""
        apart = list(boxes)
        most_mm = max(dict(build.needs).values(), default=0.0)
        for placed in build.plugs:
            if id(placed) not in self._boxes:
                straight_mm = max(run_mm(placed.plug), most_mm)
                room = room_box(placed.plug, straight_mm=straight_mm)
                self._boxes[id(placed)] = placed, room
            if any(self._boxes[id(placed)][1].meets(each) for each in apart):
                yield placed


_PLACES: Final = {rule.name: place for place, rule in enumerate(PLUG_RULES)}
