"""How large each part could be, all else as built: the largest figure that clears.

It is the largest figure of the clear stretch that holds the present one or, where that
is not clear now, the largest clear one below it; other findings of the build are
disregarded.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace
from typing import Final

from layout.build.errors import SeatError
from layout.build.kept import Kept
from layout.build.placed import Build
from layout.build.plan import Plan
from layout.build.remade import Remaker
from layout.parts.cooling.liquid_cooler import LiquidCooler
from layout.parts.cooling.radiator import Radiator
from layout.parts.drives.cage import Cage
from layout.parts.kinds.dimensions import dimensions
from layout.parts.kinds.places import places
from layout.parts.supply.supply import Supply
from layout.questions.bends.cables import Cables
from layout.questions.case.faces import Face, faces
from layout.questions.checking.check import check
from layout.questions.clearances.asked import CASE
from layout.questions.findings.advice import spoken
from layout.questions.findings.answered import listed
from layout.questions.findings.finding import Finding, Group
from layout.questions.growing.bend_room import BendRoom, bend_rooms
from layout.questions.growing.beside_stated import beside_stated, said_down
from layout.questions.growing.grown import Grown
from layout.questions.growing.holding import Holding
from layout.questions.growing.left_out import USUAL_CORE, StandIn, stand_ins
from layout.questions.growing.search import LIMIT_MM, Search
from layout.questions.growing.unmoved import ButFor, but_for
from layout.questions.moving.moves import MoveError, places_of
from layout.questions.moving.positions import GROUPS, placed_at
from layout.values import dataclass

__all__ = ["LIMIT_MM", "Headroom", "Room", "headroom", "headroom_of_cables", "largest"]

_ELSEWHERE: Final = frozenset(Group) - GROUPS


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
    holding = Holding(remaker.build)
    rows = [row for key in wanted for row in _of_part(key, holding, (remaker, cables))]
    rows += [*others, *(each for each in rooms if each.part in wanted)]
    return Headroom(
        build=plan.name,
        rows=tuple(rows),
        notes=(*(row.note for row in rows if row.note), *_too_thin(rows)),
        elsewhere=tuple(
            each
            for each in check(remaker.build, groups=_ELSEWHERE).findings
            if each.verdict.fails
        ),
        faces=() if part else faces(each.seat for each in remaker.tree.seats.offers),
    )


def _left_out(new: StandIn) -> Room:
    """Return the largest figure of a part that is left out: it has none now."""
    row = largest(new.remaker, new.key, new.dimension, suffix=new.suffix, left_out=True)
    return replace(row, now_mm=0.0)


def _too_thin(rows: Iterable[Room]) -> Iterator[str]:
    """Yield where no usual radiator would go, of those that are left out."""
    places = [
        row.dimension.removeprefix("thickness of ")
        for row in rows
        if row.left_out
        and row.part == "radiator"
        and row.largest_mm is not None
        and row.largest_mm < USUAL_CORE.mm
    ]
    if places:
        yield (
            f"no usual radiator ({USUAL_CORE.mm:g} mm, common practice, no source) has "
            f"room as: {'; '.join(places)}"
        )


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


def _of_part(key: str, holding: Holding, of: tuple[Remaker, Cables]) -> Iterator[Room]:
    """Yield a part's dimensions where it is, then those that depend on a place."""
    remaker, cables = of
    known: dict[str, Grown] = {}
    for name, there in (("", remaker), *_elsewhere(remaker, key)):
        spec = there.plan.spec(key)
        if spec is None:
            continue
        held = holding if there is remaker else _holding(there, key)
        for dimension in dimensions(spec):
            if name and not dimension.name.endswith(("length", "thickness")):
                continue
            grown = Grown(there, key, dimension, held.limits(key))
            like = known.setdefault(dimension.name, grown)
            yield _largest(grown.like(like), (held, cables), suffix=name)


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
    holding: Holding | None = None,
    left_out: bool = False,
) -> Room:
    """Return the largest figure of one dimension of a part.

    ``suffix`` says which place it is for; ``cables`` and ``holding`` are made ready.
    """
    spec = remaker.plan.spec(key)
    every = dimensions(spec) if spec is not None else ()
    dimension = next(each for each in every if each.name == name)
    holding = holding or _holding(remaker, key)
    grown = Grown(remaker, key, dimension, holding.limits(key))
    ready = holding, cables or Cables()
    return _largest(grown, ready, suffix=suffix, left_out=left_out)


def _holding(remaker: Remaker, key: str) -> Holding:
    """Return what holds one part alone."""
    return Holding(remaker.build, remaker.build.carried_by(key))


def _largest(
    grown: Grown, ready: tuple[Holding, Cables], *, suffix: str, left_out: bool = False
) -> Room:
    """Return the largest figure of one dimension as a row."""
    (holding, cables), key, name = ready, grown.key, grown.dimension.name
    search = Search(grown, cables)
    figure_mm, limit = search.found()
    note = "" if suffix and not left_out else beside_stated(search, figure_mm, suffix)
    spared = but_for(search, holding) if figure_mm is None and limit else None
    if spared:
        note = f"{key}, {name}{suffix}: {_told(spared, name, search.end_mm)}"
    return Room(
        part=key,
        dimension=f"{name}{suffix}",
        now_mm=grown.dimension.now_mm,
        largest_mm=figure_mm,
        limited_by=limit[:2] if limit else None,
        rule=limit[2] if limit else None,
        note=note,
        end_mm=search.end_mm,
        left_out=left_out,
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
    figure = f"{said_down(spared.largest_mm or end_mm)} would clear"
    a, b, _ = spared.limit or ("", "", "")
    limit = f", limited by {spoken(a)} and {spoken(b)}" if a else ""
    return f"no {name} mends that {between}; but for that {figure}{limit}"
