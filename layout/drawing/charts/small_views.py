"""Positions drawn: a view of a build, what is moved heavy; a strip of small ones."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Final

import shapely

from layout.build.placed import Build
from layout.drawing.findings.marks import INKS
from layout.drawing.paper.boxes import Frame
from layout.drawing.paper.lettering import fitted, plain
from layout.drawing.paper.scene import Ink, Item, Line, Pen, Text
from layout.drawing.paper.style import STYLE
from layout.drawing.paper.words import signed
from layout.drawing.views.bodies import areas, items_of
from layout.drawing.views.seen import polygons, seen
from layout.drawing.views.views import Facing, View, bounds_of
from layout.geometry.bodies.body import Body
from layout.geometry.space import ORIGIN, Box
from layout.questions.findings.finding import Verdict
from layout.values import dataclass

__all__ = [
    "SCALES",
    "VERDICT_INKS",
    "Shown",
    "box_of",
    "drawn_at",
    "small_views",
    "spread",
    "view_at",
]

SCALES: Final = (2, 5, 10, 20, 50, 100)
VERDICT_INKS: Final = {each.value: INKS[each] for each in Verdict}
_SMALL: Final = STYLE.small_mm
_MOST: Final = 6
_HIGH_MM: Final = 60.0
_WORDS_MM: Final = 11.0
_SAME_MM: Final = 1e-6


@dataclass(frozen=True, slots=True, kw_only=True)
class Shown:
    """One position as the sheet shows it.

    Parameters
    ----------
    name, verdict : str
    limit : str
        What limits it, or what else is to be said of it.
    at_mm : float or None
        The shift on a stretch; None at a named position.
    build : Build or None
        The build with the part there; None where it is not drawn.
    fails : bool
        Whether something of the part is short or clashes there.
    moved : tuple of Body
        What is moved, as it stands there.
    """

    name: str
    verdict: str
    margin_mm: float | None
    limit: str = ""
    at_mm: float | None
    build: Build | None
    fails: bool
    moved: tuple[Body, ...] = ()


def spread(rows: Sequence[Shown]) -> list[Shown]:
    """Return a few of many, evenly spread, the first and the last among them."""
    if len(rows) <= _MOST:
        return list(rows)
    step = (len(rows) - 1) / (_MOST - 1)
    return [rows[round(step * k)] for k in range(_MOST)]


def box_of(build: Build) -> Box:
    """Return the box round a build and its case."""
    boxes = [each.body.bounds for each in build.bodies]
    if build.case_size_mm is not None:
        boxes.append(Box(ORIGIN, build.case_size_mm))
    return bounds_of(boxes)


def view_at(facing: Facing, box: Box, scale: int, *, at: tuple[float, float]) -> View:
    """Return a view whose left edge, and lower or upper one, lie at a point."""
    factor = 1.0 / scale
    x, y = at
    across = factor * box.low[facing.across.index]
    y += across if facing is Facing.TOP else -across
    return View(
        facing=facing,
        scale=factor,
        origin=(x - factor * box.low[0], y),
        box=box,
    )


def drawn_at(row: Shown, view: View) -> Iterator[Item]:
    """Yield a view of a position, the outline of what is moved heavy over it."""
    if row.build is None:
        return
    yield from items_of(seen(row.build.bodies, view), STYLE)
    whole = shapely.union_all([view.silhouette(each) for each in row.moved])
    for area in areas(polygons(whole), pen=Pen.HEAVY):
        ink = VERDICT_INKS[row.verdict]
        yield Line(points=area.outer, pen=Pen.HEAVY, ink=ink)


def small_views(
    rows: Sequence[Shown], best: Shown | None, frame: Frame
) -> tuple[tuple[Item, ...], float]:
    """Return small views along a frame's lower edge, each named, and where they end.

    A position that looks from the side as the best one does is drawn from above.
    """
    left, bottom, right, _ = frame
    if not rows:
        return (), bottom
    wide = (right - left) / max(len(rows), 4)
    faced = [(row, _facing(row, best), box_of(row.build)) for row in rows if row.build]
    sizes = [_size(box, facing) for _, facing, box in faced]
    across, high = (max(each[axis] for each in sizes) for axis in (0, 1))
    fits = (s for s in SCALES if across / s < wide - 4.0 and high / s < _HIGH_MM)
    scale = next(fits, SCALES[-1])
    over = bottom + _WORDS_MM + high / scale + 3.0
    out: list[Item] = [Line(points=((left, over), (right, over)), pen=Pen.NARROW)]
    for place, (row, facing, box) in enumerate(faced):
        x, y = left + place * wide + 1.0, bottom + _WORDS_MM
        if facing is Facing.TOP:
            y += _size(box, facing)[1] / scale
        out += drawn_at(row, view_at(facing, box, scale, at=(x, y)))
        from_above = " (from above)" if facing is Facing.TOP else ""
        lines = f"{row.name}{from_above}", f"{_come_to(row)}, 1:{scale}"
        inks = Ink.BLACK, VERDICT_INKS[row.verdict]
        for line, (text, ink) in enumerate(zip(lines, inks, strict=True)):
            said = fitted(plain(text), _SMALL, wide - 4.0)
            at = x, bottom + 5.5 - 4.4 * line
            out.append(Text(at=at, text=said, height_mm=_SMALL, ink=ink))
    return tuple(out), over


def _come_to(row: Shown) -> str:
    margin = "" if row.margin_mm is None else f" {signed(row.margin_mm)} mm"
    return f"{row.verdict}{margin}"


def _size(box: Box, facing: Facing) -> tuple[float, float]:
    axis = facing.across.index
    return box.high[0] - box.low[0], box.high[axis] - box.low[axis]


def _facing(row: Shown, best: Shown | None) -> Facing:
    """Return the view in which a position differs from the best one."""
    if best is None or not row.moved or len(row.moved) != len(best.moved):
        return Facing.SIDE
    differ = [
        max(abs(a - b) for a, b in zip(ours, theirs, strict=True))
        for ours, theirs in zip(_corners(row), _corners(best), strict=True)
    ]
    side, above = max(differ[0], differ[1]), differ[2]
    return Facing.TOP if side < _SAME_MM < above else Facing.SIDE


def _corners(row: Shown) -> tuple[tuple[float, ...], ...]:
    """Return where what is moved begins and ends along each axis."""
    boxes = [each.bounds for each in row.moved]
    return tuple(
        tuple(end for box in boxes for end in (box.low[axis], box.high[axis]))
        for axis in range(3)
    )
