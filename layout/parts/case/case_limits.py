"""The limits that a case's data sheet states, as it states them."""

from __future__ import annotations

from functools import lru_cache

from layout.parts.case.case_fields import Face, LimitWith
from layout.parts.case.case_inside import settled
from layout.parts.case.case_mounts import face_of
from layout.parts.case.case_said import card_ends_at, card_with
from layout.parts.case.case_sheet import CaseSheet
from layout.parts.case.case_stands import ConnectorsAt
from layout.parts.form.reading import usual
from layout.standards.figure import Figure
from layout.values import dataclass

__all__ = ["Limits", "limits"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Limits:
    """What a case states to fit; None and empty where it states nothing.

    Parameters
    ----------
    card_with : LimitWith
        With what before its far end the longest card was told.
    card_to : Face
        The face that a card's far end looks at: the floor where the board is turned a
        quarter.
    card_room_mm : float
        Inside of the connectors' wall to that face.
    card_ends_at : str or None
        The cage or the supply that the longest card was told to, where it was.
    supply_with : str or None
        The cage position with which the longest supply was told.
    radiators : tuple of (face, classes)
        Classes of radiator that a face is said to take.
    """

    tallest_cooler: Figure | None
    longest_card: Figure | None
    card_with: LimitWith
    card_to: Face
    card_room_mm: float
    card_ends_at: str | None
    longest_supply: Figure | None
    supply_with: str | None
    radiators: tuple[tuple[str, tuple[int, ...]], ...]

    @property
    def card_room(self) -> str:
        """Return which inside size a card lies along."""
        return self.card_to.outwards.axis.value


@lru_cache(maxsize=16)  # the same for every build of a case
def limits(case: CaseSheet) -> Limits:
    """Return what a case states, each figure in its usual reading."""
    inside, at_rear = settled(case), case.connectors is ConnectorsAt.REAR
    return Limits(
        tallest_cooler=usual(case, "tallest_cooler"),
        longest_card=usual(case, "longest_card"),
        card_with=card_with(case),
        card_to=Face.FRONT if at_rear else Face.FLOOR,
        card_room_mm=(inside.depth if at_rear else inside.height).mm,
        card_ends_at=card_ends_at(case, inside.depth.mm),
        longest_supply=usual(case, "longest_supply"),
        supply_with=case.longest_supply_with,
        radiators=tuple(
            (face_of(name, mount).value, mount.radiators)
            for name, mount in case.mounts
            if mount.radiators
        ),
    )
