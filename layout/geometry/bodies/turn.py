"""Quarter turns: solids made anew with their axes exchanged, exactly or not at all."""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache
from typing import Final

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry import Polygon

from layout.geometry.errors import TurnError
from layout.geometry.pairs.gap import is_box
from layout.geometry.solids.cells import HIGH, LOW, X0, X1, cut
from layout.geometry.solids.solid import Solid, block, is_rectangle, rectangle
from layout.geometry.space import Axis, Box, Direction, Vector
from layout.values import dataclass

__all__ = ["OVER", "UPRIGHT", "Turn", "turn_of"]


@dataclass(frozen=True, slots=True)
class Turn:
    """One of the 24 ways in which a thing can stand square in a case.

    Parameters
    ----------
    depth, height : Direction
        Where the thing's own front and its own top look.

    Raises
    ------
    TurnError
        If both look along one axis.

    Notes
    -----
    Its own panel side looks where front and top leave it to: a thing is turned, never
    mirrored.

    Examples
    --------
    >>> OVER.vector((1.0, 2.0, 3.0))
    (1.0, -2.0, -3.0)
    """

    depth: Direction = Direction.FRONT
    height: Direction = Direction.UP

    def __post_init__(self) -> None:
        if self.depth.axis is self.height.axis:
            raise TurnError(
                f"front looks {self.depth.name.lower()} and top "
                f"{self.height.name.lower()}; they must look along two axes"
            )

    @property
    def width(self) -> Direction:
        """Return where the thing's own panel side looks."""
        return _ends(self.depth, self.height)[2]

    def direction(self, own: Direction) -> Direction:
        """Return where one of the thing's own directions looks."""
        looks = _ends(self.depth, self.height)[own.axis.index]
        return looks if own.sign > 0 else looks.opposite

    def axis(self, own: Axis) -> Axis:
        """Return the axis along which one of the thing's own axes runs."""
        return self.direction(Direction((own, 1))).axis

    def vector(self, own: Vector) -> Vector:
        """Return a vector of the thing's own in the axes of the case."""
        out = [0.0, 0.0, 0.0]
        for axis in Axis:
            looks = self.direction(Direction((axis, 1)))
            out[looks.axis.index] = looks.sign * own[axis.index]
        return (out[0], out[1], out[2])

    def extent(self, own: Vector) -> Vector:
        """Return lengths along the thing's own axes as lengths along the case's."""
        x, y, z = self.vector(own)
        return (abs(x), abs(y), abs(z))

    def box(self, own: Box) -> Box:
        """Return a box of the thing's own in the axes of the case."""
        corners = (self.vector(own.low), self.vector(own.high))
        (x0, x1), (y0, y1), (z0, z1) = (
            sorted(ends) for ends in zip(*corners, strict=True)
        )
        return Box((x0, y0, z0), (x1, y1, z1))

    @property
    def back(self) -> Turn:
        """Return the turn that undoes this one."""
        return Turn(self._undone(Direction.FRONT), self._undone(Direction.UP))

    def after(self, first: Turn) -> Turn:
        """Return the turn that does ``first`` and then this one."""
        return Turn(self.direction(first.depth), self.direction(first.height))

    def solids(self, own: Sequence[Solid]) -> tuple[Solid, ...]:
        """Return solids turned: the same points, in solids of their own.

        Raises
        ------
        TurnError
            If slanted edges would have to lie across depth, where two outlines cannot
            tell them; the kind of part must make such solids for itself.
        """
        if self == UPRIGHT:
            return tuple(own)
        return tuple(made for each in own for made in self._solid(each))

    def _undone(self, looks: Direction) -> Direction:
        return next(own for own in Direction if self.direction(own) is looks)

    def _solid(self, own: Solid) -> tuple[Solid, ...]:
        outlines = {Axis.HEIGHT: own.side, Axis.WIDTH: own.top}
        if self.depth.axis is Axis.DEPTH:
            moved = {
                self.axis(axis): self._outline(outline, (Axis.DEPTH, axis))
                for axis, outline in outlines.items()
            }
            return (Solid(moved[Axis.HEIGHT], moved[Axis.WIDTH]),)
        for along, across in ((Axis.WIDTH, Axis.HEIGHT), (Axis.HEIGHT, Axis.WIDTH)):
            if is_rectangle(outlines[along]) and self.axis(along) is not Axis.DEPTH:
                outline = self._outline(outlines[across], (Axis.DEPTH, across))
                return (self._carried(outline, along, self.box(own.bounds)),)
        return self._boxes(own)

    def _outline(self, outline: Polygon, own: tuple[Axis, Axis]) -> Polygon:
        """Return an outline over two of the thing's own axes, depth first if there."""
        looks = [self.direction(Direction((axis, 1))) for axis in own]
        order = sorted(range(2), key=lambda i: looks[i].axis.index)
        signs = np.array([looks[i].sign for i in order], dtype=float)

        def moved(points: NDArray[np.float64]) -> NDArray[np.float64]:
            placed: NDArray[np.float64] = points[:, order] * signs
            return placed

        return shapely.transform(outline, moved)

    def _carried(self, outline: Polygon, along: Axis, bounds: Box) -> Solid:
        """Return an outline carried along the case's axis that ``along`` runs on."""
        axis = self.axis(along)
        spans = list(zip(bounds.low, bounds.high, strict=True))
        flat = rectangle(spans[0], spans[axis.index])
        return Solid(outline, flat) if axis is Axis.WIDTH else Solid(flat, outline)

    def _boxes(self, own: Solid) -> tuple[Solid, ...]:
        """Return the boxes of a solid that has no slanted edge, each one turned."""
        rows, _ = cut([[own]])
        if not is_box(rows).all():
            raise TurnError(
                "an outline with slanted edges cannot lie across depth; "
                "give it in the place where it is"
            )
        made = []
        for cell in rows.T:
            low = (cell[X0], cell[LOW[1]][0], cell[LOW[2]][0])
            high = (cell[X1], cell[HIGH[1]][0], cell[HIGH[2]][0])
            box = self.box(Box(_plain(low), _plain(high)))
            x, y, z = zip(box.low, box.high, strict=True)
            made.append(block(x, y, z))
        return tuple(made)


