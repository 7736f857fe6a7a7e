"""What a card's data sheet says."""

from __future__ import annotations

from enum import Enum

from layout.parts.card import card_readings
from layout.parts.card.card_headers import CardHeader
from layout.parts.card.card_plug import CARD_PLUGS, in_row, kind_of
from layout.parts.card.card_readings import PlugAt
from layout.parts.form import field
from layout.parts.form.connector import ConnectorKind
from layout.parts.form.errors import PartError
from layout.parts.form.form import PlugShape
from layout.parts.form.reading import Told
from layout.parts.wiring.adapter import Adapter
from layout.parts.wiring.hookup import HEADERS, POWER, Counts, Listed, counted
from layout.standards import cards
from layout.standards.figure import Figure, calculated, practice
from layout.values import dataclass

__all__ = ["BracketShape", "CardSheet"]


class BracketShape(Enum):
    """How long a card's bracket is."""

    FULL = "full"
    LOW = "low"


@dataclass(frozen=True, slots=True, kw_only=True)
class CardSheet:
    """The figures of a card."""

    length: Figure = field.length(
        "outside of the bracket's slot plane to the far end, without a plug",
        least_mm=60,
        most_mm=450,
        readings=card_readings.LENGTH,
    )
    height: Figure = field.length(
        "bottom of the contact fingers to the top edge, without the plug",
        cards.FULL_HEIGHT,
        least_mm=40,
        most_mm=190,
        readings=card_readings.HEIGHT,
    )
    slots: int = field.count(
        "how many openings it takes; one called two and a half takes three",
        1,
        least=1,
        most=5,
    )
    thickness: Figure | None = field.length(
        "back of the circuit board's own components or back plate to the fan side; "
        "default: from the slots",
        None,
        least_mm=5,
        most_mm=120,
        readings=card_readings.THICKNESS,
    )
    slot: int = field.count(
        "the case's opening, 1 nearest the processor",
        1,
        least=1,
        most=8,
        readings=card_readings.SLOT,
    )
    fans: bool | None = field.flag(
        "whether fans draw through its lower side; default: from two openings on",
        default=None,
    )
    back_plate: Figure | None = field.length(
        "back plate over the circuit board's back; default: components' 2.67",
        None,
        least_mm=0.5,
        most_mm=15,
    )
    riser: str | None = field.word(
        "the case's riser bracket by its name; default: the card goes into its slot",
        None,
    )
    bracket: BracketShape | None = field.choice(
        "full or low; default: low on a card no higher than 68.9", None
    )
    plug: PlugAt = field.choice("power plug's place", PlugAt.NONE)
    plug_from_bracket: Figure | None = field.length(
        "slot plane to the middle of the plugs at the top edge; "
        "default: 60 before the end",
        None,
        least_mm=20,
        most_mm=450,
    )
    plug_from_fingers: Figure | None = field.length(
        "bottom of the contact fingers to the middle of the plugs at the far end; "
        "default: the middle of the card's height, assumed",
        None,
        least_mm=8,
        most_mm=190,
    )
    plug_kind: ConnectorKind | None = field.choice(
        "power plug; default: the first that 'power' lists, else 8-pin card power",
        None,
        among=CARD_PLUGS,
    )
    plug_shape: PlugShape = field.choice(
        "straight, or angled: a right-angle plug or adapter", PlugShape.STRAIGHT
    )
    adapter: Adapter | None = field.nested(
        "a right-angle adapter in its power socket: {looks: up}, which is over the "
        "card's back; default: none",
        None,
    )
    plug_reach: Figure | None = field.length(
        "how far the mated plug stands beyond the card, before its cable's bend; less "
        "where its socket is sunken; default: 17.5, of an angled one 13, assumed",
        None,
        least_mm=1,
        most_mm=80,
    )
    plug_width: Figure = field.length(
        "one mated plug along the card's edge; those in 'power' stand side by side",
        practice(20.0, 5.0, assumed=True),
        least_mm=5,
        most_mm=60,
    )
    plug_thickness: Figure = field.length(
        "mated plug across the card",
        practice(12.0, 3.0, assumed=True),
        least_mm=5,
        most_mm=30,
    )
    measured_from: Told = field.measured_from()
    power: Listed | None = field.count(
        "power plugs it takes: {8-pin card power: 2}; default: what its plug needs, "
        "assumed",
        None,
        least=0,
        most=4,
    )
    headers: Listed = field.count(
        "sockets it has for plugs: {drive data: 4, 20-pin USB: 1}",
        (),
        least=0,
        most=16,
    )
    header_places: tuple[CardHeader, ...] = field.nested(
        "where those are: [{kind: drive data, looks: front, at: 60}]; default: at its "
        "far end, assumed",
        (),
    )

    def __post_init__(self) -> None:
        kind_of(self.plug_kind, self.listed_power)
        self._check_adapter()
        counted("headers", self.headers, HEADERS)
        if self.measured_from:
            return
        if self.height.mm <= cards.SHOULDER.mm:
            raise PartError(
                field="height", found=f"{self.height.mm:g} mm", right="over the slot"
            )
        at = self.plug_from_bracket
        if at is not None and at.mm > self.length.mm:
            raise PartError(
                field="plug from bracket",
                found=f"{at.mm:g} mm",
                right=f"no more than the card's {self.length.mm:g} mm",
            )
        over = self.plug_from_fingers
        if over is not None and over.mm > self.height.mm:
            raise PartError(
                field="plug from fingers",
                found=f"{over.mm:g} mm",
                right=f"no more than the card's height of {self.height.mm:g} mm",
            )

    def _check_adapter(self) -> None:
        """Refuse an adapter without a plug, and what it takes the place of."""
        if self.adapter is None:
            return
        others = {
            "plug: none": self.plug is PlugAt.NONE,
            "plug shape: angled": self.plug_shape is PlugShape.ANGLED,
            "plug reach": self.plug_reach is not None,
        }
        for word in (each for each, there in others.items() if there):
            raise PartError(
                field="adapter",
                found=f"an adapter and '{word}'",
                right="the adapter with its own 'height' and a straight plug",
            )

    @property
    def listed_power(self) -> Counts | None:
        """Return the power plugs it takes; None where the file does not say."""
        return None if self.power is None else counted("power", self.power, POWER)

    @property
    def plugs_in_row(self) -> int:
        """Return how many power plugs stand side by side."""
        power = self.listed_power
        return in_row(kind_of(self.plug_kind, power), power)

    @property
    def plugs_wide_mm(self) -> float:
        """Return how long their row is, along the card's edge."""
        return self.plugs_in_row * self.plug_width.mm

    @property
    def plug_beyond(self) -> Figure:
        """Return how far the plug stands beyond the card: told, or its shape's."""
        if self.adapter is not None:
            return self.adapter.height
        angled = self.plug_shape is PlugShape.ANGLED
        usual = cards.ANGLED_PLUG_BEYOND_CARD if angled else cards.PLUG_BEYOND_CARD
        return self.plug_reach or usual

    @property
    def depth_across(self) -> Figure:
        """Return the card's thickness: its own, or that of its slots."""
        if self.thickness is not None:
            return self.thickness
        components_mm = cards.COMPONENT_SIDE.mm if self.slots == 1 else 0.0
        if self.slots > 1:
            components_mm = (
                cards.DUAL_HEIGHT.mm + (self.slots - 2) * cards.SLOT_PITCH.mm
            )
        by_slots = calculated(
            cards.SOLDER_SIDE.mm + cards.THICKNESS.mm + components_mm,
            "solder side, board and component side of the card specification",
            1.0,
        )
        return card_readings.THICKNESS.of_usual(by_slots)
