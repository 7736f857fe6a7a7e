"""A part whose figure grows: where its bodies come too near to what stays.

Over a stretch of the figure on which every bound of the part's boxes is linear in it,
the values at which a pair is too near are one interval in closed form; where a kind's
figures bend or jump, the stretch is halved until they do not.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import field, replace
from itertools import accumulate
from typing import Final

import numpy as np

from layout.build.errors import SeatError
from layout.build.placed import Build
from layout.build.remade import Remaker, cells_in
from layout.errors import LayoutError
from layout.geometry.pairs.gap import is_box
from layout.geometry.solids.boxes import Boxes
from layout.geometry.solids.cells import Floats, Ints, spread
from layout.geometry.space import Vector
from layout.geometry.travel.growth import near_values
from layout.parts.form.errors import PartError
from layout.parts.kinds.dimensions import Dimension
from layout.parts.kinds.kinds import Spec
from layout.questions.growing.holding import Holding, Limit
from layout.questions.growing.linear import Bounds, Linear
from layout.values import dataclass

__all__ = ["Grown", "Near", "SlantedError"]


class SlantedError(LayoutError):
    """A growing body is not made of boxes; the closed form does not know it."""


@dataclass(frozen=True, slots=True)
class Near:
    """From which to which value of the figure a pair is too near.

    Not ``exact`` where what stays is slanted and the boxes around its cells were taken:
    too near at more values than it truly is.
    """

    from_mm: float
    to_mm: float
    limit: Limit

    @property
    def exact(self) -> bool:
        """Tell whether what stays is not slanted."""
        return self.limit.exact


@dataclass(frozen=False, eq=False, slots=True)
class Grown:
    """One figure of one part on its seat.

    ``limits`` are those of the pieces it has now; where ``whole``, those of pieces that
    it has at other sizes alone are added as they appear.
    """

    remaker: Remaker
    key: str
    dimension: Dimension
    limits: list[Limit]
    whole: bool = True
    _known: dict[float, Bounds | None] = field(default_factory=dict)
    _built: dict[float, Build] = field(default_factory=dict)
    _sheets: dict[float, Spec] = field(default_factory=dict)
    _met: set[str] = field(default_factory=set)
    _ends: Floats | None = None

    def build(self, mm: float) -> Build:
        """Return the build with the figure at a value.

        Raises
        ------
        PartError, SeatError
            If there is no such part.
        """
        if mm not in self._built:
            sheet, remaker = self._sheet(mm), self.remaker
            as_it_is = sheet is remaker.plan.spec(self.key)
            made = remaker.build if as_it_is else remaker.remade(self.key, sheet)
            self._built[mm] = made
        return self._built[mm]

    def built(self, mm: float) -> Build | None:
        """Return the build with the figure at a value; None: there is no such part."""
        try:
            return self.build(mm)
        except (PartError, SeatError):
            return None

    def _sheet(self, mm: float) -> Spec:
        """Return the data sheet with a figure; if equal, the present one."""
        if mm not in self._sheets:
            now, sheet = self.remaker.plan.spec(self.key), self.dimension.with_mm(mm)
            self._sheets[mm] = now if now is not None and sheet == now else sheet
        return self._sheets[mm]

    def _can_be(self, mm: float) -> bool:
        """Tell whether a data sheet may say a value: quicker than making the part."""
        try:
            self._sheet(mm)
        except PartError:
            return False
        return True

    def within(self, limits: list[Limit]) -> Grown:
        """Return the same figure held by some limits alone; what is known is shared."""
        return replace(self, limits=limits, whole=False, _ends=None)

    def like(self, other: Grown) -> Grown:
        """Return the same; where another makes the same part what it knows is shared.

        That is a part of the same data sheet on the same seat, which carries nothing.
        """
        mine, theirs = (
            (each.remaker.plan.spec(each.key), each.remaker.build.carried_by(each.key))
            for each in (self, other)
        )
        alike = mine[0] is theirs[0] and mine[1] == theirs[1] == {self.key}
        if not alike or self._seat() != other._seat():
            return self
        return replace(self, _known=other._known, _sheets=other._sheets)

    def _seat(self) -> list[tuple[int, Vector]]:
        """Return where the part sits: seats of the same form are the same."""
        taken = self.remaker.tree.seated.get(self.key, [])
        return [(id(offer.seat), offer.at_mm) for _, offer in taken]

    def near(self, low_mm: float, high_mm: float) -> list[Near]:
        """Return every interval of values at which a pair is too near.

        Values at which there can be no such part are left out.
        """
        found: list[Near] = []
        jump: tuple[float, float] | None = None
        linear = Linear(self._bounds, self._can_be)
        for start, end in linear.pieces(low_mm, high_mm):
            if not linear.is_linear(start, end):
                jump = (start, end)
                continue
            here = list(self._on(start, end))
            if jump is not None:
                found += _over(jump, (*found, *here))
                jump = None
            found += here
        if jump is not None:
            found += _over(jump, found)
        return found

    def possible(self, mm: float) -> bool:
        """Tell whether there can be such a part."""
        return self._bounds(mm) is not None

    def _on(self, start_mm: float, end_mm: float) -> Iterator[Near]:
        first, last = self._bounds(start_mm), self._bounds(end_mm)
        if first is None or last is None:
            return
        if self.whole:
            self._meet(first, start_mm)
        reached = list(self._reached(first, last))
        if not reached:
            return
        of, mine, still = _paired(reached, first)
        ends = [np.concatenate(list(each.values()), axis=1) for each in (first, last)]
        growing = _boxes(ends[0][:, mine]), _boxes(ends[1][:, mine])
        within_mm = np.array([each.within_mm for each in reached])[of]
        low, high = near_values(growing, still, within_mm)
        long_mm = end_mm - start_mm
        for k in np.flatnonzero(low <= high).tolist():
            yield Near(
                start_mm + long_mm * float(low[k]),
                start_mm + long_mm * float(high[k]),
                reached[of[k]],
            )

    def _reached(self, first: Bounds, last: Bounds) -> Iterator[Limit]:
        """Yield the limits that a stretch may come near to, by the boxes round it."""
        if self._ends is None or self._ends.shape[1] != len(self.limits):
            rows = [(*e.low, *e.high, e.within_mm) for e in self.limits]
            self._ends = np.array(rows).reshape(-1, 7).T
        hulls = {name: _hull(first[name], last[name]) for name in first}
        # some pieces are there at some sizes alone
        own = [hulls.get(each.mine, _NOWHERE) for each in self.limits]
        low, high = np.split(np.array(own).reshape(-1, 6).T, 2)
        within_mm = self._ends[6]
        far = (self._ends[:3] - within_mm > high) | (low - within_mm > self._ends[3:6])
        for place in np.flatnonzero(~far.any(axis=0)).tolist():
            yield self.limits[place]

    def _meet(self, bounds: Bounds, mm: float) -> None:
        """Add the limits of pieces that the part has at a value for the first time."""
        if not self._met:
            own = [b.name for b in self.remaker.build.bodies if b.part == self.key]
            self._met.update(own)
        new = bounds.keys() - self._met - {each.mine for each in self.limits}
        if new:
            self._met.update(new)
            build = self.build(mm)
            found = Holding(build, build.carried_by(self.key)).limits(self.key)
            self.limits += [each for each in found if each.mine in new]

    def _bounds(self, mm: float) -> Bounds | None:
        """Return the part's boxes at a value; None where there is no such part."""
        if mm not in self._known:
            try:
                own = self._cells(mm)
            except (PartError, SeatError):
                self._known[mm] = None
            else:
                self._known[mm] = {name: _rows(cells) for name, cells in own.items()}
        return self._known[mm]

    def _cells(self, mm: float) -> dict[str, Floats]:
        """Return the cells of what moves with the part; of a build that is made."""
        sheet, remaker = self._sheet(mm), self.remaker
        if mm in self._built or sheet is remaker.plan.spec(self.key):
            return cells_in(self.build(mm), remaker.build.carried_by(self.key))
        return remaker.cells(self.key, sheet)


