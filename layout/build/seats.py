"""Which seats are there, which are taken, and by whom."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import field, replace

from layout.build.errors import SeatError
from layout.geometry.space import Vector
from layout.parts.cooling.fan_face import arranged
from layout.parts.form.form import FanRow, Link, Seat, SeatSort
from layout.parts.form.mounted import span_of
from layout.parts.form.wish import Places, Row, Wish
from layout.values import dataclass

__all__ = ["Offer", "Seats"]

_OFFERED_BY = {
    SeatSort.BOARD: "a case",
    SeatSort.SUPPLY: "a case",
    SeatSort.CAGE: "a case with a 'cage rail'",
    SeatSort.FANS: "a case with 'mounts'",
    SeatSort.PROCESSOR: "a part of kind board",
    SeatSort.MEMORY: "a part of kind board",
    SeatSort.SLOT: "a part of kind board",
    SeatSort.M2: "a part of kind board",
    SeatSort.RISER: "a case with 'risers'",
    SeatSort.COOLER: "a part of kind board",
    SeatSort.SUPPORT: "a part of kind card",
    SeatSort.DRIVE: "a part of kind cage, or a case with 'drive places'",
}


_WHOLE = (0.0, 1.0)
"""The stretch that a part takes of a seat for one."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Offer:
    """A seat in the case.

    Parameters
    ----------
    host : str
        Key of the part that offers it.
    at_mm : Vector
        Its origin in the case's axes.
    chain : tuple of (owner, Link)
        Every figure from the case to the seat.
    """

    host: str
    seat: Seat
    at_mm: Vector
    chain: tuple[tuple[str, Link], ...]

    def on(self, row: FanRow) -> Offer:
        """Return the offer with the figures that place a row on its mount."""
        links = tuple(
            (self.host, each) for link in row.links for each in (link, *link.more)
        )
        return replace(self, chain=(*self.chain, *links))


@dataclass(frozen=True, slots=True)
class _Taken:
    """A seat, or a stretch of a fan mount's row, and who took it."""

    host: str
    seat: str
    by: str
    span_mm: tuple[float, float]


@dataclass(frozen=False, eq=False, slots=True)
class Seats:
    """The seats offered so far, taken one by one."""

    offers: list[Offer] = field(default_factory=list)
    _taken: list[_Taken] = field(default_factory=list)
    _shifts: dict[tuple[str, str, Places], float] = field(default_factory=dict)

    def arrange(self, wishes: Iterable[tuple[str, Wish]]) -> None:
        """Settle how far parts that share a mount are shifted in its slots.

        Where no shift keeps them from overlapping they stay at their places.
        """
        rows = {
            (offer.seat.name, row.size_mm): row
            for offer in self.offers
            for row in offer.seat.rows
        }
        sharing: dict[str, list[tuple[str, Places, FanRow]]] = {}
        for part, wish in wishes:
            row = (
                rows.get((wish.seats[0], wish.places.size_mm)) if wish.places else None
            )
            if row is not None and wish.places is not None:
                sharing.setdefault(wish.seats[0], []).append((part, wish.places, row))
        for name, parts in sharing.items():
            stretches = [
                (*span_of(row, places), row.travel_mm / 2) for _, places, row in parts
            ]
            shifts = arranged(stretches) or ()
            for (part, places, _), by_mm in zip(parts, shifts, strict=False):
                self._shifts[part, name, places] = by_mm

    def take(self, part: str, wish: Wish) -> Offer:
        """Return the seat that a wish gets, and mark it as taken.

        Fans that overlap on a mount are put there all the same, shifted in its slots
        where that helps: the holes tell what is wrong.

        Raises
        ------
        SeatError
            If there is no such seat, or it is taken; it names those that are there
            or free.
        """
        first: SeatError | None = None
        for offer in _meant(part, wish, self._of_sort(part, wish)):
            row = _row(part, wish, offer.seat)
            if row is not None and wish.places is not None:
                return self._beside(part, offer, row=row, places=wish.places)
            span_mm = _WHOLE
            try:
                self._check_free(part, wish, offer, span_mm=span_mm)
            except SeatError as error:
                first = first or error
                continue
            self._taken.append(_Taken(offer.host, offer.seat.name, part, span_mm))
            return offer
        raise first or _refused(part, wish, found="no free one", right="a free one")

    def named(self, wish: Wish) -> list[Offer]:
        """Return the seats that a wish names, taken or not; none for a mount's row."""
        if wish.places is not None or wish.number is not None or len(wish.seats) != 1:
            return []
        return [
            each
            for each in self.offers
            if each.seat.sort is wish.sort
            and each.seat.name == wish.seats[0]
            and wish.host in {None, each.host}
        ]

    def _of_sort(self, part: str, wish: Wish) -> list[Offer]:
        """Return the seats of the wish's sort, of its host alone where it names one."""
        offers = [each for each in self.offers if each.seat.sort is wish.sort]
        if wish.host is not None:
            offers = [each for each in offers if each.host == wish.host]
        if not offers:
            of_host = f" of {wish.host}" if wish.host else ""
            raise _refused(
                part,
                wish,
                found=f"no {wish.sort.value}{of_host} in the build",
                right=_OFFERED_BY[wish.sort],
            )
        return offers

    def _beside(self, part: str, offer: Offer, *, row: FanRow, places: Places) -> Offer:
        """Return a mount, its row shifted by as much as the part is in its slots."""
        by_mm = self._shifts.get((part, offer.seat.name, places), 0.0)
        if not by_mm:
            return offer.on(row)
        shifted = replace(row, start_mm=row.start_mm + by_mm)
        rows = tuple(shifted if each is row else each for each in offer.seat.rows)
        return replace(offer, seat=replace(offer.seat, rows=rows)).on(shifted)

    def _check_free(
        self, part: str, wish: Wish, offer: Offer, *, span_mm: tuple[float, float]
    ) -> None:
        """Refuse a seat that is taken."""
        for each in self._taken:
            same = (each.host, each.seat) == (offer.host, offer.seat.name)
            if same and each.span_mm[0] < span_mm[1] and span_mm[0] < each.span_mm[1]:
                free = _names(self.free(wish.sort))
                raise _refused(
                    part,
                    wish,
                    found=f"{offer.seat.name}, taken by {each.by}",
                    right=f"a free one: {free}" if free else "one part fewer",
                )

    def free(self, sort: SeatSort) -> Sequence[Offer]:
        """Return the seats of a sort that nobody took so far."""
        taken = {(each.host, each.seat) for each in self._taken}
        return [
            each
            for each in self.offers
            if each.seat.sort is sort and (each.host, each.seat.name) not in taken
        ]


