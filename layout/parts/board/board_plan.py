"""A board with every figure settled: what its bodies and seats are made from.

Places are told in the board frame, that of a full ATX board: depth from the rear
edge, height from the expansion edge, width from the board's underside.
"""

from __future__ import annotations

from collections.abc import Sequence
from enum import Enum

from layout.geometry.space import Axis, Direction
from layout.parts.board.board_m2 import M2Place
from layout.parts.board.memory_slot import MemoryLooks, MemorySize
from layout.parts.form import field
from layout.parts.form.connector import ConnectorKind
from layout.parts.form.form import Link
from layout.parts.form.link import THICKNESS, at_share, exact, less, link, size
from layout.parts.wiring.adapter import BoardAdapter
from layout.standards import boards, cards
from layout.standards.figure import Figure
from layout.values import dataclass

__all__ = [
    "BoardPlan",
    "BoardShape",
    "CardSlot",
    "Heatsinks",
    "connectors_mm",
    "holes_mm",
]


class BoardShape(Enum):
    """The forms boards are sold in; a free one gives its own size."""

    ATX = "ATX"
    MICRO_ATX = "microATX"
    MINI_ITX = "Mini-ITX"
    SSI_EEB = "SSI EEB"
    SSI_CEB = "SSI CEB"
    FREE = "free"


class Heatsinks(Enum):
    """Which edges of the socket carry heatsinks on the voltage regulators."""

    REAR_AND_TOP = "rear and top"
    REAR = "rear"
    TOP = "top"
    NONE = "none"

    @property
    def at_rear(self) -> bool:
        """Tell whether there is one between socket and rear connectors."""
        return self in {Heatsinks.REAR_AND_TOP, Heatsinks.REAR}

    @property
    def at_top(self) -> bool:
        """Tell whether there is one between socket and top edge."""
        return self in {Heatsinks.REAR_AND_TOP, Heatsinks.TOP}


@dataclass(frozen=True, slots=True, kw_only=True)
class CardSlot:
    """A socket for a card, at one of the case's openings."""

    opening: int = field.count("the case's opening", least=1, most=8)
    lanes: int = field.count("1, 4, 8 or 16", 16, least=1, most=16)


