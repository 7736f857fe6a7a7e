"""Memory modules, bare or with heat spreaders."""

from __future__ import annotations

from typing import ClassVar

from layout.geometry.solids.solid import block
from layout.geometry.space import Axis, Direction
from layout.parts.board.memory_slot import MemorySize
from layout.parts.form import field
from layout.parts.form.errors import PartError
from layout.parts.form.form import Form, Piece, Role, Seat, SeatSort
from layout.parts.form.link import CONTACT_EDGE, centred, link, size
from layout.parts.form.reading import Reading, Readings, Told
from layout.parts.form.wish import Row, Wish
from layout.standards.figure import Figure
from layout.standards.memory import (
    BOARD_THICKNESS,
    HEIGHT,
    LAPTOP_HEIGHT,
    LAPTOP_LENGTH,
    LAPTOP_THICKNESS,
    LENGTH,
    SEAT,
    SPREADER_LOWEST,
    THICKNESS_BARE,
    THICKNESS_SPREADER,
)
from layout.values import dataclass

__all__ = ["Memory"]

_USUAL_SLOTS = {
    1: ((2, 1),),
    2: ((2, 1), (4, 2, 1)),
    3: ((1,), (2,), (3,)),
    4: ((1,), (2,), (3,), (4,)),
}
"""Slots by the number of modules, each in order of preference: boards want one module
in the second slot from the processor, two in the second and fourth; common practice,
no source."""

_HEIGHT = Readings(
    usual="contact edge",
    others=(
        Reading(
            name="above the board",
            meaning="board's top to the module's top, seated in its slot",
            step=SEAT,
            between=CONTACT_EDGE,
        ),
    ),
)

_BARE_UP_TO_MM = {MemorySize.FULL: 8.0, MemorySize.LAPTOP: 6.0}
"""The contact edge below this height is bare: it goes into the slot."""
_IN_A_ROW = {count: tuple((n,) for n in range(1, count + 1)) for count in range(1, 5)}
"""Slots of laptop-size modules, the lower of two first; common practice, no source."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Memory:
    """Memory modules of one sort."""

    kind: ClassVar[str] = "memory"

    size: MemorySize = field.choice(
        "full size, or laptop size (SO-DIMM); the board's slots must take it",
        MemorySize.FULL,
    )
    modules: int = field.count("how many", 2, least=1, most=4)
    height: Figure = field.length(
        "contact edge to top; it stands about 3 mm higher above the board; default: a "
        "bare module's, of laptop size 30",
        HEIGHT,
        least_mm=17,
        most_mm=80,
        readings=_HEIGHT,
    )
    thickness: Figure | None = field.length(
        "over both sides; default: 4 bare, 7 to 8.5 with spreader, 3.8 of laptop size",
        None,
        least_mm=1,
        most_mm=20,
    )
    slot: int | None = field.count(
        "first slot from the processor, the others follow; default: those boards want",
        None,
        least=1,
        most=4,
    )
    measured_from: Told = field.measured_from()

    def __post_init__(self) -> None:
        told = "height" in dict(self.measured_from)
        if self._is_small and self.height is HEIGHT and not told:
            object.__setattr__(self, "height", LAPTOP_HEIGHT)

    @property
    def _is_small(self) -> bool:
        return self.size is MemorySize.LAPTOP

    def wishes(self) -> tuple[Wish, ...]:
        """Return one wish for each module."""
        usual = (_IN_A_ROW if self._is_small else _USUAL_SLOTS)[self.modules]
        slots = (
            usual
            if self.slot is None
            else tuple((self.slot + n,) for n in range(self.modules))
        )
        row = Row(of="modules", count=self.modules, first=self.slot)
        return tuple(
            Wish(
                sort=SeatSort.MEMORY,
                seats=tuple(f"memory {each}" for each in choices),
                field="modules" if self.slot is None else "slot",
                piece=f"module {n}" if self.modules > 1 else "",
                row=row,
            )
            for n, choices in enumerate(slots, start=1)
        )

    def made_for(self, wish: Wish, seat: Seat) -> Form:
        """Return a module standing in its slot, its contact edge at the seat."""
        if seat.takes not in {"", self.size.value}:
            raise PartError(
                field="size",
                found=self.size.value,
                right=f"{seat.takes}, which the board's slots take",
            )
        thickness = self.thickness or self._usual_thickness
        length = LAPTOP_LENGTH if self._is_small else LENGTH
        half_mm, long_mm = thickness.mm / 2, length.mm / 2
        bare_mm = _BARE_UP_TO_MM[self.size]
        edge_mm = min(BOARD_THICKNESS.mm / 2, half_mm)
        y = (-long_mm, long_mm)
        return Form(
            pieces=(
                Piece(
                    name=wish.piece,
                    role=Role.MEMORY,
                    solids=(
                        block((-edge_mm, edge_mm), y, (0.0, bare_mm)),
                        block((-half_mm, half_mm), y, (bare_mm, self.height.mm)),
                    ),
                    links=(
                        size(
                            link("module height", self.height, Axis.WIDTH),
                            Direction.PANEL,
                        ),
                        centred(
                            link(
                                "module thickness",
                                thickness,
                                Axis.DEPTH,
                                tape="one side of a module to the other",
                                entry="thickness",
                            )
                        ),
                        centred(link("module length", length, Axis.HEIGHT)),
                    ),
                ),
            ),
            size=f"{self.height.mm:g} high",
        )

    @property
    def _usual_thickness(self) -> Figure:
        if self._is_small:
            return LAPTOP_THICKNESS
        spread = self.height.mm >= SPREADER_LOWEST.mm
        return THICKNESS_SPREADER if spread else THICKNESS_BARE
