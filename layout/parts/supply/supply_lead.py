"""A lead of a power supply: its plugs, and the supply it was made for."""

from __future__ import annotations

from dataclasses import replace
from typing import Any, Final

from layout.parts.form import field
from layout.parts.form.connector import ConnectorKind
from layout.parts.form.errors import PartError
from layout.parts.form.form import Seat
from layout.parts.form.link import plus_minus_mm
from layout.parts.form.reading import Reading, Readings, Told
from layout.parts.wiring.hookup import EIGHT_PINS, EIGHTS_OF_16, POWER, Fed
from layout.standards.figure import Figure, practice
from layout.standards.tolerances import ToleranceClass
from layout.values import dataclass

__all__ = ["LENGTH", "PITCH", "SupplyLead"]

_PITCH = practice(150.0, 20.0, assumed=True)


def _beyond_the_first(lead: Any, seat: Seat | None) -> Figure:  # noqa: ANN401  (declared below)
    """Return what lies between a lead's first plug and its last."""
    del seat
    pitch: Figure = lead.between_plugs
    off_mm = plus_minus_mm(pitch, ToleranceClass.COARSE)
    count = lead.plugs - 1
    return replace(pitch, mm=count * pitch.mm, plus_minus_mm=count * off_mm)


LENGTH: Final = Readings(
    usual="case to the first plug",
    others=(
        Reading(
            name="case to the last plug",
            meaning="where it leaves the supply's case to the wire side of the last "
            "of its plugs",
            step=_PITCH,
            found=_beyond_the_first,
        ),
    ),
)
PITCH: Final = Readings(usual="wire side to wire side")
"""Both are common practice, no source."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SupplyLead:
    """Leads of one sort.

    A modular lead belongs to its supply: another one may be wired otherwise behind
    the same plug.
    """

    plug: ConnectorKind = field.choice("plug at its far end", among=POWER)
    plugs: int = field.count("plugs on each, one after the other", 1, least=1, most=8)
    count: int = field.count("how many such leads", 1, least=1, most=12)
    socket: ConnectorKind | None = field.choice(
        "what it takes at the supply; default: its own kind, of a 12V-2x6 lead at a "
        "supply without such a socket 8-pin card power",
        None,
        among=POWER,
    )
    takes: int | None = field.count(
        "how many of those sockets each takes; default: 1, of a 12V-2x6 lead from "
        "8-pin ones 2",
        None,
        least=1,
        most=4,
    )
    length: Figure | None = field.length(
        "where it leaves the case to the wire side of its first plug; default: usual "
        "for the supply's form, assumed",
        None,
        least_mm=100,
        most_mm=1500,
        readings=LENGTH,
    )
    between_plugs: Figure = field.length(
        "from one plug to the next",
        _PITCH,
        least_mm=30,
        most_mm=400,
        readings=PITCH,
    )
    made_for: str | None = field.word(
        "the supply it was made for, where that is another one", None
    )
    measured_from: Told = field.measured_from()

    def __post_init__(self) -> None:
        for name, kind in (("plug", self.plug), ("socket", self.socket or self.plug)):
            if kind not in POWER:
                known = ", ".join(each.value for each in ConnectorKind if each in POWER)
                raise PartError(field=name, found=kind.value, right=f"one of {known}")

    def fed(self, *, native: bool) -> Fed:
        """Return what it takes at its supply; ``native`` has 12V-2x6 sockets."""
        spread = self.plug is ConnectorKind.CARD_16 and not native
        usual = ConnectorKind.CARD_8 if spread else self.plug
        socket = self.socket or usual
        two = self.plug is ConnectorKind.CARD_16 and socket in EIGHT_PINS
        return Fed(
            plug=self.plug,
            plugs=self.plugs,
            count=self.count,
            socket=socket,
            takes=self.takes or (EIGHTS_OF_16 if two else 1),
        )
