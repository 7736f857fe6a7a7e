"""Which of the case's openings a card takes, and whether the case has them."""

from __future__ import annotations

from collections.abc import Sequence

from layout.build.errors import SeatError
from layout.build.seats import Offer
from layout.parts.card.card import Card
from layout.parts.case.case import Case
from layout.parts.form.form import SeatSort

__all__ = ["check_cover", "check_openings"]

_SLOT = "slot "


def check_openings(
    key: str, spec: Card, case: Case, *, at: Offer, free: Sequence[Offer]
) -> None:
    """Refuse a card whose bracket takes openings that the rear panel has not.

    Parameters
    ----------
    at : Offer
        The slot, or the riser bracket, that the card has.
    free : sequence of Offer
        The board's slots that nobody took: those that would be right are among them.

    Raises
    ------
    SeatError
        It says which openings the card takes and how many there are.
    """
    if at.seat.sort is SeatSort.RISER:
        _on_riser(key, spec, case, name=at.seat.name)
        return
    first, last = _opening(at), _opening(at) + spec.slots - 1
    if last <= case.slots:
        return
    has = f"the case has {case.slots}" if case.slots else "the case has none"
    raise SeatError(
        part=key,
        field="slot",
        found=f"a card that takes {_openings(first, last)}, where {has}",
        right=_right(spec, case, [*free, at]),
    )


def check_cover(key: str, card: Card, case: Case, *, at: Offer) -> None:
    """Refuse a support whose bracket wants an opening that the rear panel has not.

    ``at`` is the slot of the card that it bears: it is screwed to the next opening.

    Raises
    ------
    SeatError
        It says which opening it takes and how many there are.
    """
    below = _opening(at) + card.slots
    if below > case.slots:
        raise SeatError(
            part=key,
            field="shape",
            found=f"a bracket at opening {below}, where the case has {case.slots}",
            right="a post, or the card in a higher slot",
        )


def _on_riser(key: str, spec: Card, case: Case, *, name: str) -> None:
    """Refuse a card that is wider than its riser's openings."""
    there = dict(case.risers)[name].slots
    if spec.slots > there:
        raise SeatError(
            part=key,
            field="riser",
            found=f"a card of {_counted(spec.slots)} on a riser of {there}",
            right=f"a card of {_counted(there)} at most",
        )


def _right(spec: Card, case: Case, slots: Sequence[Offer]) -> str:
    """Return where the card would go, else what would have to be another."""
    fit = [e.seat.name for e in slots if _opening(e) + spec.slots - 1 <= case.slots]
    fit += [f"riser {name}" for name, e in case.risers if spec.slots <= e.slots]
    if fit:
        return " or ".join(fit)
    most = max((case.slots - _opening(each) + 1 for each in slots), default=0)
    if most > 0:
        return f"a card of {_counted(most)} at most"
    return "a case with an opening at one of the board's slots, or no card"


def _opening(offer: Offer) -> int:
    """Return the opening that a board's slot stands at."""
    return int(offer.seat.name.removeprefix(_SLOT))


def _openings(first: int, last: int) -> str:
    if first == last:
        return f"opening {first}"
    joint = "and" if last == first + 1 else "to"
    return f"openings {first} {joint} {last}"


def _counted(slots: int) -> str:
    return "1 opening" if slots == 1 else f"{slots} openings"
