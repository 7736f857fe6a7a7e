"""Balloons: a finding's number and value beside its gap, wherever there is room."""

from __future__ import annotations

import math
from collections.abc import Sequence
from functools import cached_property, partial

import numpy as np
import shapely
from numpy.typing import NDArray

from layout.drawing.findings.marks import INKS, MARKS, Spot
from layout.drawing.lettered.cheapest import Limit
from layout.drawing.lettered.ground import Ground
from layout.drawing.lettered.labels import Candidate, Offer, Places, frames, joined
from layout.drawing.lettered.ranks import ranks
from layout.drawing.lettered.untangled import Label
from layout.drawing.paper.boxes import Frame
from layout.drawing.paper.lettering import width_mm
from layout.drawing.paper.scene import Align, Balloon, Ink, Mark, Text
from layout.drawing.paper.style import Style
from layout.drawing.paper.words import length, shown_gap
from layout.values import dataclass

__all__ = ["Room", "balloons", "number_text"]

_REACHES_MM = (0, 1.5, 3.5, 6, 9, 13, 18, 24)
_RAYS = np.array(
    [
        (math.cos(angle), math.sin(angle), reach)
        for reach in _REACHES_MM
        for angle in np.radians(np.arange(0, 360, 15)).tolist()
    ]
)
"""Directions around a spot, and how far off: cosine, sine, mm."""

_GRID_MM = 3.0
"""How far apart places in a view and all over the room are."""
_ABOUT_MM = 60.0
"""How far off places in the view are tried: a longer leader can end in the margin."""
_NEAR = 16.0
"""A place by the gap that costs less is taken before others are asked."""
_OFF_MM = 0.6
"""Paper between a balloon and the line it belongs to, beside the padding."""
_SPACE_MM = 0.9
"""Paper between a balloon and its value."""

_WIDER = {Mark.DIAMOND: 1.35, Mark.STAR: 1.35, Mark.DOUBLE_RING: 1.25}
"""How far the other forms reach beyond the plain ring."""


@dataclass(frozen=True, slots=True)
class Room:
    """Where a view's balloons may stand: around the view, and no farther."""

    view: Frame
    room: Frame


_FILLED = frozenset({Mark.DIAMOND, Mark.STAR, Mark.SQUARE})


def balloons(
    spots: Sequence[Spot], rooms: Sequence[Room], ground: Ground, *, style: Style
) -> tuple[Label, ...]:
    """Return a balloon for each spot: by it, or elsewhere in or around its view.

    One that finds no room with its value goes without; the table has the value.

    Parameters
    ----------
    rooms : sequence of Room
        For each view, where its balloons may stand.
    """
    made = (_label(each, rooms[each.view], ground, style=style) for each in spots)
    return tuple(each for each in made if each is not None)


def _label(spot: Spot, room: Room, ground: Ground, *, style: Style) -> Label | None:
    """Return a balloon with its value, or without it where there is no room."""
    for value in dict.fromkeys((_value(spot), "")):
        offers = _Offers(spot, value, room, ground=ground, style=style)
        place = _chosen(offers, ground)
        if place is not None:
            return Label(
                place=place,
                choose=partial(_again, offers, ground),
                farther=partial(_anywhere, offers, ground),
                made=partial(_drawn, spot, value, style=style),
            )
    return None


def _value(spot: Spot) -> str:
    """Return the number beside the balloon: the gap, or how far parts overlap."""
    finding = spot.finding
    if finding.overlap is not None:
        return length(finding.overlap.mm)
    gap_mm = shown_gap(finding)
    return "" if gap_mm is None or finding.b is None else length(gap_mm)


def _radius_mm(spot: Spot, style: Style) -> float:
    return style.balloon_mm * _WIDER.get(MARKS[spot.finding.verdict], 1.0)


class _Offers:
    """The places for one balloon, made when they are asked for and kept."""

    def __init__(
        self, spot: Spot, value: str, room: Room, *, ground: Ground, style: Style
    ) -> None:
        high = width = 2 * _radius_mm(spot, style)
        if value:
            width += _SPACE_MM + width_mm(value, style.small_mm) + _OFF_MM
        self._spot, self._room, self._ground = spot, room, ground
        self._size = width, high
        touching, self._near = (
            _within(each, room.room)
            for each in _places(spot, self._size, off_mm=style.pad_mm + _OFF_MM)
        )
        self.touching = Offer(touching)

    @cached_property
    def led(self) -> Offer:
        """Return the places near the spot."""
        return Offer(self._near)

    @cached_property
    def about(self) -> Offer:
        """Return these, places farther off in the view, and those in its margin."""
        around = shapely.Point(self._spot.target[0]).buffer(_ABOUT_MM)
        within = around.intersection(shapely.box(*self._room.room)).bounds
        margin = ranks(self._room.view, self._room.room, self._size)
        return self._and(np.concatenate([_grid(self._size, within), margin]), self.led)

    @cached_property
    def all_over(self) -> Offer:
        """Return these and places all over the room."""
        return self._and(_grid(self._size, self._room.room), self.about)

    def _and(self, at: NDArray[np.float64], first: Offer) -> Offer:
        boxes = frames(at, (self._size[0] / 2, self._size[1] / 2))
        own = _led(self._spot, at[self._ground.may_hold(boxes)], self._size)
        like = first, len(self._near.costs)
        return Offer(joined([self._near, own]), like=like)


