"""How a case stands, and where its board's connectors look."""

from __future__ import annotations

from enum import Enum

from layout.geometry.bodies.turn import UPRIGHT, Turn
from layout.geometry.space import Axis, Direction, Vector, plus
from layout.parts.form.form import Role

__all__ = ["ConnectorsAt", "Stands"]


class Stands(Enum):
    """How the case stands on the desk; its file and drawing keep the board upright."""

    UPRIGHT = "upright"
    TURNED_OVER = "turned over"  # half a turn about depth: the board hangs upside down
    LYING = "lying"  # on its tray's side: the side panel is the lid

    @property
    def up(self) -> Direction:
        """Return what looks up on the desk, in the axes of file and drawing."""
        return _UP[self]

    @property
    def told(self) -> str:
        """Return how the drawing differs from the desk; nothing where it does not."""
        return _TOLD[self]


_UP = {
    Stands.UPRIGHT: Direction.UP,
    Stands.TURNED_OVER: Direction.DOWN,
    Stands.LYING: Direction.PANEL,
}
_TOLD = {
    Stands.UPRIGHT: "",
    Stands.TURNED_OVER: (
        "drawn turned 180° about depth: on the desk its floor here is above, and the "
        "side panel on the other side"
    ),
    Stands.LYING: "drawn standing: on the desk it lies flat, the side panel above",
}


class ConnectorsAt(Enum):
    """Which wall the board's rear connectors and card brackets reach through."""

    REAR = "rear"
    TOP = "top"  # the board is turned a quarter: its upper edge lies to the front

    @property
    def turn(self) -> Turn:
        """Return how the board stands."""
        return UPRIGHT if self is ConnectorsAt.REAR else _QUARTER

    @property
    def wall(self) -> Role:
        """Return the wall with the openings."""
        return Role.REAR if self is ConnectorsAt.REAR else Role.TOP

    @property
    def frame_axis(self) -> Axis:
        """Return the axis along which the board's own height runs."""
        return self.turn.axis(Axis.HEIGHT)

    def place(self, own: Vector, inside_mm: Vector) -> Vector:
        """Return a place told from the wall with the openings, in the case's axes.

        Parameters
        ----------
        own : Vector
            From that wall inwards; along the board's height; from the tray.
        inside_mm : Vector
            Inside depth, height and width of the case.
        """
        corner = (0.0, 0.0 if self is ConnectorsAt.REAR else inside_mm[1], 0.0)
        return plus(self.turn.vector(own), corner)


_QUARTER = Turn(Direction.DOWN, Direction.FRONT)
