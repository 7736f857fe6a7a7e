"""What the place of a way's corner rests on, and on which side of its body it lies."""

from __future__ import annotations

from layout.geometry.space import Vector
from layout.parts.form.form import Link
from layout.values import dataclass

__all__ = ["NOTHING", "Bearing", "Chain"]

Chain = tuple[tuple[str, Link], ...]


@dataclass(frozen=True, slots=True)
class Bearing:
    """A chain of figures, and the side of what they place: -1 its low face, 1 its high.

    0 along an axis is the middle between both, or a seat, whose faces count alike.
    """

    chain: Chain = ()
    side: Vector = (0.0, 0.0, 0.0)

    def counted(self, link: Link) -> Vector:
        """Return how often a figure goes into the place along each axis."""
        (x0, y0, z0), (x1, y1, z1), (u, v, w) = link.low, link.high, self.side
        # written out: asked thousands of times a check
        return (
            (x0 + x1 + u * (x1 - x0)) / 2,
            (y0 + y1 + v * (y1 - y0)) / 2,
            (z0 + z1 + w * (z1 - z0)) / 2,
        )


NOTHING = Bearing()
"""A place that rests on no figure, or on the file's alone."""
