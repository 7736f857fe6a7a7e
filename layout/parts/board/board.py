"""A motherboard: its size, its socket and slots, and what rises from it."""

from __future__ import annotations

from typing import ClassVar

from layout.parts.board.board_angles import (
    ANGLED,
    LYING,
    kinds_named,
    turned,
    with_adapters,
)
from layout.parts.board.board_bodies import bodies
from layout.parts.board.board_giving import giving_way, no_place
from layout.parts.board.board_headers import (
    HeaderPlace,
    header_bodies,
    header_plugs,
    there,
)
from layout.parts.board.board_m2 import M2Place
from layout.parts.board.board_plan import (
    BoardPlan,
    BoardShape,
    CardSlot,
    Heatsinks,
    connectors_mm,
    holes_mm,
)
from layout.parts.board.board_plugs import plugs
from layout.parts.board.board_seats import seats
from layout.parts.board.board_usual import (
    FIRST_SLOT,
    HEATSINK_HEIGHT,
    first_memory_slot,
    lying_reach_mm,
    usual_card_slots,
    usual_heatsinks,
    usual_m2,
    usual_slots,
    usual_socket,
)
from layout.parts.board.memory_slot import MemoryLooks, MemorySize
from layout.parts.board.standoffs import (
    board_screws,
    check_letters,
    letters_of,
)
from layout.parts.form import field
from layout.parts.form.connector import ConnectorKind
from layout.parts.form.errors import PartError
from layout.parts.form.form import Form, Seat, SeatSort
from layout.parts.form.wish import Wish
from layout.parts.wiring.adapter import BoardAdapter
from layout.parts.wiring.hookup import HEADERS, Counts, Listed, counted
from layout.standards import boards, cards, processors
from layout.standards.figure import Figure, practice
from layout.values import dataclass

__all__ = ["Board", "BoardShape"]


