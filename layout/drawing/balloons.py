"""Balloons: a finding's number and value beside its gap, wherever there is room."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from layout.drawing.boxes import Frame, within
from layout.drawing.labels import Candidate, Ground
from layout.drawing.lettering import width_mm
from layout.drawing.marks import INKS, MARKS, Spot
from layout.drawing.scene import Align, Balloon, Ink, Mark, Point, Text
from layout.drawing.style import Style
from layout.drawing.words import length

__all__ = ["balloons", "number_text"]

_ANGLES = tuple(math.radians(each) for each in range(0, 360, 15))
_REACHES_MM = (0.0, 1.5, 3.5, 6.0, 9.0, 13.0, 18.0, 24.0, 31.0, 40.0, 52.0, 66.0)
_OFF_MM = 0.6
"""Paper between a balloon and the line it belongs to, beside the padding."""
_SPACE_MM = 0.9
"""Paper between a balloon and its value."""

_WIDER = {Mark.DIAMOND: 1.35, Mark.STAR: 1.35, Mark.DOUBLE_RING: 1.25}
"""How far the other forms reach beyond the plain ring."""

_FILLED = frozenset({Mark.DIAMOND, Mark.STAR, Mark.SQUARE})


def balloons(
    spots: Sequence[Spot], rooms: Sequence[Frame], ground: Ground, *, style: Style
) -> tuple[Balloon, ...]:
    """Return a balloon for each spot, as near to it as there is room.

    One that finds no room with its value goes without; the table has the value.

    Parameters
    ----------
    rooms : sequence of Frame
        For each view, where its balloons may stand.
    """
    out = []
    for spot in spots:
        value = _value(spot)
        forms = dict.fromkeys((value, ""))
        room = rooms[spot.view]
        made = (_placed(spot, each, room, ground=ground, style=style) for each in forms)
        out.append(next((each for each in made if each is not None), None))
    return tuple(each for each in out if each is not None)


def _value(spot: Spot) -> str:
    """Return the number beside the balloon: the gap, or how far parts overlap."""
    finding = spot.finding
    if finding.overlap is not None:
        return length(finding.overlap.mm)
    if finding.gap_mm is None or finding.b is None:
        return ""
    return length(finding.gap_mm)


def _placed(
    spot: Spot, value: str, room: Frame, *, ground: Ground, style: Style
) -> Balloon | None:
    mark = MARKS[spot.finding.verdict]
    radius_mm = style.balloon_mm * _WIDER.get(mark, 1.0)
    width = 2 * radius_mm
    if value:
        width += _SPACE_MM + width_mm(value, style.small_mm) + _OFF_MM
    places = _candidates(spot, (width, 2 * radius_mm), style)
    place = ground.best([each for each in places if within(each.box, room)])
    if place is None:
        return None
    left, bottom, _, top = place.box
    y = (bottom + top) / 2
    ink = INKS[spot.finding.verdict]
    text = Text(
        at=(left + 2 * radius_mm + _SPACE_MM, y - style.small_mm / 2),
        text=value,
        height_mm=style.small_mm,
        backed=True,
        ink=Ink.BLACK if ink is Ink.TIGHT else ink,  # orange letters are too pale
        ref=spot.finding.id,
    )
    return Balloon(
        number=spot.number,
        centre=(left + radius_mm, y),
        radius_mm=style.balloon_mm,
        mark=mark,
        leader=place.leader,
        value=text if value else None,
        ref=spot.finding.id,
    )


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


def _candidates(
    spot: Spot, size: tuple[float, float], style: Style
) -> Iterator[Candidate]:
    """Yield places around the spot, from near to far."""
    wide, high = size[0] / 2, size[1] / 2
    off_mm = style.pad_mm + _OFF_MM
    for target in spot.target:
        for reach_mm in _REACHES_MM:
            for angle in _ANGLES:
                x = target[0] + math.cos(angle) * (wide + off_mm + reach_mm)
                y = target[1] + math.sin(angle) * (high + off_mm + reach_mm)
                box = (x - wide, y - high, x + wide, y + high)
                leader = _leader(box, target) if reach_mm else ()
                yield Candidate(box, leader, reach_mm + 0.01 * abs(math.sin(angle)))


def _leader(box: Frame, target: Point) -> tuple[Point, ...]:
    """Return the line from a box to the target, from its middle where it can."""
    x = min(max(target[0], box[0]), box[2])
    if x in {box[0], box[2]}:
        return (x, (box[1] + box[3]) / 2), target
    return (x, box[1] if target[1] < box[1] else box[3]), target
