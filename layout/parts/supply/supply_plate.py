"""The holes of a supply's rear face, and those of the plate it is screwed to."""

from __future__ import annotations

from collections.abc import Iterable

from layout.geometry.holes.holes import Hole, Point
from layout.geometry.space import Axis, Direction
from layout.parts.form.screws import Screws
from layout.standards.screws import PUNCHED, SUPPLY_HOLE, SUPPLY_SCREW
from layout.standards.supplies import REAR_HOLES

__all__ = ["face_screws"]

_QUARTERS = {
    Direction.DOWN: 0,
    Direction.PANEL: 1,
    Direction.UP: 2,
    Direction.TRAY: 3,
}
"""How far the face is turned with the fan looking so, in the supply's own axes."""

_TAKEN = frozenset({"SFX", "SFX-L"})
"""Forms of one rear face; from memory, unverified."""


def face_screws(
    form: str, looks: Iterable[Direction], *, given: bool, thread: bool = False
) -> Screws:
    """Return the holes of a rear face with the fan looking one way, or any of several.

    A form whose holes no text gives has none: it is then matched by its name.
    ``thread`` is the supply's side, the other the plate's.
    """
    diameter_mm = SUPPLY_SCREW.mm if thread else SUPPLY_HOLE.mm
    holes: dict[Point, Hole] = {}
    for way in looks:
        for number, hole in enumerate(REAR_HOLES.get(form, ()), start=1):
            at_mm = _turned((hole.x.mm, hole.y.mm), _QUARTERS[way])
            name = f"hole {number}" if thread else f"hole {number}, fan {way.name}"
            holes[at_mm] = Hole(
                name=name, at_mm=at_mm, diameter_mm=diameter_mm, off_mm=PUNCHED.mm / 2
            )
    return Screws(
        name="SFX" if form in _TAKEN else form,
        holes=tuple(holes.values()),
        across=(Axis.WIDTH, Axis.HEIGHT),
        screw_mm=SUPPLY_SCREW.mm,
        given=given,
    )


def _turned(at_mm: Point, quarters: int) -> Point:
    x, y = at_mm
    for _ in range(quarters):
        x, y = -y, x
    return x, y