FRAME_TOP_MM = 304.8
"""Upper edge of the board frame: 12 in, from which free sizes hang."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Board:
    """A motherboard."""

    kind: ClassVar[str] = "board"

    form: BoardShape = field.choice("form", BoardShape.ATX)
    socket: str = field.word("socket family: LGA1700, AM5, ...")
    depth: Figure | None = field.length(
        "rear edge to front edge; default: the form's", None, least_mm=100, most_mm=420
    )
    height: Figure | None = field.length(
        "expansion edge to top edge; default: the form's",
        None,
        least_mm=100,
        most_mm=350,
    )
    thickness: Figure = field.length(
        "circuit board", boards.THICKNESS, least_mm=1, most_mm=4
    )
    stack: Figure | None = field.length(
        "board's top to the top of the heat spreader; default: the socket family's",
        None,
        least_mm=3,
        most_mm=15,
    )
    socket_from_rear: Figure | None = field.length(
        "board's rear edge to the socket's centre; default: usual, assumed",
        None,
        least_mm=30,
        most_mm=250,
    )
    socket_from_top: Figure | None = field.length(
        "board's top edge to the socket's centre; default: usual, assumed",
        None,
        least_mm=30,
        most_mm=200,
    )
    memory_slots: int | None = field.count(
        "how many; default: 4, on Mini-ITX and of lying modules 2",
        None,
        least=1,
        most=8,
    )
    first_memory_slot: Figure = field.length(
        "socket's centre to the middle of the first memory slot; default: usual, of "
        "lying modules 47, full-size ones 50",
        FIRST_SLOT,
        least_mm=35,
        most_mm=110,
    )
    memory_pitch: Figure | None = field.length(
        "from one memory slot to the next, of lying modules from one pair to the next; "
        "default: usual, assumed",
        None,
        least_mm=7,
        most_mm=120,
    )
    memory_size: MemorySize = field.choice(
        "modules that the slots take: full size, or laptop size (SO-DIMM)",
        MemorySize.FULL,
    )
    memory_looks: MemoryLooks = field.choice(
        "where modules look: to the panel, upright; or to the front, the rear, up or "
        "down, lying on the board's face, two over one another",
        MemoryLooks.PANEL,
    )
    memory_from_top: Figure | None = field.length(
        "board's top edge to the middle of the memory slots; default: beside the "
        "socket, assumed",
        None,
        least_mm=20,
        most_mm=250,
    )
    memory_from_rear: Figure | None = field.length(
        "board's rear edge to the middle of memory slots that look up or down; "
        "default: over or under the socket, assumed",
        None,
        least_mm=20,
        most_mm=250,
    )
    card_slots: tuple[CardSlot, ...] = field.nested(
        "openings with a card socket; default: usual ones of the form", ()
    )
    heatsinks: Heatsinks | None = field.choice(
        "voltage-regulator heatsinks; default: rear and top, but where lying memory "
        "stands",
        None,
    )
    heatsink_height: Figure = field.length(
        "regulator heatsinks over the board",
        HEATSINK_HEIGHT,
        least_mm=3,
        most_mm=80,
    )
    heatsink_from_socket: Figure = field.length(
        "socket's centre to the near side of the regulator heatsinks",
        practice(processors.KEEP_IN.mm, 8.0, assumed=True),
        least_mm=20,
        most_mm=120,
    )
    chipset_height: Figure = field.length(
        "chipset's heatsink over the board",
        practice(8.0, 4.0, assumed=True),
        least_mm=1,
        most_mm=60,
    )
    rear_cover: Figure | None = field.length(
        "cover over rear connectors and regulators, over the board; default: none",
        None,
        least_mm=20,
        most_mm=80,
    )
    m2_places: tuple[tuple[str, M2Place], ...] = field.nested(
        "places for M.2 drives by name; default: usual ones, assumed", ()
    )
    rear_connector_depth: Figure = field.length(
        "rear connectors from their face inwards",
        practice(30.0, 5.0, assumed=True),
        least_mm=10,
        most_mm=60,
    )
    rear_connector_height: Figure = field.length(
        "rear connectors over the board",
        boards.CONNECTORS_HEIGHT,
        least_mm=10,
        most_mm=60,
    )
    power_plugs: int = field.count("processor power plugs", 2, least=0, most=3)
    holes: tuple[str, ...] = field.nested(
        "mounting holes by the letter of the ATX figure; default: its form's", ()
    )
    headers: Listed | None = field.count(
        "sockets for plugs: {4-pin fan: 5, 19-pin USB: 1, 5 V light: 2}; default: as "
        "many as are needed, assumed",
        None,
        least=0,
        most=20,
    )
    header_places: tuple[HeaderPlace, ...] = field.nested(
        "where its headers are; default: usual places, assumed", ()
    )

    angled_plugs: tuple[str, ...] = field.nested(
        "kinds with a right-angle plug or adapter: [19-pin USB]; default: none", ()
    )
    adapters: tuple[BoardAdapter, ...] = field.nested(
        "right-angle adapters in its sockets: [{kind: 24-pin, looks: front}]; default: "
        "none",
        (),
    )
    lying_sockets: tuple[str, ...] = field.nested(
        "kinds whose socket looks over the front edge: [24-pin]; default: none", ()
    )

    def __post_init__(self) -> None:
        kinds_named("angled plugs", self.angled_plugs, ANGLED)
        kinds_named("lying sockets", self.lying_sockets, LYING)
        self._check_adapters()
        check_letters("holes", self.holes)
        object.__setattr__(self, "socket", processors.named(self.socket))
        counted("headers", self.headers, HEADERS | {ConnectorKind.PROCESSOR})
        free = self.form is BoardShape.FREE
        if free and (self.depth is None or self.height is None):
            raise PartError(
                field="form",
                found="free without its size",
                right="'depth' and 'height' beside it",
            )
        if self.stack is None and self.socket not in processors.SOCKETS:
            known = ", ".join(processors.SOCKETS)
            raise PartError(
                field="socket",
                found=self.socket,
                right=f"one of {known}, or any with its 'stack' beside it",
            )
        for each in self.card_slots:
            if each.lanes not in cards.CONNECTOR_LENGTH:
                lanes = ", ".join(map(str, cards.CONNECTOR_LENGTH))
                raise PartError(
                    field="card slots", found=str(each.lanes), right=f"lanes of {lanes}"
                )

    def _check_adapters(self) -> None:
        """Refuse two ways at once to turn the plug of one socket."""
        known = [*self.angled_plugs, *self.lying_sockets]
        for kind in (each.kind.value for each in self.adapters):
            if kind in known:
                raise PartError(
                    field="adapters",
                    found=f"an adapter for {kind}, which is angled, lies or has one",
                    right="one of them for each kind",
                )
            known.append(kind)

    def wishes(self) -> tuple[Wish, ...]:
        """Return the case's tray."""
        return (Wish(sort=SeatSort.BOARD),)

    def made_for(self, wish: Wish, seat: Seat) -> Form:
        """Return the board on its standoffs."""
        del wish
        plan = self.plan(standoff_mm=seat.at_mm[2])
        usual = there(bodies(plan), self._listed, self.header_places)
        pieces, lost = giving_way(plan, usual)
        headers, nowhere = header_plugs(
            plan,
            plugs(plan, pieces),
            listed=self._listed,
            told=self.header_places,
        )
        beside, plugged = with_adapters(plan, turned(plan, headers))
        return Form(
            pieces=(*pieces, *beside, *header_bodies(plan, self.header_places)),
            seats=seats(plan),
            plugs=plugged,
            screws=board_screws(
                self.form.value,
                self.holes,
                size_mm=(plan.depth.mm, plan.height.mm),
                lower_mm=plan.lower_mm,
            ),
            size=f"{plan.depth.mm:g} x {plan.height.mm:g}",
            notes=no_place([*lost, *nowhere]),
        )

    @property
    def _listed(self) -> Counts | None:
        """Return the headers that the file lists."""
        if self.headers is None:
            return None
        return counted("headers", self.headers, HEADERS | {ConnectorKind.PROCESSOR})

    def plan(self, *, standoff_mm: float) -> BoardPlan:
        """Return the board with every figure settled."""
        depth, height, lower_mm = self._outline()
        name = self.form.value
        slots = self.card_slots or usual_card_slots(lower_mm)
        rear, top = processors.CENTRE.get(name, processors.CENTRE["ATX"])
        socket = processors.SOCKETS.get(self.socket)
        stack = self.stack or (socket.stack if socket else None)
        if stack is None:
            raise TypeError("a socket without its stack is refused when it is made")
        small, looks = self.form is BoardShape.MINI_ITX, self.memory_looks
        modules = self.memory_slots or usual_slots(looks, small=small)
        first = first_memory_slot(self.first_memory_slot, looks, self.memory_size)
        rear, top = usual_socket(
            rear,
            top,
            reach_mm=lying_reach_mm(
                first, self.memory_pitch, self.memory_size, slots=modules
            ),
            looks=looks,
            connectors_end_mm=connectors_mm(self.rear_connector_depth)[1],
        )
        return BoardPlan(
            socket=self.socket,
            lower_mm=lower_mm,
            hangs=self.height is not None,
            holes_mm=holes_mm(self.holes or letters_of(name), depth.mm, lower_mm),
            standoff_mm=standoff_mm,
            depth=depth,
            height=height,
            thickness=self.thickness,
            stack=stack,
            socket_from_rear=self.socket_from_rear or rear,
            socket_from_top=self.socket_from_top or top,
            memory_slots=modules,
            first_memory_slot=first,
            memory_pitch=self.memory_pitch,
            memory_size=self.memory_size,
            memory_looks=looks,
            memory_from_top=self.memory_from_top,
            memory_from_rear=self.memory_from_rear,
            card_slots=slots,
            heatsinks=self.heatsinks or usual_heatsinks(looks, self.memory_size),
            heatsink_height=self.heatsink_height,
            heatsink_from_socket=self.heatsink_from_socket,
            m2_places=self.m2_places or usual_m2(slots, lower_mm, height.mm),
            chipset_height=self.chipset_height,
            rear_cover=self.rear_cover,
            rear_connector_depth=self.rear_connector_depth,
            rear_connector_height=self.rear_connector_height,
            power_plugs=self.power_plugs,
            lying=kinds_named("lying sockets", self.lying_sockets, LYING),
            angled=kinds_named("angled plugs", self.angled_plugs, ANGLED),
            adapters=self.adapters,
        )

    def _outline(self) -> tuple[Figure, Figure, float]:
        """Return depth, height, and the lower edge in the board frame."""
        form = boards.FORMS.get(self.form.value)
        if form is None:
            if self.depth is None or self.height is None:
                raise TypeError("a free board without a size is refused when made")
            return self.depth, self.height, FRAME_TOP_MM - self.height.mm
        lower_mm = boards.LOWER_EDGE[form.name].mm
        height = self.height or form.height
        if self.height is not None:
            # Another height moves the lower edge: rear connectors stay in place.
            lower_mm += form.height.mm - height.mm
        return self.depth or form.depth, height, lower_mm
