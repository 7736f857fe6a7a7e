"""The seat tree while it grows: bodies, mates and seats of the parts placed so far."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import field, replace
from typing import Protocol, TypeAlias

import numpy as np

from layout.build.errors import SeatError
from layout.build.kept import Kept
from layout.build.placed import (
    Fixing,
    Mate,
    PlacedBody,
    PlacedLead,
    PlacedPart,
    PlacedPlug,
    PlacedPortion,
)
from layout.build.seats import Offer, Seats
from layout.geometry.bodies.body import Body
from layout.geometry.bodies.turn import UPRIGHT, Turn
from layout.geometry.errors import (
    EmptyBodyError,
    OutlineError,
    SpanError,
    TurnError,
)
from layout.geometry.solids.cells import Cells, cut
from layout.geometry.space import ORIGIN, Vector, plus
from layout.parts.form.errors import PartError
from layout.parts.form.form import Allowance, Form, Link, Piece, SeatSort
from layout.parts.form.mounted import row_of, span_of
from layout.parts.form.reading import restated
from layout.parts.form.turned import bared, turned
from layout.parts.form.wish import Kind, Wish
from layout.standards.figure import Figure
from layout.values import dataclass

__all__ = ["Tree", "cells_of", "mates_of", "named"]

Chain: TypeAlias = tuple[tuple[str, Link], ...]


class Standing(Protocol):
    """What needs no seat: a case, a block."""

    def form(self) -> Form:
        """Return its form at the origin."""
        ...


@dataclass(frozen=False, eq=False, slots=True)
class Tree:
    """Everything placed so far; ``kept`` are parts made before, for other trees."""

    bodies: list[PlacedBody] = field(default_factory=list)
    parts: list[PlacedPart] = field(default_factory=list)
    mates: list[Mate] = field(default_factory=list)
    fixings: list[Fixing] = field(default_factory=list)
    plugs: list[PlacedPlug] = field(default_factory=list)
    leads: list[PlacedLead] = field(default_factory=list)
    seats: Seats = field(default_factory=Seats)
    seated: dict[str, list[tuple[Wish, Offer]]] = field(default_factory=dict)
    kept: Kept = field(default_factory=Kept)

    def seat(self, key: str, spec: Kind) -> None:
        """Put a part on the seats it asks for."""
        wishes = spec.wishes()
        taken = [(wish, self.seats.take(key, wish)) for wish in wishes]
        if any(wish.sort is SeatSort.SUPPORT for wish in wishes):
            taken = [(wish, self._looked_under(spec, each)) for wish, each in taken]
        self.make(key, spec, taken)

    def _looked_under(self, spec: Kind, offer: Offer) -> Offer:
        from layout.build.props import looked_under  # noqa: PLC0415 (few builds)
        from layout.parts.card.card_support import CardSupport  # noqa: PLC0415

        if not isinstance(spec, CardSupport):
            return offer
        return looked_under(spec, offer, self.bodies)

    def make(self, key: str, spec: Kind, taken: list[tuple[Wish, Offer]]) -> None:
        """Make a part for the seats it has."""
        self.seated[key] = taken
        offers = [offer for _, offer in taken]
        forms = self.forms(key, spec, taken)
        for (wish, offer), form in zip(taken, forms, strict=True):
            self.put(key, form, offer)
            self.fixings.append(_fixing(key, wish, form=form, offer=offer))
        first = offers[0] if offers else None
        self.parts.append(
            PlacedPart(
                key=key,
                kind=spec.kind,
                size=_joined(form.size for form in forms),
                seat=_joined(offer.seat.name for offer in offers) or "out",
                at_mm=first.at_mm if first else ORIGIN,
                approach=first.seat.approach if first else None,
                notes=tuple(note for form in forms for note in form.notes),
                hosts=tuple(dict.fromkeys(offer.host for offer in offers)),
                stated=tuple(each for form in forms for each in form.stated),
            )
        )

    def forms(
        self, key: str, spec: Kind, taken: list[tuple[Wish, Offer]]
    ) -> list[Form]:
        """Return what a part is made of on each of its seats, not put there yet."""
        return [self._form(key, spec, wish=wish, offer=offer) for wish, offer in taken]

    def bare(self, key: str, spec: Kind, taken: list[tuple[Wish, Offer]]) -> list[Form]:
        """Return the same with its solids alone where it turns: that is less work."""
        return [
            self._form(key, spec, wish=wish, offer=offer)
            if offer.seat.turn == UPRIGHT
            else _made(key, spec, wish=wish, offer=offer, bare=True)
            for wish, offer in taken
        ]

    def formed(self, spec: Standing) -> Form:
        """Return the form of what needs no seat."""
        return self.kept.form(spec, None, spec.form)

    def _form(self, key: str, spec: Kind, *, wish: Wish, offer: Offer) -> Form:
        return self.kept.form(
            spec,
            (wish, offer.seat),
            lambda: _made(key, spec, wish=wish, offer=offer),
        )

    def stand(self, key: str, form: Form, *, at_mm: Vector = ORIGIN) -> None:
        """Put a part that needs no seat at a place: a case, a block."""
        self._add(key, form, None, at_mm=at_mm)

    def put(self, key: str, form: Form, offer: Offer) -> None:
        """Put what a part is made of on one of its seats, where it may enter others."""
        self._add(key, form, offer)
        seat = offer.seat
        self.mates += mates_of(key, seat.allowances, offer.at_mm, turn=seat.turn)

    def _add(
        self, key: str, form: Form, offer: Offer | None, *, at_mm: Vector = ORIGIN
    ) -> None:
        sort = offer.seat.sort.value if offer else ""
        put = self.kept.put(
            (key, sort),
            (form, offer or at_mm),
            lambda: self._put(key, form, offer, at_mm=offer.at_mm if offer else at_mm),
        )
        self.bodies += put.bodies
        self.plugs += put.plugs
        self.leads += put.leads
        self.seats.offers += put.offers

    def _put(self, key: str, form: Form, offer: Offer | None, *, at_mm: Vector) -> _Put:
        chain = offer.chain if offer else ()
        try:
            made = self.kept.shapes(form)
        except EmptyBodyError as error:
            raise _no_body(key, error) from error
        bodies = tuple(
            PlacedBody(
                part=key,
                body=Body(
                    name=named(key, piece),
                    shape=shape,
                    at_mm=at_mm,
                ),
                role=piece.role,
                where=offer.seat.face if offer else None,
                chain=_after(chain, key, piece.links),
                portions=tuple(
                    PlacedPortion(each.box.moved(at_mm), _after(chain, key, each.links))
                    for each in piece.portions
                ),
                turn=offer.seat.turn if offer else UPRIGHT,
            )
            for piece, shape in zip(form.pieces, made, strict=True)
        )
        return _Put(bodies, *_fittings(key, form, chain, at_mm=at_mm))


def named(key: str, piece: Piece) -> str:
    """Return the name of a part's body in a build."""
    return f"{key}/{piece.name}" if piece.name else key