@cache
def _ends(depth: Direction, height: Direction) -> tuple[Direction, ...]:
    """Return where a thing's own front, top and panel side look: right-handed."""
    across = np.cross(depth.vector, height.vector)
    return depth, height, _direction(across)


def _plain(numbers: Sequence[float]) -> Vector:
    x, y, z = map(float, numbers)
    return (x, y, z)


def _direction(vector: NDArray[np.float64]) -> Direction:
    index = int(np.flatnonzero(vector)[0])
    return Direction((list(Axis)[index], 1 if vector[index] > 0 else -1))


UPRIGHT: Final = Turn()
"""Not turned at all."""

OVER: Final = Turn(Direction.FRONT, Direction.DOWN)
"""Half a turn about depth."""


def turn_of(
    first: tuple[Direction, Direction], then: tuple[Direction, Direction]
) -> Turn:
    """Return the turn that takes two of a thing's own directions where they must look.

    Parameters
    ----------
    first, then : (Direction, Direction)
        One of the thing's own directions, and where it must look.

    Raises
    ------
    TurnError
        If no turn does both.

    Examples
    --------
    >>> up = (Direction.FRONT, Direction.UP)
    >>> turn_of(up, (Direction.PANEL, Direction.PANEL)).height.name
    'REAR'
    """
    for depth in Direction:
        for height in Direction:
            if depth.axis is height.axis:
                continue
            turn = Turn(depth, height)
            if all(turn.direction(own) is looks for own, looks in (first, then)):
                return turn
    raise TurnError(
        f"no turn takes {first[0].name.lower()} to {first[1].name.lower()} and "
        f"{then[0].name.lower()} to {then[1].name.lower()}"
    )
