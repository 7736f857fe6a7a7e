"""How large each part could be, all else as built: the largest figure that clears.

It is the largest figure of the clear stretch that holds the present one or, where that
is not clear now, the largest clear one below it; other findings of the build are
disregarded.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import replace
from typing import Final

from layout.build.errors import SeatError
from layout.build.kept import Kept
from layout.build.placed import Build
from layout.build.plan import Plan
from layout.build.remade import Remaker
from layout.parts.cage import Cage
from layout.parts.case_inside import DISAGREE_MM
from layout.parts.dimensions import dimensions
from layout.parts.liquid_cooler import LiquidCooler
from layout.parts.places import places
from layout.parts.radiator import Radiator
from layout.parts.supply import Supply
from layout.questions.advice import spoken
from layout.questions.answered import listed
from layout.questions.asked import CASE
from layout.questions.bend_room import BendRoom, bend_rooms
from layout.questions.cables import Cables
from layout.questions.check import check
from layout.questions.faces import Face, faces
from layout.questions.finding import Finding, Group
from layout.questions.grown import Grown, Limit, limits_of
from layout.questions.left_out import StandIn, stand_ins
from layout.questions.moves import MoveError, places_of
from layout.questions.positions import GROUPS, placed_at
from layout.questions.search import FINE_MM, LIMIT_MM, Search, stated
from layout.questions.unmoved import ButFor, but_for
from layout.values import dataclass

__all__ = ["LIMIT_MM", "Headroom", "Room", "headroom", "headroom_of_cables", "largest"]

_ELSEWHERE: Final = frozenset(Group) - GROUPS
_ALIKE_MM: Final = 0.05
"""Bodies and data sheet say the same: notes are told in tenths."""
_LEAST_SAID: Final = 1e-6
"""Hundredths that floats leave under a round figure."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Room:
    """The largest figure of one dimension.

    Parameters
    ----------
    largest_mm : float or None
        None where nothing limits it up to ``end_mm``, the largest that a file may
        give, and where no size fits: then ``limited_by`` names what is in the way.
    note : str
        Where bodies and the case's data sheet say another figure, or what no figure
        mends.
    but_for_mm : float or None
        The largest figure but for what no figure mends.
    left_out : bool
        The build has no such part: a small usual one stands in, and ``now_mm`` is 0.
    """

    part: str
    dimension: str
    now_mm: float
    largest_mm: float | None
    limited_by: tuple[str, str] | None
    rule: str | None
    note: str = ""
    end_mm: float = LIMIT_MM
    but_for_mm: float | None = None
    left_out: bool = False

    @property
    def left_mm(self) -> float | None:
        """Return how much larger it could be; negative where it is too large."""
        return None if self.largest_mm is None else self.largest_mm - self.now_mm

    @property
    def fits(self) -> bool:
        """Tell whether the present figure is no larger than the largest."""
        if self.largest_mm is None:
            return self.limited_by is None
        return self.now_mm <= self.largest_mm


@dataclass(frozen=True, slots=True, kw_only=True)
class Headroom:
    """Every part's dimensions; ``elsewhere`` is what reach and hook-up lack.

    ``faces`` are the fans that stand together on each mount, whatever is there now.
    """

    build: str
    rows: tuple[Room, ...]
    notes: tuple[str, ...] = ()
    elsewhere: tuple[Finding, ...] = ()
    faces: tuple[Face, ...] = ()


def headroom(plan: Plan, *, part: str | None = None) -> Headroom:
    """Return the largest figure that still clears, for every part or for one.

    Parameters
    ----------
    plan : Plan
    part : str, optional
        A part's key; of a part that is left out its sort, such as ``cooler``.

    Raises
    ------
    MoveError
        If there is no such part, or it has no such figure.
    """
    remaker = Remaker.of(plan)
    rooms = headroom_of_cables(remaker.build, part=part)
    plugged = {each.part for each in rooms}
    sized = [
        each.key
        for each in plan.entries
        if dimensions(each.spec) or each.key in plugged
    ]
    others = [_left_out(each) for each in stand_ins(plan, part)]
    if part is not None and part not in sized and not others:
        right = f"one of {', '.join(sized)}" if sized else "no part of this build"
        found = "has no size to grow" if plan.spec(part) else "is not in the build"
        raise MoveError(f"found {part!r}, which {found}; {right} would be right")
    cables = Cables()
    wanted = [key for key in sized if part in {None, key}]
    rows = [row for key in wanted for row in _of_part(remaker, key, cables)]
    rows += [*others, *(each for each in rooms if each.part in wanted)]
    return Headroom(
        build=plan.name,
        rows=tuple(rows),
        notes=tuple(row.note for row in rows if row.note),
        elsewhere=tuple(
            each
            for each in check(remaker.build, groups=_ELSEWHERE).findings
            if each.verdict.fails
        ),
        faces=() if part else faces(each.seat for each in remaker.tree.seats.offers),
    )


def _left_out(new: StandIn) -> Room:
    """Return the largest figure of a part that is left out: it has none now."""
    row = largest(new.remaker, new.key, new.dimension, suffix=new.suffix)
    return replace(row, now_mm=0.0, note="", left_out=True)


def headroom_of_cables(build: Build, *, part: str | None = None) -> tuple[Room, ...]:
    """Return the largest least radius of bend of every cable, or of those at a part."""
    return tuple(_bent(each) for each in bend_rooms(build, part=part))