_NOWHERE: Final = np.array([np.inf] * 3 + [-np.inf] * 3)


def _over(jump: tuple[float, float], near: Sequence[Near]) -> list[Near]:
    """Return a jump as too near where it is so at either of its ends."""
    start, end = jump
    return [
        replace(each, from_mm=start, to_mm=end)
        for each in near
        if each.to_mm >= start >= each.from_mm or each.from_mm <= end <= each.to_mm
    ]


def _rows(rows: Floats) -> Floats:
    """Return the corners of a body's boxes, in an order that growth keeps."""
    if not is_box(rows).all():
        raise SlantedError
    boxes = Boxes.around(rows)
    bounds = np.concatenate([boxes.low, boxes.high])
    return bounds[:, np.lexsort(np.round(bounds, 6))]


def _paired(limits: Sequence[Limit], first: Bounds) -> tuple[Ints, Ints, Boxes]:
    """Return each box of a growing body beside each that stays, limit by limit.

    The limit's place, the place of the one among the boxes of all bodies, the other.
    """
    counts = {name: bounds.shape[1] for name, bounds in first.items()}
    begins = dict(zip(counts, accumulate(counts.values(), initial=0), strict=False))
    mine = np.array([counts[each.mine] for each in limits])
    stay = np.array([each.still.low.shape[1] for each in limits])
    of, place = spread(mine * stay)
    i, j = np.divmod(place, stay[of])
    i += np.array([begins[each.mine] for each in limits])[of]
    j += (np.cumsum(stay) - stay)[of]
    low, high = (
        np.concatenate([getattr(each.still, end) for each in limits], axis=1)[:, j]
        for end in ("low", "high")
    )
    return of, i, Boxes(low, high)


def _boxes(bounds: Floats) -> Boxes:
    return Boxes(bounds[:3], bounds[3:])


def _hull(first: Floats, last: Floats) -> Floats:
    """Return the box around a body at both ends of a stretch, shape (6,)."""
    low = np.minimum(first[:3], last[:3]).min(axis=1)
    high = np.maximum(first[3:], last[3:]).max(axis=1)
    return np.concatenate([low, high])
