"""Motherboards: sizes, holes, rear aperture, heights.

Frame of the holes: a full ATX board seen on its component side; ``x`` from the
expansion edge (the lower one in a tower), ``y`` from the rear edge to the front.
Boards smaller than ATX lie in the same frame, since they share its holes.
"""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from typing import Final

from layout.standards.figure import Figure, calculated, memory, secondary, seen
from layout.standards.sources import (
    ATX_FIGURES,
    ATX_SPEC,
    HOLE_TABLE,
    MICRO_ATX,
    MINI_ITX,
    SSI_PAGE,
)
from layout.values import dataclass

__all__ = [
    "APERTURE_BELOW_BOARD_TOP",
    "APERTURE_CORNER",
    "APERTURE_HEIGHT",
    "APERTURE_KEEP_OUT",
    "APERTURE_TO_HOLE_A",
    "APERTURE_TO_HOLE_C",
    "APERTURE_WIDTH",
    "CONNECTORS_BEYOND_DATUM",
    "CONNECTORS_HEIGHT",
    "CONNECTORS_WIDTH",
    "DATUM_ROW_TO_REAR",
    "FORMS",
    "HOLES",
    "HOLE_DIAMETER",
    "KEEP_OUT_CARDS",
    "KEEP_OUT_FRONT",
    "KEEP_OUT_PREFERRED",
    "KEEP_OUT_REQUIRED",
    "LOWER_EDGE",
    "REAR_EDGE_TO_DATUM_ROW",
    "SOLDER_LEADS",
    "SOLDER_OTHER",
    "SOLDER_RETENTION",
    "STANDOFF",
    "STANDOFF_FOOT",
    "THICKNESS",
    "BoardForm",
    "Hole",
]

_PM_MEMORY = "plus-minus from memory"


@dataclass(frozen=True, slots=True, kw_only=True)
class BoardForm:
    """A board's outer size: depth from rear to front, height along the rear edge.

    ``slots`` is how many expansion slots the form has at most.
    """

    name: str
    depth: Figure
    height: Figure
    slots: int


def _seen(name: str, height_mm: float, slots: int) -> BoardForm:
    """Return a form of Table 3."""
    source = f"{MICRO_ATX}, Table 3"
    return BoardForm(
        name=name,
        depth=seen(244.0, source),
        height=seen(height_mm, source),
        slots=slots,
    )


def _ssi(name: str, depth_mm: float) -> BoardForm:
    """Return a form of the server board family."""
    source = f"{SSI_PAGE}, section 2.1"
    return BoardForm(
        name=name,
        depth=secondary(depth_mm, source),
        height=secondary(305.0, source),
        slots=7,
    )


FORMS: Final[Mapping[str, BoardForm]] = MappingProxyType(
    {
        "ATX": _seen("ATX", 305.0, 7),
        "microATX": _seen("microATX", 244.0, 4),
        "Mini-ITX": BoardForm(
            name="Mini-ITX",
            depth=seen(170.0, f"{MINI_ITX}, Table 1"),
            height=seen(170.0, f"{MINI_ITX}, Table 1"),
            slots=1,
        ),
        "SSI EEB": _ssi("SSI EEB", 330.0),
        "SSI CEB": _ssi("SSI CEB", 266.7),
    }
)

THICKNESS: Final = seen(1.57, f"{MICRO_ATX}, Fig 4 note; {_PM_MEMORY}", 0.20)


@dataclass(frozen=True, slots=True, kw_only=True)
class Hole:
    """A mounting hole in the board frame, and the forms that use it."""

    x: Figure
    y: Figure
    used_by: frozenset[str]


def _hole(x_mm: float, y_mm: float, used_by: str) -> Hole:
    """Return a hole; ``used_by`` names forms separated by blanks.

    The spacings and the 0.65 in margin were seen in secondary places; that the rear
    row lies 0.40 in from the rear edge is from memory.
    """
    return Hole(
        x=secondary(x_mm, f"{HOLE_TABLE}; margin from {ATX_FIGURES}"),
        y=memory(y_mm, f"{HOLE_TABLE}; rear margin 0.40 in from memory"),
        used_by=frozenset(used_by.split()),
    )