def _bent(room: BendRoom) -> Room:
    """Return how stiff a cable may be as a row."""
    limit = room.limit
    return Room(
        part=room.part,
        dimension=f"bend radius of {room.kind}",
        now_mm=room.now_mm,
        largest_mm=room.largest_mm,
        limited_by=limit[:2] if limit else None,
        rule=limit[2] if limit else None,
    )


def _of_part(remaker: Remaker, key: str, cables: Cables) -> Iterator[Room]:
    """Yield a part's dimensions where it is, then those that depend on a place."""
    for name, there in (("", remaker), *_elsewhere(remaker, key)):
        spec = there.plan.spec(key)
        if spec is None:
            continue
        limits = limits_of(there.build, key)
        for dimension in dimensions(spec):
            if name and not dimension.name.endswith(("length", "thickness")):
                continue
            yield largest(
                there, key, dimension.name, suffix=name, cables=cables, limits=limits
            )


def _elsewhere(remaker: Remaker, key: str) -> Iterator[tuple[str, Remaker]]:
    """Yield a radiator on its other mounts, and a supply by cage position."""
    plan, kept = remaker.plan, remaker.tree.kept
    spec = plan.spec(key)
    if isinstance(spec, Radiator | LiquidCooler):
        seats = tuple((each.host, each.seat) for each in remaker.tree.seats.offers)
        for name, other in places(spec, seats):
            if other is not None and other != spec:
                yield from _had(f", {name}", plan.changed(key, other), kept)
    if isinstance(spec, Supply):
        cages = [each.key for each in plan.entries if isinstance(each.spec, Cage)]
        for cage in cages[:1]:
            for place in places_of(plan, cage):
                if place[1] != plan.spec(cage):
                    moved, _ = placed_at(plan, iter([(cage, place)]))
                    yield from _had(f", {cage} {place[0]}", moved, kept)


def _had(name: str, plan: Plan, kept: Kept) -> Iterator[tuple[str, Remaker]]:
    """Yield the plan put in place, unless a seat is taken or missing."""
    try:
        yield name, Remaker.of(plan, kept=kept)
    except SeatError:
        return


def largest(
    remaker: Remaker,
    key: str,
    name: str,
    *,
    suffix: str = "",
    cables: Cables | None = None,
    limits: list[Limit] | None = None,
) -> Room:
    """Return the largest figure of one dimension of a part.

    ``suffix`` says which place it is for; ``cables`` and ``limits`` are made ready.
    """
    spec = remaker.plan.spec(key)
    every = dimensions(spec) if spec is not None else ()
    dimension = next(each for each in every if each.name == name)
    measured = limits or limits_of(remaker.build, key)
    search = Search(Grown(remaker, key, dimension, measured), cables or Cables())
    figure_mm, limit = search.found()
    note = "" if suffix else _beside_stated(search, figure_mm)
    spared = but_for(search) if figure_mm is None and limit else None
    if spared:
        note = f"{key}, {name}{suffix}: {_told(spared, name, search.end_mm)}"
    return Room(
        part=key,
        dimension=f"{name}{suffix}",
        now_mm=dimension.now_mm,
        largest_mm=figure_mm,
        limited_by=limit[:2] if limit else None,
        rule=limit[2] if limit else None,
        note=note,
        end_mm=search.end_mm,
        but_for_mm=(spared.largest_mm or search.end_mm) if spared else None,
    )


def _told(spared: ButFor, name: str, end_mm: float) -> str:
    """Return what no figure mends, and what would clear but for that."""
    between = listed(
        [
            f"{spoken(each.a)} and {spoken(each.b or CASE)} are too near"
            for each in spared.findings
        ]
    )
    figure = f"{_said(spared.largest_mm or end_mm)} would clear"
    a, b, _ = spared.limit or ("", "", "")
    limit = f", limited by {spoken(a)} and {spoken(b)}" if a else ""
    return f"no {name} mends that {between}; but for that {figure}{limit}"


def _said(mm: float) -> str:
    """Return a largest figure in words, in hundredths and never above it."""
    return f"{math.floor(100 * mm + _LEAST_SAID) / 100:g} mm"


def _beside_stated(search: Search, used_mm: float | None) -> str:
    """Return where what the bodies leave and what the case states differ."""
    grown, now_mm = search.grown, search.grown.dimension.now_mm
    at_now = stated(grown.remaker.build, grown.key, every=True)
    raised = grown.dimension.name == "fan raise"  # no limit is stated for that itself
    if raised or not at_now or search.bodies_mm is None:
        return ""
    if not grown.possible(now_mm + 1.0):
        return ""
    larger = {e.id: e for e in stated(grown.build(now_mm + 1.0), grown.key, every=True)}
    for each in at_now:
        margin_mm, then = each.margin_mm or 0.0, larger.get(each.id)
        # a limit of this figure is nearer by as much as the figure grows
        if then is None or abs(margin_mm - (then.margin_mm or 0.0) - 1.0) > FINE_MM:
            continue
        stated_mm = now_mm + margin_mm
        off_mm = stated_mm - search.bodies_mm
        if abs(off_mm) < _ALIKE_MM:
            return ""
        word = "more" if off_mm > 0 else "less"
        agree = abs(off_mm) <= DISAGREE_MM
        close = f" (they agree within {DISAGREE_MM:g})" if agree else ""
        used = "no size" if used_mm is None else _said(used_mm)
        return (
            f"{grown.key}, {grown.dimension.name}: the bodies leave "
            f"{_said(search.bodies_mm)}, the case's data sheet states "
            f"{stated_mm:g} mm, {abs(off_mm):.1f} mm {word}{close}; {used} was used"
        )
    return ""