@dataclass(frozen=True, slots=True, kw_only=True)
class BoardPlan:
    """The settled figures of a board.

    Parameters
    ----------
    lower_mm : float
        The board's own expansion edge in the frame.
    hangs : bool
        Whether its height counts from its upper edge: rear connectors stay in place.
    holes_mm : tuple of (float, float)
        Depth and height of the mounting holes in the frame.
    standoff_mm : float
        From the tray to the underside.
    socket : str
        Its family.
    """

    socket: str
    lower_mm: float
    hangs: bool
    holes_mm: tuple[tuple[float, float], ...]
    standoff_mm: float
    depth: Figure
    height: Figure
    thickness: Figure
    stack: Figure
    socket_from_rear: Figure
    socket_from_top: Figure
    memory_slots: int
    memory_size: MemorySize
    memory_looks: MemoryLooks
    first_memory_slot: Figure
    memory_pitch: Figure | None
    memory_from_top: Figure | None
    memory_from_rear: Figure | None
    card_slots: tuple[CardSlot, ...]
    heatsinks: Heatsinks
    heatsink_height: Figure
    heatsink_from_socket: Figure
    m2_places: tuple[tuple[str, M2Place], ...]
    chipset_height: Figure
    rear_cover: Figure | None
    rear_connector_depth: Figure
    rear_connector_height: Figure
    power_plugs: int
    lying: frozenset[ConnectorKind] = frozenset()
    angled: frozenset[ConnectorKind] = frozenset()
    adapters: tuple[BoardAdapter, ...] = ()

    @property
    def upper_mm(self) -> float:
        """Return the board's upper edge in the frame."""
        return self.lower_mm + self.height.mm

    @property
    def rear_edge_mm(self) -> float:
        """Return how far the rear edge stands from the rear panel's inside."""
        return boards.DATUM_ROW_TO_REAR.mm - boards.REAR_EDGE_TO_DATUM_ROW.mm

    @property
    def socket_mm(self) -> tuple[float, float]:
        """Return the socket's centre in the frame."""
        return self.socket_from_rear.mm, self.upper_mm - self.socket_from_top.mm

    @property
    def rear_connectors_mm(self) -> tuple[float, float]:
        """Return the depths of the rear connectors' face and back in the frame."""
        return connectors_mm(self.rear_connector_depth)

    @property
    def connectors_links(self) -> tuple[Link, Link]:
        """Return what places the rear connectors' back: their face, and their depth."""
        face_mm, _ = self.rear_connectors_mm
        return (
            exact(
                "rear connectors' face from the board's rear edge", face_mm, Axis.DEPTH
            ),
            link(
                "rear connectors' depth",
                self.rear_connector_depth,
                Axis.DEPTH,
                tape="face of the rear connectors to their inner end",
                entry="rear connector depth",
            ),
        )

    @property
    def edge_links(self) -> tuple[Link, ...]:
        """Return what places the lower edge in the frame, and the upper one."""
        height = link("board height", self.height, Axis.HEIGHT)
        if self.hangs:
            top = exact("board's upper edge in its frame", self.upper_mm, Axis.HEIGHT)
            return (top, size(height, Direction.DOWN))
        low = exact("board's lower edge in its frame", self.lower_mm, Axis.HEIGHT)
        return (low, size(height, Direction.UP))

    @property
    def upper_links(self) -> tuple[Link, ...]:
        """Return what places the upper edge in the frame."""
        return tuple(at_share(each, Axis.HEIGHT, 1.0) for each in self.edge_links)

    @property
    def lower_links(self) -> tuple[Link, ...]:
        """Return what places the lower edge in the frame."""
        return tuple(at_share(each, Axis.HEIGHT, 0.0) for each in self.edge_links)

    @property
    def socket_links(self) -> tuple[Link, ...]:
        """Return the figures that place the socket."""
        return (
            link(
                "socket centre from the board's rear edge",
                self.socket_from_rear,
                Axis.DEPTH,
                tape="board's rear edge to the socket's centre",
                entry="socket from rear",
            ),
            *self.upper_links,
            less(
                link(
                    "socket centre from the board's top edge",
                    self.socket_from_top,
                    Axis.HEIGHT,
                    tape="board's top edge to the socket's centre",
                    entry="socket from top",
                )
            ),
        )

    @property
    def thick(self) -> Link:
        """Return the board's thickness as a link."""
        return link(THICKNESS, self.thickness, Axis.WIDTH)

    def card_y_mm(self, opening: int) -> float:
        """Return the height of a card's circuit board, its middle, in the frame."""
        return cards.FIRST_SLOT.mm - (opening - 1) * cards.SLOT_PITCH.mm


def connectors_mm(deep: Figure) -> tuple[float, float]:
    """Return the depths of the rear connectors' face and back in the frame."""
    face_mm = boards.REAR_EDGE_TO_DATUM_ROW.mm - boards.CONNECTORS_BEYOND_DATUM.mm
    return face_mm, face_mm + deep.mm


def holes_mm(
    letters: Sequence[str], depth_mm: float, lower_mm: float
) -> tuple[tuple[float, float], ...]:
    """Return holes by their letters; of a board without, all those that lie on it."""
    used = [boards.HOLES[letter] for letter in letters]
    margin_mm = boards.STANDOFF_FOOT.mm / 2
    on_it = [
        hole
        for hole in boards.HOLES.values()
        if hole.y.mm + margin_mm <= depth_mm and hole.x.mm - margin_mm >= lower_mm
    ]
    return tuple((hole.y.mm, hole.x.mm) for hole in used or on_it)
