"""Which names a drawing shows, and in which view."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace

import shapely
from shapely.geometry.base import BaseGeometry

from layout.build.placed import Build
from layout.drawing.paper.lettering import plain
from layout.drawing.paper.words import named
from layout.drawing.views.kinds import FILLS
from layout.drawing.views.seen import DETAILS, Seen
from layout.drawing.views.views import Facing, View
from layout.parts.form.form import Role
from layout.values import dataclass

__all__ = ["Name", "names"]

_OWN_NAMES = frozenset({Role.PUMP_BLOCK, Role.RADIATOR, Role.SUPPLY_LEADS})
"""Bodies of a part that are named beside the part itself."""

_SHEET_NAMES: Mapping[Facing, frozenset[Role]] = {
    Facing.SIDE: frozenset({Role.SHROUD, Role.GRILLE}),
    Facing.TOP: frozenset({Role.SIDE_PANEL, Role.TRAY, Role.BACK_PANEL}),
}
"""The case's sheets that are named, in the view that shows them edge-on."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Name:
    """What is to be named: the lines of its name, and where it lies in a view.

    Parameters
    ----------
    shape : geometry
        Where it is seen: polygons, or the edges of what is only an outline.
    again : bool
        Whether another view shows the name already: it may be left out.
    """

    lines: tuple[str, ...]
    view: int
    shape: BaseGeometry
    hidden: bool
    ref: str
    again: bool = False


def names(
    build: Build, views: tuple[tuple[View, tuple[Seen, ...]], ...]
) -> tuple[Name, ...]:
    """Return the names: each in the view that shows most, once more in the other."""
    out: list[Name] = []
    for lines, bodies in _groups(build):
        out.extend(_in_views(lines, bodies, views))
    return (*out, *_sheet_names(views))


def _groups(build: Build) -> list[tuple[tuple[str, ...], frozenset[str]]]:
    """Return what is named, as lines, and the bodies that a name stands for."""
    sizes = {each.key: plain(each.size) for each in build.parts}
    groups: dict[tuple[str, Role | None], list[str]] = {}
    for each in build.bodies:
        if each.part != "case" and each.role.is_matter:
            own = each.role if each.role in _OWN_NAMES else None
            groups.setdefault((each.part, own), []).append(each.name)
    out: list[tuple[tuple[str, ...], frozenset[str]]] = []
    for (part, own), bodies in groups.items():
        cooled = (part, Role.RADIATOR) in groups
        sized = own is Role.RADIATOR or (own is None and not cooled)
        text = plain(part) if own is None else named(bodies[0])
        if cooled and own is None:
            text = f"{text}, fans"
        lines = (text, sizes.get(part, "") if sized else "")
        out.append((tuple(each for each in lines if each), frozenset(bodies)))
    return out


def _in_views(
    lines: tuple[str, ...],
    bodies: frozenset[str],
    views: tuple[tuple[View, tuple[Seen, ...]], ...],
) -> Iterator[Name]:
    """Yield the name where most of its bodies is seen, and again in the other view."""
    ranked = sorted(
        (-round(_room(each, view), 6), index, place)
        for index, (view, shown) in enumerate(views)
        for place, each in enumerate(shown)
        if each.body.name in bodies
    )
    first = ranked[0][1]
    other = next((row for row in ranked if row[1] != first), None)
    for row in (ranked[0], other):
        if row is None:
            continue
        each = views[row[1]][1][row[2]]
        name = _name(lines, each, row[1])
        if name is not None and row is other:
            # an outline alone, over what lies under it, is not known without its name
            bare = each.see_through and each.body.role in FILLS
            yield replace(name, lines=lines[:1], again=not bare)
        elif name is not None:
            yield name


def _name(lines: tuple[str, ...], each: Seen, index: int) -> Name | None:
    """Return the name of a body in a view; hidden details have none."""
    if each.hidden and each.body.role in DETAILS:
        return None
    shape = each.outline if each.hidden else each.visible
    return Name(
        lines=lines,
        view=index,
        shape=shapely.boundary(each.outline) if each.see_through else shape,
        hidden=each.hidden,
        ref=each.body.name,
    )


def _room(each: Seen, view: View) -> float:
    """Return how much of a body is seen; the side view counts for more."""
    shown = 2.0 if view.facing is Facing.SIDE else 1.0
    if each.see_through:
        shown = 0.05
    return shown * each.visible.area + 1e-6 * each.outline.area


def _sheet_names(
    views: Sequence[tuple[View, tuple[Seen, ...]]],
) -> Iterator[Name]:
    for index, (view, shown) in enumerate(views):
        for each in shown:
            if each.body.role in _SHEET_NAMES[view.facing]:
                name = _name((named(each.body.name),), each, index)
                if name is not None:
                    yield name
