"""The standoffs on a case's tray, and the holes of a board over them."""

from __future__ import annotations

from layout.geometry.holes.holes import Hole
from layout.geometry.space import Axis
from layout.parts.form import field
from layout.parts.form.errors import PartError
from layout.parts.form.link import plus_minus_mm
from layout.parts.form.screws import Screws
from layout.standards import boards
from layout.standards.figure import Figure
from layout.standards.screws import BOARD_SCREW, PUNCHED
from layout.standards.tolerances import ToleranceClass
from layout.values import dataclass

__all__ = [
    "LETTERS",
    "Standoff",
    "Standoffs",
    "board_screws",
    "check_letters",
    "letters_of",
]

LETTERS = tuple(boards.HOLES)
"""The letters of the ATX figure; whoever names holes names them so."""

_WITH_HOLES = frozenset().union(*(hole.used_by for hole in boards.HOLES.values()))
_FORMS = tuple(form for form in boards.FORMS if form in _WITH_HOLES)


@dataclass(frozen=True, slots=True, kw_only=True)
class Standoff:
    """A standoff by its distances from C, which every board of the ATX family has."""

    to_front: Figure = field.length(
        "from standoff C, second of the rear row, towards the front",
        least_mm=-20,
        most_mm=400,
    )
    up: Figure = field.length("from standoff C upwards", least_mm=-300, most_mm=200)


@dataclass(frozen=True, slots=True, kw_only=True)
class Standoffs:
    """Where the tray has standoffs, or threads for them."""

    forms: tuple[str, ...] = field.nested(
        "board forms that all of theirs are there for: ATX, microATX, Mini-ITX", ()
    )
    holes: tuple[str, ...] = field.nested(
        "single ones by the letter of the ATX figure: A, B, C, F, ...", ()
    )
    own: tuple[tuple[str, Standoff], ...] = field.nested("others by name", ())

    def __post_init__(self) -> None:
        _check("forms", self.forms, _FORMS)
        check_letters("holes", self.holes)

    @property
    def letters(self) -> tuple[str, ...]:
        """Return the letters of all that have one."""
        of_forms = (letter for form in self.forms for letter in letters_of(form))
        return tuple(dict.fromkeys((*of_forms, *self.holes)))

    def screws(self, across: tuple[Axis, Axis]) -> Screws:
        """Return the standoffs in the board frame."""
        return Screws(
            name="the tray's standoffs",
            holes=(*map(_lettered, self.letters), *(_own(*each) for each in self.own)),
            across=across,
            screw_mm=BOARD_SCREW.mm,
            given=True,
        )


def letters_of(form: str) -> tuple[str, ...]:
    """Return the letters of the holes that a form has."""
    return tuple(name for name, hole in boards.HOLES.items() if form in hole.used_by)


def board_screws(
    name: str,
    told: tuple[str, ...],
    *,
    size_mm: tuple[float, float],
    lower_mm: float,
) -> Screws:
    """Return a board's holes in the board frame, those that lie on it.

    A form whose own ones no text gives has those of ATX that lie on it.

    Parameters
    ----------
    told : tuple of str
        Their letters, where the file gives them.
    size_mm : (float, float)
        Depth and height of the board.
    lower_mm : float
        Its lower edge in the frame.
    """
    depth_mm, height_mm = size_mm
    corners = ((0.0, lower_mm), (depth_mm, lower_mm + height_mm))
    known = told or letters_of(name)
    holes = [
        _lettered(each, boards.HOLE_DIAMETER.mm) for each in known or letters_of("ATX")
    ]
    return Screws(
        name=name,
        holes=tuple(each for each in holes if _within(each.at_mm, corners)),
        across=(Axis.DEPTH, Axis.HEIGHT),
        screw_mm=BOARD_SCREW.mm,
        covers_mm=corners,
        alike="" if known else "ATX",
    )


def _within(
    at_mm: tuple[float, float], corners: tuple[tuple[float, float], ...]
) -> bool:
    low, high = corners
    return all(a <= at <= b for at, a, b in zip(at_mm, low, high, strict=True))


def _lettered(letter: str, diameter_mm: float = BOARD_SCREW.mm) -> Hole:
    hole = boards.HOLES[letter]
    return Hole(
        name=letter,
        at_mm=(hole.y.mm, hole.x.mm),
        diameter_mm=diameter_mm,
        off_mm=PUNCHED.mm,
    )


def _own(name: str, standoff: Standoff) -> Hole:
    first = boards.HOLES["C"]
    figures = (standoff.to_front, standoff.up)
    off_mm = max(plus_minus_mm(each, ToleranceClass.COARSE) for each in figures)
    return Hole(
        name=name,
        at_mm=(first.y.mm + standoff.to_front.mm, first.x.mm + standoff.up.mm),
        diameter_mm=BOARD_SCREW.mm,
        off_mm=off_mm,
    )


def check_letters(where: str, letters: tuple[str, ...]) -> None:
    """Refuse letters that no hole of the ATX figure has."""
    _check(where, letters, LETTERS)


def _check(where: str, told: tuple[str, ...], known: tuple[str, ...]) -> None:
    for each in told:
        if each not in known:
            right = f"one of {', '.join(known)}"
            raise PartError(field=where, found=each, right=right)
