"""Two builds side by side: what has changed, drawn and told."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

import shapely
from shapely.geometry.base import BaseGeometry

from layout.build.placed import Build, PlacedBody
from layout.drawing.paper.scene import Area, Ink, Item, Line, Pen
from layout.drawing.views.bodies import areas
from layout.drawing.views.cable_rooms import cable_rooms, led_otherwise
from layout.drawing.views.seen import Seen, polygons
from layout.drawing.views.views import View
from layout.geometry.bodies.body import Body
from layout.questions.findings.finding import Check, Finding, Verdict
from layout.values import dataclass

__all__ = [
    "Before",
    "changed",
    "changes_first",
    "earlier",
    "in_another_case",
    "only_in",
    "outlined",
]


@dataclass(frozen=True, slots=True)
class Before:
    """The build that another is compared with, and its check."""

    build: Build
    check: Check


@dataclass(frozen=True, slots=True)
class _Change:
    """A body as it was and as it is; None where there is none."""

    name: str
    was: PlacedBody | None
    now: PlacedBody | None


def changed(
    before: Before,
    build: Build,
    views: Sequence[tuple[View, Sequence[Seen]]],
    *,
    of: int,
) -> Iterator[Item]:
    """Yield outlines of what has changed: heavy as it is, double-dot as it was.

    Of a plug whose cable leaves otherwise they are those of the cable's room too.

    Heavy is what is seen of a part, and the whole of one that no view shows.  In
    another case every place is another one: there only parts that are new, or of
    another shape, are outlined, and nothing is drawn as it was.
    """
    moved_in = in_another_case(before.build, build)
    view, shown = views[of]
    seen_of = {each.body.name: each.visible for each in shown if not each.hidden}
    anywhere = {each.body.name for _, one in views for each in one if not each.hidden}
    for each in _changes(before.build, build):
        if each.was is not None and not moved_in:
            outline = view.silhouette(each.was.body)
            for line in _rings(outline):
                yield Line(points=line, pen=Pen.PLACE, ref=each.name)
        if each.now is not None and (each.name in seen_of or each.name not in anywhere):
            whole = seen_of.get(each.name) or view.silhouette(each.now.body)
            outline = polygons(whole)
            for area in areas(outline, pen=Pen.HEAVY, edge=Ink.BLACK, ref=each.name):
                yield from _edges(area)
    if not moved_in:
        yield from _led(before.build, build, view)


def _led(before: Build, build: Build, view: View) -> Iterator[Line]:
    """Yield plugs with the room of their cable, where that leaves otherwise."""
    names = led_otherwise(before, build)
    if not names:
        return
    for one, pen in ((before, Pen.PLACE), (build, Pen.HEAVY)):
        held = {each.name: each.body for each in one.bodies if each.name in names}
        for room, _ in cable_rooms(one):
            if room.name in names:
                plug = [held[room.name]] if "/" in room.name else []
                outline = shapely.union_all([view.silhouette(b) for b in (*plug, room)])
                for line in _rings(outline):
                    yield Line(points=line, pen=pen, ref=room.name)


def outlined(before: Build, build: Build) -> tuple[bool, bool]:
    """Tell whether anything is outlined as it is, and anything as it was."""
    changes = _changes(before, build)
    as_it_was = any(each.was is not None for each in changes)
    moved_in = in_another_case(before, build)
    led = not moved_in and bool(led_otherwise(before, build))
    return (
        led or any(each.now is not None for each in changes),
        led or (as_it_was and not moved_in),
    )


def _edges(area: Area) -> Iterator[Line]:
    for ring in (area.outer, *area.holes):
        yield Line(points=ring, pen=Pen.HEAVY, ink=area.edge, ref=area.ref)


def _rings(outline: BaseGeometry) -> Iterator[tuple[tuple[float, float], ...]]:
    for each in shapely.get_parts(shapely.line_merge(shapely.boundary(outline))):
        yield tuple((float(x), float(y)) for x, y in shapely.get_coordinates(each))


def in_another_case(before: Build, build: Build) -> bool:
    """Tell whether two builds stand in cases of another name or size."""
    return (before.case_name, before.case_size_mm) != (
        build.case_name,
        build.case_size_mm,
    )


def only_in(one: Build, other: Build) -> tuple[str, ...]:
    """Return the parts of a build that another does not have, by their names."""
    known = {each.key for each in other.parts}
    return tuple(each.key for each in one.parts if each.key not in known)


def _changes(before: Build, build: Build) -> list[_Change]:
    """Return the bodies that are new, gone, or not as they were; places aside."""
    moved_in = in_another_case(before, build)
    was, now = (
        {
            each.name: each
            for each in one.bodies
            if each.role.is_matter and not (moved_in and each.part == "case")
        }
        for one in (before, build)
    )
    names = [*was, *(each for each in now if each not in was)]
    return [
        _Change(name, was.get(name), now.get(name))
        for name in names
        if name not in was
        or name not in now
        or not _same(was[name], now[name], anywhere=moved_in)
    ]


def _same(a: PlacedBody, b: PlacedBody, *, anywhere: bool) -> bool:
    if anywhere:
        return _sizes(a.body) == _sizes(b.body)
    return _shape(a.body) == _shape(b.body)


def _sizes(body: Body) -> tuple[object, ...]:
    """Return what of a body stays the same wherever it is put."""
    low, high = body.bounds.low, body.bounds.high
    return (
        tuple(round(b - a, 6) for a, b in zip(low, high, strict=True)),
        tuple(
            (round(each.side.area, 6), round(each.top.area, 6))
            for each in body.shape.solids
        ),
    )


def _shape(body: Body) -> tuple[object, ...]:
    return (
        tuple(round(each, 6) for each in body.at_mm),
        tuple((each.side, each.top) for each in body.shape.solids),
    )


def changes_first(before: Before, check: Check) -> Check:
    """Return a check whose changed answers stand before the others that are clear.

    The worst one stays the first: it is what the verdict line tells.
    """

    def late(finding: Finding) -> tuple[bool, bool, bool]:
        calm = finding.verdict is Verdict.CLEAR
        was = earlier(before, finding)
        alike = (
            was is not None
            and was.verdict is finding.verdict
            and _mm(was.gap_mm) == _mm(finding.gap_mm)
            and _mm(was.need_mm) == _mm(finding.need_mm)
        )
        return calm, calm and finding is not check.findings[0], calm and alike

    return replace(check, findings=tuple(sorted(check.findings, key=late)))


def _mm(length_mm: float | None) -> float | None:
    """Return a length as it is told."""
    return None if length_mm is None else round(length_mm, 1)


def earlier(before: Before, finding: Finding) -> Finding | None:
    """Return the answer that the same question had before."""
    return next((each for each in before.check.findings if each.id == finding.id), None)
