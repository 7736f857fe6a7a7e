"""From an answer on positions to its sheet."""

from __future__ import annotations

from layout.build.placed import Build
from layout.drawing.moves import Shown, moves_scene
from layout.drawing.scene import Scene
from layout.questions.advice import spoken
from layout.questions.moves import moved_bodies
from layout.questions.positions import Position, Positions, Row
from layout.questions.stretch import shifted

__all__ = ["positions_scene"]


def positions_scene(told: Positions, build: Build) -> Scene:
    """Return the sheet: margins, the best position drawn, and small others.

    Parameters
    ----------
    told : Positions
    build : Build
        As it stands, before anything is moved.
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
    )


def _said(told: Positions) -> list[str]:
    said = []
    if told.axis is not None:
        stretches = ", ".join(f"{a:.2f} to {b:.2f} mm" for a, b in told.clear_mm)
        said.append(
            f"Shifts along {told.axis.value} from where it stands now; clear: "
            f"{stretches or 'nowhere on this travel'}."
        )
    said.append("Judged by what names the part or what it carries.")
    if told.elsewhere:
        ids = ", ".join(each.id for each in told.elsewhere)
        said.append(f"Not clear besides, whatever the position: {ids}.")
    return said


def _shown(told: Positions, row: Row, build: Build) -> Shown:
    shift = row.position if isinstance(row.position, float) else None
    there = row.build
    if shift is not None and told.axis is not None:
        there = shifted(build, moved_bodies(build, told.moved[0]), (told.axis, shift))
    return Shown(
        name=_named(row.position),
        verdict=row.verdict.value,
        margin_mm=row.least_margin_mm,
        at_mm=shift,
        build=there,
        fails=row.verdict.fails,
    )


def _named(position: Position) -> str:
    if isinstance(position, tuple):
        return ", ".join(position)
    return position if isinstance(position, str) else f"{position:+g} mm"