def _chosen(offers: _Offers, ground: Ground) -> Candidate | None:
    """Take the best place for a balloon; None if there is none.

    One by the spot if it costs little, else the best of the view and its margin;
    anywhere in the room where there is none.
    """
    place = ground.best(offers.touching) or ground.best(offers.led, most=_NEAR)
    return place or ground.best(offers.about) or _anywhere(offers, ground)


def _again(
    offers: _Offers, ground: Ground, limit: Limit | None = None
) -> Candidate | None:
    """Take the best place in the view or its margin, others being placed."""
    touching = ground.best(offers.touching, limit=limit)
    return touching or ground.best(offers.about, limit=limit)


def _anywhere(
    offers: _Offers, ground: Ground, limit: Limit | None = None
) -> Candidate | None:
    """Take the best place of all that there are in the room."""
    return ground.best(offers.all_over, limit=limit)


def _drawn(spot: Spot, value: str, place: Candidate, *, style: Style) -> tuple[Balloon]:
    """Return a balloon at its place."""
    left, bottom, _, top = place.box
    y = (bottom + top) / 2
    radius_mm = _radius_mm(spot, style)
    ink = INKS[spot.finding.verdict]
    text = Text(
        at=(left + 2 * radius_mm + _SPACE_MM, y - style.small_mm / 2),
        text=value,
        height_mm=style.small_mm,
        backed=True,
        ink=Ink.BLACK if ink is Ink.TIGHT else ink,  # orange letters are too pale
        ref=spot.finding.id,
    )
    balloon = Balloon(
        number=spot.number,
        centre=(left + radius_mm, y),
        radius_mm=style.balloon_mm,
        mark=MARKS[spot.finding.verdict],
        leader=place.leader,
        value=text if value else None,
        ref=spot.finding.id,
    )
    return (balloon,)


def _within(places: Places, room: Frame) -> Places:
    """Return the places that lie in a room."""
    low, high = places.boxes[:, :2] >= room[:2], places.boxes[:, 2:] <= room[2:]
    kept = low.all(axis=1) & high.all(axis=1)
    leaders = None if places.leaders is None else places.leaders[kept]
    return Places(places.boxes[kept], places.costs[kept], leaders)


def number_text(balloon: Balloon) -> Text:
    """Return the number inside a balloon."""
    share = 0.78 if balloon.number < 100 else 0.55
    height_mm = share * balloon.radius_mm
    return Text(
        at=(balloon.centre[0], balloon.centre[1] - height_mm / 2),
        text=str(balloon.number),
        height_mm=height_mm,
        align=Align.CENTRE,
        ink=Ink.WHITE if balloon.mark in _FILLED else Ink.BLACK,
        ref=balloon.ref,
    )


def _places(spot: Spot, size: tuple[float, float], *, off_mm: float) -> list[Places]:
    """Return the places that touch the spot, and those that need a leader."""
    targets = np.repeat(np.array(spot.target, dtype=np.float64), len(_RAYS), axis=0)
    rays = np.tile(_RAYS, (len(spot.target), 1))
    half = (size[0] / 2, size[1] / 2)
    reach = rays[:, 2]
    along = np.array(half) + off_mm + reach[:, None]
    boxes = frames(targets + rays[:, :2] * along, half)
    costs = reach + 0.01 * np.abs(rays[:, 1])
    led = reach > 0.0
    leaders = _leaders(boxes, targets)
    return [
        Places(boxes[~led], costs[~led]),
        Places(boxes[led], costs[led], leaders[led]),
    ]


def _grid(size: tuple[float, float], room: Frame) -> NDArray[np.float64]:
    """Return middles of boxes all over a room, for where no margin has a place."""
    half = (size[0] / 2, size[1] / 2)
    xs = np.arange(room[0] + half[0], room[2] - half[0], _GRID_MM)
    ys = np.arange(room[1] + half[1], room[3] - half[1], _GRID_MM)
    return np.stack([each.ravel() for each in np.meshgrid(xs, ys)], axis=1)


def _led(spot: Spot, at: NDArray[np.float64], size: tuple[float, float]) -> Places:
    """Return places with these middles, each with a leader to each target."""
    half = (size[0] / 2, size[1] / 2)
    targets = np.array(spot.target, dtype=np.float64)
    centres = np.tile(at, (len(targets), 1))
    ends = np.repeat(targets, len(at), axis=0)
    boxes = frames(centres, half)
    leaders = _leaders(boxes, ends)
    far = np.hypot(*(leaders[:, 0] - leaders[:, 1]).T)
    off = far > _OFF_MM
    shared = np.tile(np.arange(len(at)), len(targets))
    return Places(boxes[: len(at)], far[off], leaders[off], shared[off])


def _leaders(
    boxes: NDArray[np.float64], targets: NDArray[np.float64]
) -> NDArray[np.float64]:
    """Return the lines from boxes to targets, from a box's middle where it can."""
    left, bottom, right, top = boxes.T
    x = np.clip(targets[:, 0], left, right)
    beside = (x == left) | (x == right)
    over = np.where(targets[:, 1] < bottom, bottom, top)
    y = np.where(beside, (bottom + top) / 2, over)
    return np.stack([np.stack([x, y], axis=1), targets], axis=1)
