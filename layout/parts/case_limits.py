"""The limits that a case's data sheet states, as it states them."""

from __future__ import annotations

from layout.parts.case_fields import LimitWith
from layout.parts.case_inside import settled
from layout.parts.case_mounts import face_of
from layout.parts.case_sheet import CaseSheet
from layout.parts.reading import usual
from layout.standards.figure import Figure
from layout.values import dataclass

__all__ = ["Limits", "limits"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Limits:
    """What a case states to fit; None and empty where it states nothing.

    Parameters
    ----------
    card_with : LimitWith
        With what at the front the longest card was told.
    depth_mm : float
        Rear panel's inside to the front mounting sheet.
    supply_with : str or None
        The cage position with which the longest supply was told.
    radiators : tuple of (face, classes)
        Classes of radiator that a face is said to take.
    """

    tallest_cooler: Figure | None
    longest_card: Figure | None
    card_with: LimitWith
    depth_mm: float
    longest_supply: Figure | None
    supply_with: str | None
    radiators: tuple[tuple[str, tuple[int, ...]], ...]


def limits(case: CaseSheet) -> Limits:
    """Return what a case states, each figure in its usual reading."""
    return Limits(
        tallest_cooler=usual(case, "tallest_cooler"),
        longest_card=usual(case, "longest_card"),
        card_with=case.longest_card_with or LimitWith.FANS,
        depth_mm=settled(case).depth.mm,
        longest_supply=usual(case, "longest_supply"),
        supply_with=case.longest_supply_with,
        radiators=tuple(
            (face_of(name, mount).value, mount.radiators)
            for name, mount in case.mounts
            if mount.radiators
        ),
    )
