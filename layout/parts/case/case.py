"""A case: its inside, its walls, and the seats it offers."""

from __future__ import annotations

from functools import lru_cache
from typing import ClassVar

from layout.parts.case.case_inside import settled
from layout.parts.case.case_mounts import row_notes
from layout.parts.case.case_seats import openings, seats
from layout.parts.case.case_sheet import CaseSheet
from layout.parts.case.case_walls import walls
from layout.parts.form.form import Form
from layout.parts.wiring.hookup import PLUGS, counted
from layout.values import dataclass

__all__ = ["Case"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Case(CaseSheet):
    """A case, from tape-measured inside dimensions or from its data sheet's limits."""

    kind: ClassVar[str] = "case"

    def __post_init__(self) -> None:
        counted("leads", self.leads, PLUGS)
        # A case that cannot be settled is refused where its file is read.
        self.form()

    def form(self) -> Form:
        """Return the case's bodies and seats, in its own axes."""
        return _form(self)


@lru_cache(maxsize=16)  # asked where it is read and where it is put up
def _form(case: Case) -> Form:
    inside = settled(case)
    depth, height, width = inside.size_mm
    return Form(
        pieces=walls(case, inside),
        seats=seats(case, inside),
        openings=openings(case, inside),
        size=f"{depth:g} x {height:g} x {width:g}",
        notes=(*inside.notes, *row_notes(case)),
    )