# R and S of microATX are left out: the two places that give them disagree.
HOLES: Final[Mapping[str, Hole]] = MappingProxyType(
    {
        "A": _hole(16.51, 10.16, "ATX"),
        "B": _hole(95.25, 10.16, "microATX"),
        "C": _hole(140.97, 10.16, "ATX microATX Mini-ITX"),
        "F": _hole(298.45, 33.02, "ATX microATX Mini-ITX"),
        "G": _hole(16.51, 165.10, "ATX"),
        "H": _hole(140.97, 165.10, "ATX microATX Mini-ITX"),
        "J": _hole(298.45, 165.10, "ATX microATX Mini-ITX"),
        "K": _hole(16.51, 237.49, "ATX"),
        "L": _hole(140.97, 237.49, "ATX microATX"),
        "M": _hole(298.45, 237.49, "ATX microATX"),
    }
)
"""Holes by letter; which form uses which: microATX 1.2, Fig 2 (Mini-ITX: memory)."""

HOLE_DIAMETER: Final = memory(3.96, "ATX Specification, from memory", 0.05)

LOWER_EDGE: Final[Mapping[str, Figure]] = MappingProxyType(
    {
        "ATX": calculated(0.0, "origin of the board frame", 0.0),
        "microATX": calculated(60.96, f"12.0 in - 9.6 in, {MICRO_ATX}, Table 3"),
        "Mini-ITX": secondary(134.62, "140.97 - 6.35, Mini-ITX drawing, quoted"),
        "SSI EEB": memory(0.0, "SSI boards share the ATX frame, from memory", 0.0),
        "SSI CEB": memory(0.0, "SSI boards share the ATX frame, from memory", 0.0),
    }
)
"""x of each form's expansion edge in the board frame."""

REAR_EDGE_TO_DATUM_ROW: Final = memory(10.16, "ATX Specification, from memory")
DATUM_ROW_TO_REAR: Final = secondary(12.27, f"{ATX_FIGURES}, Fig 4")
"""From the row of holes A, B, C to the inside face of the rear panel."""

APERTURE_WIDTH: Final = seen(158.75, f"{MICRO_ATX}, Fig 4 note; {_PM_MEMORY}", 0.20)
APERTURE_HEIGHT: Final = seen(44.45, f"{MICRO_ATX}, Fig 4 note; {_PM_MEMORY}", 0.20)
APERTURE_BELOW_BOARD_TOP: Final = seen(
    3.81, f"{MICRO_ATX}, Fig 4 note; that it lies below the board's top from memory"
)
APERTURE_KEEP_OUT: Final = seen(2.54, f"{MICRO_ATX}, Fig 4 note")
APERTURE_CORNER: Final = seen(0.99, f"{MICRO_ATX}, Fig 4 note, at most")
APERTURE_TO_HOLE_A: Final = secondary(131.98, f"{ATX_FIGURES}, Fig 4")
"""From hole A's column to the near edge of the aperture."""
APERTURE_TO_HOLE_C: Final = secondary(7.52, "Mini-ITX drawing, quoted in public code")
"""From hole C's column to the near edge of the aperture."""

CONNECTORS_WIDTH: Final = seen(152.15, f"{MICRO_ATX}, section 2.3.4, Fig 5")
CONNECTORS_HEIGHT: Final = seen(37.34, f"{MICRO_ATX}, section 2.3.4, Fig 5")
CONNECTORS_BEYOND_DATUM: Final = seen(11.30, f"{MICRO_ATX}, Fig 5 note")
"""From the datum row to the face of the rear connectors."""

STANDOFF: Final = secondary(6.35, f"{ATX_SPEC}, 3.4.2, at least")
STANDOFF_FOOT: Final = secondary(10.16, f"{ATX_SPEC}, 3.4.2, square, at most")
SOLDER_LEADS: Final = secondary(2.49, f"{ATX_SPEC}, 3.4.2, at most")
SOLDER_OTHER: Final = secondary(3.05, f"{ATX_SPEC}, 3.4.2, at most")
SOLDER_RETENTION: Final = secondary(5.08, f"{ATX_SPEC}, 3.4.2, at most")

KEEP_OUT_REQUIRED: Final = seen(76.20, f"{MICRO_ATX}, Table 6, area A")
KEEP_OUT_PREFERRED: Final = seen(88.90, f"{MICRO_ATX}, Table 6, area A")
KEEP_OUT_CARDS: Final = secondary(15.24, f"{ATX_FIGURES}, Fig 7, area B")
KEEP_OUT_FRONT: Final = secondary(38.10, f"{ATX_FIGURES}, Fig 7, area C")
"""Heights kept free above the board: what a case leaves at least, no cooler limit."""
