"""The room a plug's cable needs: plug, straight run and quarter bend as one body."""

from __future__ import annotations

from dataclasses import replace
from typing import Final

import numpy as np

from layout.geometry.solids.bend import QuarterBend
from layout.geometry.solids.cells import Floats, box_rows
from layout.geometry.solids.solid import Solid, block
from layout.geometry.space import Axis, Box, Direction, Vector
from layout.parts.form.cable import Cable
from layout.parts.form.form import Plug, PlugShape
from layout.parts.wiring.leads import CABLES, straight_run

__all__ = [
    "beside",
    "cable_of",
    "deep_mm",
    "face_reach_mm",
    "leaves",
    "plug_body",
    "room",
    "room_box",
    "room_rows",
    "run_mm",
]

Span = tuple[float, float]
Spans = tuple[Span, Span, Span]

_ON: Final = 2
"""A cable that leaves straight on needs so many times the depth of its bend."""


def cable_of(plug: Plug) -> Cable:
    """Return what leaves the plug."""
    return (plug.cable or CABLES[plug.kind]).times(plug.sockets)


def run_mm(plug: Plug) -> float:
    """Return how far the cable runs straight before it may bend."""
    return straight_run(plug.kind).mm


def leaves(plug: Plug) -> tuple[Direction, ...]:
    """Return the ways the cable may go: to any side, and straight on.

    From an angled plug it goes to the plug's broad sides alone.
    """
    if plug.shape is PlugShape.ANGLED:
        barred = {plug.out.axis, plug.along}
        return tuple(each for each in Direction if each.axis not in barred)
    return tuple(each for each in Direction if each is not plug.out.opposite)


def beside(plug: Plug, to: Direction) -> Vector:
    """Return where the middle of an angled plug's cable leaves its side."""
    spans = _stub(plug, to, straight_mm=0.0, section=_section_mm(plug, to))
    x, y, z = ((low + high) / 2 for low, high in spans)
    return x, y, z


def plug_body(plug: Plug, deep_mm: float) -> tuple[Solid, ...]:
    """Return a plug from its end so far back."""
    return (block(*_spans(plug, -deep_mm, 0.0)),)


def room(plug: Plug, to: Direction, *, straight_mm: float) -> tuple[Solid, ...]:
    """Return plug, straight run and bend where the cable leaves one way.

    The cable spreads into the width its plug has across the bend.  Straight on it
    needs no more than its own section, and twice its bend's depth: once to pass what
    stands beside the plug, and once to turn there.
    """
    before, bend, after = _pieces(plug, to, straight_mm=straight_mm)
    bent = bend.solids if bend else ()
    return (*(block(*each) for each in before), *bent, *(block(*e) for e in after))


def room_rows(plug: Plug, to: Direction, *, straight_mm: float) -> Floats:
    """Return the cells of the same room: far quicker than from its outlines."""
    before, bend, after = _pieces(plug, to, straight_mm=straight_mm)
    bent = [bend.rows] if bend else []
    return np.concatenate([box_rows(before), *bent, box_rows(after)], axis=1)


def room_box(plug: Plug, *, straight_mm: float) -> Box:
    """Return a box around the room of all ways, found without making any of them.

    No room is larger than plug and straight run with twice the bend beyond.
    """
    cable = cable_of(plug)
    thick_mm = max(max(cable.flat_mm(size_mm)) for size_mm in plug.size_mm)
    bend_mm = _ON * (cable.inside_radius_mm + thick_mm)
    far_mm = plug.body_mm + straight_mm + bend_mm + max(plug.size_mm)
    x, y, z = plug.at_mm
    return Box(
        (x - far_mm, y - far_mm, z - far_mm), (x + far_mm, y + far_mm, z + far_mm)
    )


def _pieces(
    plug: Plug, to: Direction, *, straight_mm: float
) -> tuple[list[Spans], QuarterBend | None, list[Spans]]:
    """Return the boxes before the bend, the bend if there is one, and those after."""
    boxes = [_spans(plug, -plug.body_mm, 0.0)] if plug.body_mm else []
    section = _section_mm(plug, to)
    if plug.shape is PlugShape.ANGLED:
        stub = _stub(plug, to, straight_mm=straight_mm, section=section)
        return boxes, None, [stub]
    if straight_mm:
        boxes.append(_spans(plug, 0.0, straight_mm))
    if to is plug.out:
        end_mm = deep_mm(plug, to, straight_mm=straight_mm) - plug.body_mm
        own = replace(plug, size_mm=section[::-1])
        return boxes, None, [_spans(own, straight_mm, end_mm)]
    x, y, z = plug.at_mm
    dx, dy, dz = plug.out.vector
    bend = QuarterBend(
        at_mm=(x + straight_mm * dx, y + straight_mm * dy, z + straight_mm * dz),
        out=plug.out,
        to=to,
        inside_mm=cable_of(plug).inside_radius_mm,
        thick_mm=section[0],
        wide_mm=section[1],
    )
    return boxes, bend, _leg(plug, bend)