def cells_of(key: str, form: Form) -> Iterator[tuple[str, Cells]]:
    """Yield what the bodies of a form enclose, by their names in a build.

    Raises
    ------
    SeatError
        If one of them encloses nothing.
    """
    rows, count = cut([piece.solids for piece in form.pieces])
    if not count.all():
        raise _no_body(key, EmptyBodyError("the outlines of a body enclose no volume"))
    ends = np.cumsum(count)[:-1]
    for piece, own in zip(form.pieces, np.split(rows, ends, axis=1), strict=True):
        yield named(key, piece), Cells(own)


@dataclass(frozen=False, eq=False, slots=True)
class _Put:
    """A form in its place: bodies, plugs, leads, and the seats that it offers."""

    bodies: tuple[PlacedBody, ...]
    plugs: tuple[PlacedPlug, ...]
    leads: tuple[PlacedLead, ...]
    offers: tuple[Offer, ...]


def _fittings(
    key: str, form: Form, chain: Chain, *, at_mm: Vector
) -> tuple[tuple[PlacedPlug, ...], tuple[PlacedLead, ...], tuple[Offer, ...]]:
    """Return a form's plugs, leads and seats in their places."""
    plugs = tuple(
        PlacedPlug(
            part=key,
            plug=replace(plug, at_mm=plus(at_mm, plug.at_mm)),
            chain=_after(chain, key, plug.links),
        )
        for plug in form.plugs
    )
    leads = tuple(
        PlacedLead(part=key, lead=replace(lead, at_mm=plus(at_mm, lead.at_mm)))
        for lead in form.leads
    )
    offers = tuple(
        Offer(
            host=key,
            seat=seat,
            at_mm=plus(at_mm, seat.at_mm),
            chain=_after(chain, key, seat.links),
        )
        for seat in form.seats
    )
    return plugs, leads, offers


def _made(
    key: str, spec: Kind, *, wish: Wish, offer: Offer, bare: bool = False
) -> Form:
    """Return the part made for its seat and turned as it stands there."""
    try:
        form = restated(spec, offer.seat).made_for(wish, offer.seat)
        return turned(bared(form) if bare else form, offer.seat.turn)
    except PartError as error:
        raise SeatError(
            part=key, field=error.field, found=error.found, right=error.right
        ) from error
    except (EmptyBodyError, OutlineError, SpanError, TurnError) as error:
        raise _no_body(key, error) from error


def _no_body(key: str, error: Exception) -> SeatError:
    return SeatError(
        part=key,
        field=None,
        found=f"sizes that make no body ({error})",
        right="sizes that go together",
    )


def _fixing(key: str, wish: Wish, *, form: Form, offer: Offer) -> Fixing:
    seat = offer.seat
    row = row_of(seat, wish.places.size_mm) if wish.places else None
    return Fixing(
        part=key,
        host=offer.host,
        sort=seat.sort,
        seat=seat.name,
        own=form.screws,
        theirs=row.screws if row else seat.screws,
        kits=form.kits,
        adapter=form.adapter,
        at_mm=offer.at_mm,
        turn=seat.turn,
        span_mm=span_of(row, wish.places) if row and wish.places else None,
        rows=seat.rows,
    )


def mates_of(
    guest: str,
    allowances: Iterable[Allowance],
    at_mm: Vector,
    *,
    turn: Turn = UPRIGHT,
) -> list[Mate]:
    """Return where a guest may enter others, in the case's axes."""
    return [
        Mate(guest=guest, role=each.role, box=turn.box(each.box).moved(at_mm))
        for each in allowances
    ]


def _after(chain: Chain, key: str, links: Iterable[Link]) -> Chain:
    """Return a chain with a part's own figures after it.

    A figure that the part has in common with what carries it stays that one's.
    """
    known = {link.label: (owner, link.figure) for owner, link in chain}
    own = [each for link in links for each in (link, *link.more)]
    return (*chain, *((_owner(key, each, known), each) for each in own))


def _owner(key: str, link: Link, known: dict[str, tuple[str, Figure]]) -> str:
    owner, figure = known.get(link.label, (key, None))
    return owner if figure == link.figure else key


def _joined(words: Iterable[str]) -> str:
    return ", ".join(dict.fromkeys(word for word in words if word))
