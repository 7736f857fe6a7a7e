"""A cooler's mounting kits: which sockets their names mean, and what they reach."""

from __future__ import annotations

import re
from enum import Enum

from layout.geometry.holes.holes import Hole
from layout.parts.form import field
from layout.parts.form.errors import PartError
from layout.standards.figure import Figure
from layout.standards.screws import COOLER_HOLES
from layout.values import dataclass

__all__ = ["Kit", "Known", "cooler_holes", "is_for"]

"""What every kind of cooler says of its field."""


class Known(Enum):
    """How it is known that a kit is in a cooler's box."""

    SEEN = "seen in the box"
    PAGE = "maker's page"


@dataclass(frozen=True, slots=True, kw_only=True)
class Kit:
    """A mounting kit in a cooler's box."""

    socket: str = field.word("socket family it is for: LGA1700, AM5, LGA115x, ...")
    known: Known = field.choice("how it is known to be in the box")
    ears_to: Figure | None = field.length(
        "widest hole spacing that its slotted ears reach, on a square pattern; "
        "default: round holes",
        None,
        least_mm=60,
        most_mm=110,
    )

    def __post_init__(self) -> None:
        if self.ears_to is None:
            return
        spacing = _spacing(self.socket)
        if spacing is None or spacing[0].mm != spacing[1].mm:
            raise PartError(
                field="ears to",
                found=f"{self.ears_to.mm:g} mm on a kit for {self.socket}",
                right="a socket of a square pattern",
            )
        if self.ears_to.mm < spacing[0].mm:
            raise PartError(
                field="ears to",
                found=f"{self.ears_to.mm:g} mm",
                right=f"at least the socket's own {spacing[0].mm:g} mm",
            )

    def holes(self) -> tuple[Hole, ...]:
        """Return the ears' holes or slots; none for a socket that no table holds."""
        return cooler_holes(self.socket, ears_to=self.ears_to)


def cooler_holes(socket: str, *, ears_to: Figure | None = None) -> tuple[Hole, ...]:
    """Return the four cooler holes of a socket family, about the socket's centre.

    ``ears_to`` makes slots of them that run outwards, as a kit's ears have them.
    A family that no table holds has none.
    """
    spacing = _spacing(socket)
    if spacing is None:
        return ()
    along_mm, up_mm = (each.mm / 2 for each in spacing)
    grow = ears_to.mm / 2 / along_mm if ears_to else 1.0
    return tuple(
        Hole(
            name=name,
            at_mm=(x * along_mm, y * up_mm),
            to_mm=(x * along_mm * grow, y * up_mm * grow) if ears_to else None,
            diameter_mm=0.0,
        )
        for name, x, y in _CORNERS
    )


_CORNERS = (
    ("lower rear", -1, -1),
    ("lower front", 1, -1),
    ("upper front", 1, 1),
    ("upper rear", -1, 1),
)


def _spacing(told: str) -> tuple[Figure, Figure] | None:
    """Return the hole spacing of the first family named that a table holds."""
    known = (
        spacing
        for family in _families(told)
        for name, spacing in COOLER_HOLES.items()
        if re.fullmatch(re.sub(r"(?<=\d)X+", _any_figures, family), name)
    )
    return next(known, None)


def _any_figures(found: re.Match[str]) -> str:
    return r"\d" * len(found[0])


def _families(told: str) -> list[str]:
    """Return the families that a kit's socket names; those after / may be figures."""
    first, *rest = (re.escape(_folded(each)) for each in told.split("/"))
    letters = re.match(r"[A-Z]*", first)
    prefix = letters[0] if letters else ""
    return [first, *(prefix + each if each[:1].isdigit() else each for each in rest)]


def _folded(socket: str) -> str:
    """Return a name as it is compared: without blanks, dashes and small letters."""
    return re.sub(r"[\s_-]", "", socket).upper()


def is_for(kit: Kit, socket: str) -> bool:
    """Tell whether a kit is for a socket, by its name.

    A box may name several at once, ``LGA1150/1155``, and print an x for any figure.

    Examples
    --------
    >>> kit = Kit(socket="LGA 115x/1200", known=Known.SEEN)
    >>> [is_for(kit, name) for name in ("LGA1155", "lga1200", "LGA1700")]
    [True, True, False]
    """
    return any(
        re.fullmatch(re.sub(r"(?<=\d)X+", _any_figures, each), _folded(socket))
        for each in _families(kit.socket)
    )