def _meant(part: str, wish: Wish, offers: list[Offer]) -> list[Offer]:
    """Return the seats that a wish names or counts; all where it does neither."""
    if wish.number is not None:
        if wish.number > len(offers):
            found = f"number {wish.number}"
            right = f"no more than the {len(offers)} there are: {_names(offers)}"
            raise _refused(part, wish, found=found, right=right)
        return [offers[wish.number - 1]]
    named = [o for name in wish.seats for o in offers if o.seat.name == name]
    if wish.seats and not named:
        if wish.row is not None:
            raise _too_many(part, wish.row, len(offers))
        chosen, *others = wish.seats
        found, right = chosen, f"one of {_names(offers)}"
        if others and wish.sort is SeatSort.DRIVE:
            # Nobody asked for that one: the usual places are those of a cage.
            found, right = f"no {chosen}", f"{_OFFERED_BY[wish.sort]}; or {right}"
        raise _refused(part, wish, found=found, right=right)
    return named or offers


def _too_many(part: str, row: Row, there: int) -> SeatError:
    """Return why a row of seats does not hold so many, or not from there on."""
    last = there - row.count + 1
    if row.first is None or last < 1:
        found, right = f"{row.count}, where {there} find room", f"{there} at most"
        return SeatError(part=part, field=row.of, found=found, right=right)
    found = f"slot {row.first}"
    if row.count > 1:
        found = f"{row.count} {row.of} from {found}"
    right = "slot 1" if last == 1 else f"a slot from 1 to {last}"
    return SeatError(part=part, field="slot", found=found, right=right)


def _row(part: str, wish: Wish, seat: Seat) -> FanRow | None:
    """Return the mount's row that a wish is for; None where it is for no mount."""
    places = wish.places
    if places is None:
        return None
    for row in seat.rows:
        if row.size_mm == places.size_mm:
            if places.first + places.count - 1 <= row.count:
                return row
            found, right = _overrun(row, places)
            raise _refused(part, wish, found=f"{found} on {seat.name}", right=right)
    found = f"fans of {places.size_mm} on {seat.name}"
    sizes = ", ".join(map(_told, seat.rows))
    raise _refused(part, wish, found=found, right=f"what it takes: {sizes}")


def _overrun(row: FanRow, places: Places) -> tuple[str, str]:
    """Return what a row has no room for, as it was asked, and what it has room for."""
    found, takes = f"{places.count} of {row.size_mm}", f"what it takes: {_told(row)}"
    last = row.count - places.count + 1
    if last < 1:
        return found, takes
    if places.count == 1:
        found = f"place {places.first} of {row.size_mm}"
    else:
        found = f"{found} from place {places.first}"
    begins = "place 1" if last == 1 else f"a place from 1 to {last}"
    return found, f"{takes}, so {begins}"


def _told(row: FanRow) -> str:
    return f"{row.count} of {row.size_mm}"


def _names(offers: Sequence[Offer]) -> str:
    several = len({each.host for each in offers}) > 1
    return ", ".join(
        f"{each.seat.name} of {each.host}" if several else each.seat.name
        for each in offers
    )


def _refused(part: str, wish: Wish, *, found: str, right: str) -> SeatError:
    return SeatError(part=part, field=wish.field, found=found, right=right)
