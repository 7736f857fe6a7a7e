"""What a scene says of its lettering: read from its boxes and lines, nothing else."""

from __future__ import annotations

import itertools
from collections.abc import Iterator, Sequence

import shapely

from layout.drawing.lettered.balloons import number_text
from layout.drawing.paper.boxes import Frame, apart, text_box, texts
from layout.drawing.paper.dimensions import dimension_lines
from layout.drawing.paper.scene import (
    Area,
    Balloon,
    Circle,
    Dimension,
    Leader,
    Line,
    Point,
    Scene,
)
from layout.drawing.paper.style import STYLE

__all__ = [
    "boxes",
    "cut",
    "drawn_lines",
    "left_out",
    "marked",
    "outlines",
    "outside",
    "overlapping",
    "rows",
    "struck",
    "tangled",
]

_LEFT_OUT = "more, none worse than these"
_Lines = list[Sequence[Point]]


def boxes(drawn: Scene) -> list[tuple[str, Frame]]:
    """Return every text with its box, the numbers in balloons among them."""
    numbers = [
        number_text(each)
        for each in drawn.items
        if isinstance(each, Balloon) and each.number
    ]
    return [(each.text, text_box(each)) for each in (*texts(drawn), *numbers)]


def cut(drawn: Scene) -> list[str]:
    """Return the texts that end in dots."""
    said = [each.text.rstrip() for each in texts(drawn)]
    return [each for each in said if each.endswith(("…", "..."))]


def left_out(drawn: Scene) -> int:
    """Return how many rows the table says that it leaves out."""
    said = [each.text for each in texts(drawn)]
    return sum(int(each.split()[1]) for each in said if each.endswith(_LEFT_OUT))


def marked(drawn: Scene) -> set[int]:
    """Return the numbers that stand on the views and details."""
    return _numbers(drawn) - {0}


def rows(drawn: Scene) -> set[int]:
    """Return the numbers that stand in the table, whose balloons are smaller."""
    return _numbers(drawn, of_table=True) - {0}


def _numbers(drawn: Scene, *, of_table: bool = False) -> set[int]:
    balloons = [each for each in drawn.items if isinstance(each, Balloon)]
    large = max((each.radius_mm for each in balloons), default=0.0)
    small = [each.number for each in balloons if each.radius_mm < 0.9 * large]
    whole = [each.number for each in balloons if each.radius_mm >= 0.9 * large]
    return set(small if of_table else whole)


def overlapping(drawn: Scene) -> list[tuple[str, str]]:
    """Return the pairs of texts that overlap."""
    pairs = itertools.combinations(boxes(drawn), 2)
    return [(a, b) for (a, one), (b, other) in pairs if not apart(one, other)]


def outside(drawn: Scene) -> list[str]:
    """Return the texts that leave the frame: 20 on the left, 10 elsewhere."""
    right, top = drawn.width_mm - 10.0, drawn.height_mm - 10.0
    return [
        text
        for text, box in boxes(drawn)
        if box[0] < 20.0 or box[1] < 10.0 or box[2] > right or box[3] > top
    ]


def struck(drawn: Scene, lines: _Lines) -> list[str]:
    """Return the texts that one of the lines crosses."""
    tree = shapely.STRtree([shapely.LineString(list(each)) for each in lines])
    told = boxes(drawn)
    made = [shapely.box(*box) for _, box in told]
    crossed = {int(n) for n in tree.query(made, predicate="intersects")[0]}
    return [told[n][0] for n in sorted(crossed)]


def tangled(drawn: Scene) -> list[tuple[str, str]]:
    """Return the pairs of leaders that cross, by what they belong to.

    Two that end on one point of a part meet there without crossing.
    """
    led = [
        (each.ref, shapely.LineString(each.leader))
        for each in drawn.items
        if isinstance(each, Balloon) and each.leader
    ]
    led += [
        (each.ref, shapely.LineString(each.points))
        for each in drawn.items
        if isinstance(each, Leader)
    ]
    pairs = itertools.combinations(led, 2)
    return [(a, b) for (a, one), (b, other) in pairs if one.crosses(other)]


def drawn_lines(drawn: Scene) -> _Lines:
    """Return dimension lines, leaders and the circles around details."""
    out: _Lines = []
    for item in drawn.items:
        match item:
            case Dimension():
                out.extend(dimension_lines(item, STYLE))
            case Balloon() if item.leader:
                out.append(item.leader)
            case Leader():
                out.append(item.points)
            case Circle():
                ring = shapely.Point(item.centre).buffer(item.radius_mm).exterior
                out.append([(x, y) for x, y in ring.coords])
            case _:
                pass
    return out


def outlines(drawn: Scene) -> _Lines:
    """Return every edge of a part, seen or hidden, and of what clashing parts share."""
    return list(_outlines(drawn))


def _outlines(drawn: Scene) -> Iterator[Sequence[Point]]:
    for item in drawn.items:
        match item:
            case Area() if item.ref and item.pen is not None:
                yield item.outer
                yield from item.holes
            case Line() if item.ref:
                yield item.points
            case _:
                pass
