"""From an answer on positions to its sheet."""

from __future__ import annotations

from collections.abc import Sequence

from layout.build.placed import Build
from layout.drawing.charts.moves import moves_scene
from layout.drawing.charts.small_views import Shown
from layout.drawing.paper.scene import Scene
from layout.drawing.paper.words import about, lettered, named, signed
from layout.drawing.views.extremes import ends_of_travel
from layout.geometry.bodies.body import Body
from layout.geometry.space import Vector
from layout.questions.findings.advice import spoken
from layout.questions.moving.moves import moved_bodies
from layout.questions.moving.positions import Position, Positions, Row
from layout.questions.moving.stretch import shifted

__all__ = ["positions_scene"]


def positions_scene(
    told: Positions, build: Build, rail_mm: Sequence[Vector] = ()
) -> Scene:
    """Return the sheet: margins, the best position drawn, and small others.

    Parameters
    ----------
    told : Positions
    build : Build
        As it stands, before anything is moved.
    rail_mm : sequence of Vector
        Where the places of the case's rail for a cage lie.
    """
    rows = [_shown(told, row, build) for row in told.rows]
    at = [row.position for row in told.rows]
    best = rows[at.index(told.best)] if told.best in at else None
    return moves_scene(
        f"{build.name}: where {' and '.join(map(spoken, told.moved))} could be",
        rows,
        best,
        clear_mm=told.clear_mm,
        said=_said(told),
        extremes=_extremes(told, build, best, rail_mm=rail_mm),
    )


def _extremes(
    told: Positions, build: Build, best: Shown | None, *, rail_mm: Sequence[Vector]
) -> tuple[Body, ...]:
    """Return what moves at the ends of its travel, where the best does not stand."""
    if best is None or best.build is None:
        return ()
    if told.axis is None:
        keys = frozenset(told.moved)
        ends = ends_of_travel(best.build, rail_mm)
        return tuple(each for each in ends if each.name.partition("/")[0] in keys)
    moved = moved_bodies(build, told.moved[0])
    shifts = [row.position for row in told.rows if isinstance(row.position, float)]
    there = [
        shifted(build, moved, (told.axis, end))
        for end in (min(shifts), max(shifts))
        if end != best.at_mm
    ]
    return tuple(each.bodies[index].body for each in there for index in moved)


def _said(told: Positions) -> list[str]:
    said = []
    if told.axis is not None:
        stretches = ", ".join(f"{a:.2f} to {b:.2f} mm" for a, b in told.clear_mm)
        said.append(
            f"Shifts along {told.axis.value} from where it stands now; clear: "
            f"{stretches or 'nowhere on this travel'}."
        )
    row = next((each for each in told.rows if each.position == told.best), None)
    if row is not None and row.least_margin_mm is not None:
        word = "Nearest" if row.verdict.fails else "Best"
        margin, limit = signed(row.least_margin_mm), _limit(row)
        said.append(f"{word}: {_named(row.position)}, {margin} mm, limited by {limit}.")
    said.append("Judged by distances and holes of what is moved and what it carries.")
    if told.elsewhere:
        found = "; ".join(dict.fromkeys(map(about, told.elsewhere)))
        said.append(f"Not clear besides, whatever the position: {found}.")
    return said


def _limit(row: Row) -> str:
    between = " \N{EN DASH} ".join(map(named, row.limited_by or ()))
    return "; ".join(filter(None, (between, row.note)))


def _shown(told: Positions, row: Row, build: Build) -> Shown:
    shift = row.position if isinstance(row.position, float) else None
    there = row.build
    if shift is not None and told.axis is not None:
        there = shifted(build, moved_bodies(build, told.moved[0]), (told.axis, shift))
    return Shown(
        name=_named(row.position),
        limit=_limit(row),
        verdict=row.verdict.value,
        margin_mm=row.least_margin_mm,
        at_mm=shift,
        build=there,
        fails=row.verdict.fails,
        moved=_moved(told, there),
    )


def _moved(told: Positions, build: Build | None) -> tuple[Body, ...]:
    """Return what is moved, as it stands in a build; nothing of what is taken out."""
    if build is None:
        return ()
    there = {each.key for each in build.parts}
    keys = [each for each in told.moved if each.partition("/")[0] in there]
    indices = dict.fromkeys(i for key in keys for i in moved_bodies(build, key))
    bodies = (build.bodies[i] for i in indices)
    return tuple(each.body for each in bodies if each.role.is_matter)


def _named(position: Position) -> str:
    if isinstance(position, tuple):
        return ", ".join(position)
    if isinstance(position, str):
        return position
    return lettered(f"{position:+g} mm") if position else "0 mm"
