"""A quarter bend of a flat cable as solids, outside the true curve."""

from __future__ import annotations

import math

from shapely.geometry import Polygon

from layout.geometry.round import CHORD_MM, NEST_MM
from layout.geometry.solid import Solid, block, rectangle
from layout.geometry.space import Axis, Direction, Vector
from layout.values import dataclass

__all__ = ["QuarterBend"]

Span = tuple[float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class QuarterBend:
    """A cable of rectangular section that turns from one direction into another.

    Parameters
    ----------
    at_mm : Vector
        Middle of the cable where the bend begins.
    out, to : Direction
        Which way the cable runs before the bend, and after it; not the same axis.
    inside_mm : float
        Radius of the bend's inside; 0 for a fold.
    thick_mm, wide_mm : float
        The section: across the bend, and along the axis of neither direction.
    """

    at_mm: Vector
    out: Direction
    to: Direction
    inside_mm: float
    thick_mm: float
    wide_mm: float

    def __post_init__(self) -> None:
        if self.out.axis is self.to.axis:
            raise ValueError(f"no quarter turn from {self.out.name} to {self.to.name}")

    @property
    def outside_mm(self) -> float:
        """Return the radius of the bend's outside."""
        return self.inside_mm + self.thick_mm

    @property
    def flat(self) -> Axis:
        """Return the axis along which the cable is wide."""
        (flat,) = set(Axis) - {self.out.axis, self.to.axis}
        return flat

    @property
    def solids(self) -> tuple[Solid, ...]:
        """Return the bend: one outline, or nested boxes where it turns about depth."""
        if self.flat is Axis.DEPTH:
            return tuple(
                block(*self._spans(out, against)) for out, against in self._slices()
            )
        ring = Polygon([self._in_view(u, v) for u, v in self._ring()])
        x0, _, x1, _ = ring.bounds
        middle_mm = self.at_mm[self.flat.index]
        half_mm = self.wide_mm / 2
        other = rectangle((x0, x1), (middle_mm - half_mm, middle_mm + half_mm))
        in_side = self.flat is Axis.WIDTH
        return (Solid(*((ring, other) if in_side else (other, ring))),)

    def _centre_mm(self, axis: Axis) -> float:
        """Return where the bend's centre lies along one of its two axes."""
        away_mm = self.inside_mm + self.thick_mm / 2 if axis is self.to.axis else 0.0
        return self.at_mm[axis.index] + self.to.sign * away_mm

    def _ring(self) -> list[tuple[float, float]]:
        """Return corners as (along ``out``, against ``to``) from the bend's centre.

        The outer edge's sides touch the circle, the inner edge's corners lie on it.
        """
        outer, inner = self.outside_mm, self.inside_mm
        turns = _turns(outer)
        half = math.pi / 4 / turns
        reach = outer / math.cos(half)
        corners = [(0.0, outer)]
        corners += [_on(reach, half * (2 * k + 1)) for k in range(turns)]
        corners.append((outer, 0.0))
        if inner == 0.0:
            return [*corners, (0.0, 0.0)]
        turns = _turns(inner)
        step = math.pi / 2 / turns
        return corners + [_on(inner, step * k) for k in range(turns, -1, -1)]

    def _in_view(self, u: float, v: float) -> tuple[float, float]:
        """Return a corner in the view that shows the bend."""
        placed = {
            self.out.axis: self._centre_mm(self.out.axis) + self.out.sign * u,
            self.to.axis: self._centre_mm(self.to.axis) - self.to.sign * v,
        }
        across = Axis.HEIGHT if self.flat is Axis.WIDTH else Axis.WIDTH
        return placed[Axis.DEPTH], placed[across]

    def _slices(self) -> list[tuple[Span, Span]]:
        """Return boxes across the bend, no corner farther than allowed from it."""
        slack_mm = NEST_MM * 0.99
        outer = self.outside_mm
        # An inside no larger than what may be added is filled.
        inner = self.inside_mm if self.inside_mm > slack_mm else 0.0
        grown = (outer + slack_mm) ** 2 - outer**2
        shrunk = inner**2 - (inner - slack_mm) ** 2
        out = []
        u = 0.0
        while u < outer:
            next_u = math.sqrt(u**2 + grown)
            if u < inner:
                next_u = min(next_u, math.sqrt(u**2 + shrunk), inner)
            next_u = min(next_u, outer)
            low = math.sqrt(max(0.0, inner**2 - next_u**2))
            out.append(((u, next_u), (low, math.sqrt(outer**2 - u**2))))
            u = next_u
        return out

    def _spans(self, out: Span, against: Span) -> tuple[Span, Span, Span]:
        half_mm = self.wide_mm / 2
        spans = {self.flat: (-half_mm + self.at_mm[0], half_mm + self.at_mm[0])}
        for direction, span in ((self.out, out), (self.to.opposite, against)):
            centre_mm = self._centre_mm(direction.axis)
            a, b = (centre_mm + direction.sign * each for each in span)
            spans[direction.axis] = (min(a, b), max(a, b))
        x, y, z = (spans[axis] for axis in Axis)
        return x, y, z


def _turns(radius_mm: float) -> int:
    """Return into how many sides a quarter circle is cut."""
    half = math.acos(radius_mm / (radius_mm + CHORD_MM * 0.99))
    return max(1, math.ceil(math.pi / 4 / half))


def _on(radius_mm: float, angle: float) -> tuple[float, float]:
    return radius_mm * math.sin(angle), radius_mm * math.cos(angle)
