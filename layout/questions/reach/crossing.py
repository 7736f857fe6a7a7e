"""Whether two cables that cross behind the tray have room there, one on the other."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import combinations, pairwise, product
from typing import Final

from layout.build.placed import Build, PlacedBody, PlacedPlug
from layout.geometry.space import Axis, Direction, Vector
from layout.parts.form.cable import Cable
from layout.parts.form.form import Role
from layout.parts.wiring.leads import CABLES
from layout.questions.findings.answered import Answered
from layout.questions.findings.finding import Finding, Group, Verdict, verdict_of
from layout.questions.findings.measure import needed, told
from layout.questions.findings.tolerance import (
    RSS,
    Stacking,
    assumed_in,
    links_between,
    tolerance_mm,
)
from layout.standards.figure import COMMON_PRACTICE
from layout.standards.sources import PACKING_TABLE
from layout.values import dataclass

__all__ = ["CROSSING_RULE", "Run", "crossing"]

CROSSING_RULE: Final = "crossing-behind-tray"
_USUAL_MM: Final = 15.0
"""What ``room-behind-tray`` asks for: cables that need no more are left to it."""
_SPREAD_MM: Final = 20.0
"""How wide the thinner cable may spread where it lies over the other."""
_TOWARDS: Final = Direction.TRAY.vector


@dataclass(frozen=True, slots=True, kw_only=True)
class Run:
    """A lead on its way: which one it is, the plug it ends in, its corners."""

    part: str
    name: str
    plug: PlacedPlug
    points: tuple[Vector, ...]

    @property
    def cable(self) -> Cable:
        """Return what it is made of."""
        return self.plug.plug.cable or CABLES[self.plug.plug.kind]

    @property
    def lies_over_mm(self) -> float:
        """Return how thick it lies over another: spread, where its wires are loose."""
        return self.cable.flat_mm(_SPREAD_MM)[0]


def crossing(build: Build, runs: Sequence[Run], stacking: Stacking = RSS) -> Answered:
    """Return whether the two thickest cables that cross behind the tray have room.

    Asked only where they need more than any cable is asked for there.
    """
    tray, back = (_body(build, role) for role in (Role.TRAY, Role.BACK_PANEL))
    if tray is None or back is None or dict(build.needs).get("room-behind-tray"):
        return Answered()
    level_mm = tray.body.bounds.low[2]
    met = [pair for pair in combinations(runs, 2) if _cross(pair, level_mm)]
    thickest = max(met, key=_need_mm, default=None)
    if thickest is None or _need_mm(thickest) <= _USUAL_MM:
        return Answered()
    return Answered(
        findings=(_finding(build, (tray, back), thickest, stacking=stacking),)
    )


def _body(build: Build, role: Role) -> PlacedBody | None:
    return next((each for each in build.bodies if each.role is role), None)


def _need_mm(pair: tuple[Run, Run]) -> float:
    """Return how much room a cable needs with another over it, the better way."""
    under, over = _stacked(pair)
    return under.cable.bundle_mm + over.lies_over_mm


def _stacked(pair: tuple[Run, Run]) -> tuple[Run, Run]:
    """Return which of two leads lies under the other, and takes less room so."""
    a, b = pair
    less = a.cable.bundle_mm + b.lies_over_mm < b.cable.bundle_mm + a.lies_over_mm
    return (a, b) if less else (b, a)


def _cross(pair: tuple[Run, Run], level_mm: float) -> bool:
    """Tell whether two leads cross behind a level, seen from the side."""
    a, b = pair
    if (a.part, a.name) == (b.part, b.name):
        return False
    pieces = product(_behind(a.points, level_mm), _behind(b.points, level_mm))
    return any(_meet(one, other) for one, other in pieces)


_Piece = tuple[Vector, Vector]


def _behind(points: Sequence[Vector], level_mm: float) -> Iterator[_Piece]:
    for a, b in pairwise(points):
        if a[2] < level_mm and b[2] < level_mm:
            yield a, b


def _meet(one: _Piece, other: _Piece) -> bool:
    """Tell whether two pieces cross, each beyond the ends of the other."""
    (a, b), (c, d) = one, other
    return (
        _side(a, b, c) * _side(a, b, d) < 0.0 and _side(c, d, a) * _side(c, d, b) < 0.0
    )


def _side(a: Vector, b: Vector, at: Vector) -> float:
    return (b[0] - a[0]) * (at[1] - a[1]) - (b[1] - a[1]) * (at[0] - a[0])


def _finding(
    build: Build,
    panels: tuple[PlacedBody, PlacedBody],
    pair: tuple[Run, Run],
    *,
    stacking: Stacking,
) -> Finding:
    tray, back = panels
    need_mm = dict(build.needs).get(CROSSING_RULE, _need_mm(pair))
    from_mm, to_mm = tray.body.bounds.low[2], back.body.bounds.high[2]
    gap_mm = max(0.0, from_mm - to_mm)
    links = links_between(tray, back, _TOWARDS)
    scatter_mm = tolerance_mm(links, _TOWARDS, stacking)
    margin_mm = gap_mm - need_mm
    assumed = assumed_in(links, _TOWARDS)
    under, over = _stacked(pair)
    names = f"{over.name} over the {under.name}"
    at = tray.body.bounds
    x, y = (at.low[0] + at.high[0]) / 2, (at.low[1] + at.high[1]) / 2
    verdict = verdict_of(margin_mm, scatter_mm)
    first = "; ".join(map(told, needed(margin_mm, assumed)))
    return Finding(
        id=f"{CROSSING_RULE}:{tray.part}",
        rule=CROSSING_RULE,
        group=Group.REACH,
        a=tray.name,
        b=back.name,
        gap_mm=gap_mm,
        need_mm=need_mm,
        tolerance_mm=scatter_mm,
        margin_mm=margin_mm,
        verdict=verdict,
        axis=Axis.WIDTH,
        from_mm=(x, y, from_mm),
        to_mm=(x, y, to_mm),
        overlap=None,
        assumed=tuple(each.name for each in assumed),
        why=f"the {names}, where their ways cross behind the tray",
        source=f"thickness: {PACKING_TABLE}; their ways: {COMMON_PRACTICE}",
        rests_on=assumed,
        along=_TOWARDS,
        advice=_advice(verdict, names, lacks_mm=-margin_mm, first=first),
    )


def _advice(verdict: Verdict, names: str, *, lacks_mm: float, first: str) -> str:
    measured = f"measure first: {first}" if first else ""
    if verdict is not Verdict.SHORT:
        return measured
    text = (
        f"the {names} lack {lacks_mm:.1f} mm where they cross behind the tray: "
        "lead one of them through another cut-out, or take leads whose wires lie loose"
    )
    return f"{text}; {measured}" if measured else text
