"""Parts that were made before: one that stays as it is is not made again.

Builds that differ in one part share every other part's form and shapes, so that what
changed can be told by identity, and cutting solids into cells is paid for once.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import field
from typing import TypeAlias, TypeVar, cast

from layout.geometry.bodies.body import Shape, shapes
from layout.parts.form.form import Form, Seat
from layout.parts.form.wish import Wish
from layout.values import dataclass

__all__ = ["Kept"]

_Key: TypeAlias = tuple[int, Wish | None, int]
_Put = TypeVar("_Put")


@dataclass(frozen=False, eq=False, slots=True)
class Kept:
    """Forms by what they were made of: the data sheet, the wish, the seat.

    Data sheets and seats are told apart by identity, and kept with what was made of
    them: no other can take their place in memory.
    """

    _forms: dict[_Key, tuple[Form, object, Seat | None]] = field(default_factory=dict)
    _shapes: dict[int, list[Shape]] = field(default_factory=dict)
    _put: dict[tuple[str, str], tuple[tuple[Form, object], object]] = field(
        default_factory=dict
    )

    def form(
        self, of: object, on: tuple[Wish, Seat] | None, make: Callable[[], Form]
    ) -> Form:
        """Return the form made of a data sheet for a seat, making it only once."""
        wish, seat = on or (None, None)
        key = (id(of), wish, id(seat))
        if key not in self._forms:
            self._forms[key] = (make(), of, seat)
        return self._forms[key][0]

    def shapes(self, form: Form) -> list[Shape]:
        """Return the shapes of a form of :meth:`form`, its pieces in order."""
        known = self._shapes.get(id(form))
        if known is None:
            known = shapes([piece.solids for piece in form.pieces])
            self._shapes[id(form)] = known
        return known

    def put(
        self, of: tuple[str, str], at: tuple[Form, object], make: Callable[[], _Put]
    ) -> _Put:
        """Return a form put at a place, if that is where it was put last.

        ``of`` names the part and its seat's sort: of each the last place alone is kept.
        """
        known = self._put.get(of)
        if known is None or known[0][0] is not at[0] or known[0][1] != at[1]:
            known = self._put[of] = (at, make())
        return cast("_Put", known[1])
