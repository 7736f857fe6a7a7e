"""A quarter bend of a flat cable as solids, outside the true curve."""

from __future__ import annotations

import math
from functools import lru_cache

import numpy as np
from shapely.geometry import Polygon

from layout.geometry.solids.cells import LEAST_SLAB_MM, Floats
from layout.geometry.solids.round import CHORD_MM, NEST_MM
from layout.geometry.solids.solid import Solid, block, rectangle
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
        out, to = self.out.axis, self.to.axis
        (flat,) = (axis for axis in Axis if axis is not out and axis is not to)
        return flat

    @property
    def solids(self) -> tuple[Solid, ...]:
        """Return the bend: one outline, or nested boxes where it turns about depth."""
        if self.flat is Axis.DEPTH:
            return tuple(block(*each) for each in self._spans())
        ring = Polygon([self._in_view(u, v) for u, v in self._ring()])
        x0, _, x1, _ = ring.bounds
        middle_mm = self.at_mm[self.flat.index]
        half_mm = self.wide_mm / 2
        other = rectangle((x0, x1), (middle_mm - half_mm, middle_mm + half_mm))
        in_side = self.flat is Axis.WIDTH
        return (Solid(*((ring, other) if in_side else (other, ring))),)

    @property
    def rows(self) -> Floats:
        """Return the cells of ``solids``, without making outlines of them first."""
        if self.flat is Axis.DEPTH:
            return self._about_depth()
        # Seen from the bend's centre, a slab of depth is the same along either leg.
        ring = _slabs(self.outside_mm, self.inside_mm)
        along = self.out if self.out.axis is Axis.DEPTH else self.to.opposite
        across = self.to.opposite if self.out.axis is Axis.DEPTH else self.out
        depths = self._centre_mm(along.axis) + along.sign * ring[:2]
        bounds = self._centre_mm(across.axis) + across.sign * ring[2:]
        if along.sign < 0:
            depths, bounds = depths[::-1], bounds[[1, 0, 3, 2]]
        if across.sign < 0:
            bounds = bounds[[2, 3, 0, 1]]
        middle_mm, half_mm = self.at_mm[self.flat.index], self.wide_mm / 2
        ends = [[middle_mm - half_mm]] * 2 + [[middle_mm + half_mm]] * 2
        flat = np.repeat(np.array(ends), ring.shape[1], axis=1)
        both = (bounds, flat) if self.flat is Axis.WIDTH else (flat, bounds)
        return np.concatenate([depths, *both])

    def _centre_mm(self, axis: Axis) -> float:
        """Return where the bend's centre lies along one of its two axes."""
        away_mm = self.inside_mm + self.thick_mm / 2 if axis is self.to.axis else 0.0
        return self.at_mm[axis.index] + self.to.sign * away_mm

    def _ring(self) -> list[tuple[float, float]]:
        """Return corners as (along ``out``, against ``to``) from the bend's centre.

        The outer edge's sides touch the circle, the inner edge's corners lie on it.
        """
        return [*_outer(self.outside_mm), *reversed(_inner(self.inside_mm))]

    def _in_view(self, u: float, v: float) -> tuple[float, float]:
        """Return a corner in the view that shows the bend."""
        placed = {
            self.out.axis: self._centre_mm(self.out.axis) + self.out.sign * u,
            self.to.axis: self._centre_mm(self.to.axis) - self.to.sign * v,
        }
        across = Axis.HEIGHT if self.flat is Axis.WIDTH else Axis.WIDTH
        return placed[Axis.DEPTH], placed[across]

    def _about_depth(self) -> Floats:
        """Return the nested boxes of a bend about depth as cells."""
        out_low, out_high, to_low, to_high = self._nest()
        half_mm = self.wide_mm / 2
        x0, x1 = (
            np.full_like(out_low, self.at_mm[0] + side * half_mm) for side in (-1, 1)
        )
        out = [out_low, out_low, out_high, out_high]
        to = [to_low, to_low, to_high, to_high]
        across = out + to if self.out.axis is Axis.HEIGHT else to + out
        return np.stack([x0, x1, *across])

    def _nest(self) -> Floats:
        """Return boxes across the bend: both ends along out, and against to."""
        nest = _slices(self.outside_mm, self.inside_mm)
        ends = []
        for direction, span in ((self.out, nest[:2]), (self.to.opposite, nest[2:])):
            placed = self._centre_mm(direction.axis) + direction.sign * span
            ends.append(placed if direction.sign > 0 else placed[::-1])
        return np.concatenate(ends)

    def _spans(self) -> list[tuple[Span, Span, Span]]:
        """Return the nested boxes of a bend about depth."""
        half_mm = self.wide_mm / 2
        flat = (self.at_mm[0] - half_mm, self.at_mm[0] + half_mm)
        spans = []
        for a, b, c, d in self._nest().T.tolist():
            of = {self.flat: flat, self.out.axis: (a, b), self.to.axis: (c, d)}
            spans.append((of[Axis.DEPTH], of[Axis.HEIGHT], of[Axis.WIDTH]))
        return spans


@lru_cache(maxsize=64)
def _slices(outer: float, inside: float) -> Floats:
    """Return boxes across a bend, no corner farther than allowed from it."""
    slack_mm = NEST_MM * 0.99
    # An inside no larger than what may be added is filled.
    inner = inside if inside > slack_mm else 0.0
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
        out.append((u, next_u, low, math.sqrt(outer**2 - u**2)))
        u = next_u
    return np.array(out).T


@lru_cache(maxsize=64)
def _slabs(outer_mm: float, inner_mm: float) -> Floats:
    """Return the ring between two radii, cut at its corners.

    Rows are both ends of a slab, then what is farther out than the inner edge and
    nearer than the outer one at each of them, seen from the centre.
    """
    outside, inside = _outer(outer_mm), _inner(inner_mm)
    at = np.array(sorted({u for u, _ in (*outside, *inside)}))
    at = np.append(at[:-1][np.diff(at) > LEAST_SLAB_MM], outer_mm)
    out_u, out_v = np.array(outside[:-1]).T
    in_u, in_v = np.array(inside).T
    far, near = np.interp(at, out_u, out_v), np.interp(at, in_u, in_v, right=0.0)
    rows = [at[:-1], at[1:], near[:-1], near[1:], far[:-1], far[1:]]
    return np.array(rows)


def _outer(radius_mm: float) -> list[tuple[float, float]]:
    """Return corners of an edge whose sides touch the circle, in order of the first."""
    turns = _turns(radius_mm)
    half = math.pi / 4 / turns
    reach = radius_mm / math.cos(half)
    between = [_on(reach, half * (2 * k + 1)) for k in range(turns)]
    return [(0.0, radius_mm), *between, (radius_mm, 0.0)]


def _inner(radius_mm: float) -> list[tuple[float, float]]:
    """Return corners on the circle, in order of the first."""
    if radius_mm == 0.0:
        return [(0.0, 0.0)]
    turns = _turns(radius_mm)
    return [_on(radius_mm, math.pi / 2 / turns * k) for k in range(turns + 1)]


def _turns(radius_mm: float) -> int:
    """Return into how many sides a quarter circle is cut."""
    half = math.acos(radius_mm / (radius_mm + CHORD_MM * 0.99))
    return max(1, math.ceil(math.pi / 4 / half))


def _on(radius_mm: float, angle: float) -> tuple[float, float]:
    return radius_mm * math.sin(angle), radius_mm * math.cos(angle)