def _section_mm(plug: Plug, to: Direction) -> tuple[float, float]:
    """Return thickness and width of the cable as it leaves one way."""
    across = (axis for axis in Axis if axis not in {plug.out.axis, to.axis})
    wide = plug.along if to is plug.out else next(across)
    return cable_of(plug).flat_mm(_size_mm(plug, wide))


def _leg(plug: Plug, bend: QuarterBend) -> list[Spans]:
    """Return the cable from its bend's end until it has come out beside the plug."""
    ends_mm = bend.inside_mm + bend.thick_mm / 2
    out_mm = _size_mm(plug, bend.to.axis) / 2 + bend.thick_mm
    if out_mm <= ends_mm:
        return []
    spans = {
        bend.to.axis: (ends_mm * bend.to.sign, out_mm * bend.to.sign),
        bend.out.axis: (
            bend.inside_mm * bend.out.sign,
            bend.outside_mm * bend.out.sign,
        ),
        bend.flat: (-bend.wide_mm / 2, bend.wide_mm / 2),
    }
    x, y, z = (
        (at + min(spans[axis]), at + max(spans[axis]))
        for axis, at in zip(Axis, bend.at_mm, strict=True)
    )
    return [(x, y, z)]


def deep_mm(plug: Plug, to: Direction, *, straight_mm: float) -> float:
    """Return how far plug, straight run and bend stand out of the socket."""
    if plug.shape is PlugShape.ANGLED:
        return plug.body_mm
    thick_mm, _ = _section_mm(plug, to)
    bend_mm = cable_of(plug).inside_radius_mm + thick_mm
    return plug.body_mm + straight_mm + bend_mm * (_ON if to is plug.out else 1)


def face_reach_mm(plug: Plug, towards: Vector) -> float:
    """Return how far along a unit vector the face reaches that the plug stands on.

    What the cable needs beyond it that way is its plug, run and bend.
    """
    ends = zip(towards, *_corners(plug, -plug.body_mm, -plug.body_mm), strict=True)
    return sum(max(part * low, part * high) for part, low, high in ends)


def _size_mm(plug: Plug, axis: Axis) -> float:
    long_mm, across_mm = plug.size_mm
    return long_mm if axis is plug.along else across_mm


def _corners(plug: Plug, near_mm: float, far_mm: float) -> tuple[Vector, Vector]:
    """Return the corners of the plug's section between two depths along it."""
    spans = _spans(plug, near_mm, far_mm)
    (x0, x1), (y0, y1), (z0, z1) = spans
    return (x0, y0, z0), (x1, y1, z1)


def _spans(plug: Plug, near_mm: float, far_mm: float) -> Spans:
    out = []
    for axis, at in zip(Axis, plug.at_mm, strict=True):
        half_mm = _size_mm(plug, axis) / 2
        ends = (at - half_mm, at + half_mm)
        if axis is plug.out.axis:
            ends = (at + plug.out.sign * near_mm, at + plug.out.sign * far_mm)
        out.append((min(ends), max(ends)))
    x, y, z = out
    return x, y, z


def _stub(
    plug: Plug, to: Direction, *, straight_mm: float, section: tuple[float, float]
) -> Spans:
    """Return the straight run beside an angled plug, level with its end."""
    thick_mm, wide_mm = section
    half_mm = _size_mm(plug, to.axis) / 2
    spans = []
    for axis, at in zip(Axis, plug.at_mm, strict=True):
        ends = (at - wide_mm / 2, at + wide_mm / 2)
        if axis is plug.out.axis:
            ends = (at, at - plug.out.sign * thick_mm)
        elif axis is to.axis:
            ends = (at + to.sign * half_mm, at + to.sign * (half_mm + straight_mm))
        spans.append((min(ends), max(ends)))
    x, y, z = spans
    return x, y, z
