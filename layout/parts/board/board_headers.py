"""Where a board has its sockets for fans, lights, USB, front panel and audio.

No specification fixes these places: they are where boards usually have them, and a
build file tells others.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from types import MappingProxyType
from typing import Final, TypeAlias

from layout.geometry.solids.solid import block
from layout.geometry.space import Axis, Direction
from layout.parts.board.board_angles import height_of
from layout.parts.board.board_giving import left_free
from layout.parts.board.board_plan import BoardPlan
from layout.parts.form import field
from layout.parts.form.connector import ConnectorKind
from layout.parts.form.errors import PartError
from layout.parts.form.form import Link, Piece, Plug, Role
from layout.parts.form.link import centred, exact, less, link, size
from layout.parts.wiring.hookup import PINS, Counts, family_of
from layout.standards.connectors import OUTLINES
from layout.standards.figure import Figure, practice
from layout.values import dataclass

__all__ = ["HeaderPlace", "header_bodies", "header_plugs", "there"]

_Kind = ConnectorKind

_OVER_BOARD: Final = practice(12.0, 2.0, assumed=True)
"""From the board to the wire side of a plug on its pins."""
_PLACE: Final = practice(0.0, 15.0, assumed=True)
_SMALL_BOARD_MM: Final = 200.0

_Corner: TypeAlias = tuple[float, float]
"""Depth from the front edge (from the rear one, if positive) and height from the top
edge (from the lower one, if positive), mm."""

_USUAL: Final[Mapping[ConnectorKind, tuple[_Corner, ...]]] = MappingProxyType(
    {
        _Kind.FAN_4: ((-85.0, -6.0), (-6.0, -45.0), (95.0, 6.0), (55.0, -150.0)),
        _Kind.LIGHT_5V: ((-6.0, -25.0), (60.0, 6.0)),
        _Kind.LIGHT_12V: ((45.0, 6.0),),
        _Kind.USB_20: ((-8.0, -165.0),),
        _Kind.USB_19: ((-8.0, -134.0),),
        _Kind.USB_9: ((150.0, 6.0),),
        _Kind.FRONT_PANEL: ((-20.0, 6.0),),
        _Kind.AUDIO: ((25.0, 6.0),),
    }
)
"""The commonest place of each kind first; common practice, no source."""
_USUAL_SMALL: Final[Mapping[ConnectorKind, tuple[_Corner, ...]]] = MappingProxyType(
    {
        _Kind.FAN_4: ((-40.0, -6.0), (-6.0, -20.0), (-6.0, 70.0)),
        _Kind.LIGHT_5V: ((-6.0, 60.0),),
        _Kind.LIGHT_12V: ((-6.0, 55.0),),
        _Kind.USB_20: ((-8.0, 45.0),),
        _Kind.USB_19: ((-8.0, -134.0),),
        _Kind.USB_9: ((-6.0, 45.0),),
        _Kind.FRONT_PANEL: ((-6.0, 35.0),),
        _Kind.AUDIO: ((12.0, 30.0),),
    }
)
"""Of boards whose one slot lies at the lower edge."""

_OUTLINES: Final[Mapping[ConnectorKind, str]] = MappingProxyType(
    {
        _Kind.USB_9: "9-pin internal USB",
        _Kind.USB_19: "19-pin internal USB",
        _Kind.USB_20: "20-pin internal USB",
        _Kind.FRONT_PANEL: "front panel",
        _Kind.AUDIO: "audio",
    }
)
_FAN_OUTLINE: Final = "4-pin fan"
"""Of fans and lights alike, whose plugs are a row of three or four."""


@dataclass(frozen=True, slots=True, kw_only=True)
class HeaderPlace:
    """Where a board's socket for a plug is."""

    kind: ConnectorKind = field.choice("what is plugged in there", among=PINS)
    from_rear: Figure = field.length(
        "board's rear edge to its middle", least_mm=0, most_mm=420
    )
    from_top: Figure = field.length(
        "board's top edge to its middle", least_mm=0, most_mm=350
    )

    def __post_init__(self) -> None:
        if self.kind not in PINS:
            known = [each for each in _Kind if each in PINS]
            raise PartError(
                field="kind",
                found=self.kind.value,
                right=f"one of {', '.join(each.value for each in known)}",
            )


def header_plugs(
    plan: BoardPlan,
    fixed: Sequence[Plug],
    *,
    listed: Counts | None,
    told: Sequence[HeaderPlace],
) -> tuple[tuple[Plug, ...], list[str]]:
    """Return the plugs of a board with those of every other header.

    With the headers that are nowhere: where they usually are, its memory lies.

    Parameters
    ----------
    plan : BoardPlan
    fixed : sequence of Plug
        Those in the bodies that every board has.
    listed : tuple of (ConnectorKind, int) or None
        What the file says that the board has: who lists some of a family has no
        others of it.
    told : sequence of HeaderPlace
        Places from the file, in place of the usual ones of their kind.

    Raises
    ------
    PartError
        If a place does not lie on the board.
    """
    counts = dict(listed or ())
    families = {family_of(kind) for kind in counts}
    elsewhere = {each.kind for each in told}
    kept = [
        each
        for each in fixed
        if each.kind not in elsewhere
        and (counts.get(each.kind) or family_of(each.kind) not in families)
    ]
    own = [_told(plan, each) for each in told]
    more = [
        _usual(plan, kind, corner)
        for kind, corner in _corners(plan)
        if kind not in elsewhere
        and (kind in counts or family_of(kind) not in families)
        and not _stands(kept, kind, corner)
    ]
    free = left_free(plan, more)
    every = (*kept, *own, *_within(free, kept, counts))
    there = Counter(each.kind for each in every)
    # one with a body of its own is told among the bodies
    lost = {e.kind: None for e in more if e not in free and e.kind not in _BODIES}
    nowhere = [kind for kind in lost if there[kind] < counts.get(kind, 1)]
    return every, [f"the {kind.value} header" for kind in nowhere]


_ALONE: Final = {
    "drive data": _Kind.DRIVE_DATA,
    "internal usb": _Kind.USB_19,
}
"""Bodies that stand at a board's front edge for the plugs of one kind."""
_BODIES: Final = frozenset(_ALONE.values())


def there(
    pieces: Sequence[Piece], listed: Counts | None, told: Sequence[HeaderPlace]
) -> tuple[Piece, ...]:
    """Return a board's bodies without those of headers that it has not there.

    The file says that it lacks them, or where they are instead.
    """
    counts = dict(listed or ())
    elsewhere = {each.kind for each in told}
    families = {family_of(kind) for kind in counts}

    def lacks(name: str) -> bool:
        kind = _ALONE.get(name)
        if kind is None:
            return False
        listed_out = not counts.get(kind) and family_of(kind) in families
        return kind in elsewhere or listed_out

    return tuple(each for each in pieces if not lacks(each.name))


def _corners(plan: BoardPlan) -> Iterator[tuple[ConnectorKind, _Corner]]:
    small = plan.height.mm < _SMALL_BOARD_MM
    for kind, corners in (_USUAL_SMALL if small else _USUAL).items():
        yield from ((kind, corner) for corner in corners)


def _stands(kept: Sequence[Plug], kind: ConnectorKind, corner: _Corner) -> bool:
    """Tell whether a kept plug is the one of its kind that usually lies there."""
    alone = kind in {_Kind.FRONT_PANEL, _Kind.AUDIO, _Kind.USB_19, _Kind.USB_9}
    lower = corner[1] > 0.0 and corner[0] > 0.0
    return any(each.kind is kind for each in kept) and (alone or lower)


def _within(
    more: Sequence[Plug], kept: Sequence[Plug], counts: Mapping[ConnectorKind, int]
) -> list[Plug]:
    """Return no more plugs of a kind than the file says that there are."""
    left = dict(counts)
    for each in kept:
        if each.kind in left:
            left[each.kind] -= each.sockets
    out = []
    for each in more:
        if left.get(each.kind, 1) <= 0:
            continue
        out.append(each)
        if each.kind in left:
            left[each.kind] -= 1
    return out


def _usual(plan: BoardPlan, kind: ConnectorKind, corner: _Corner) -> Plug:
    x_mm, y_mm = corner
    at_mm = (
        x_mm if x_mm > 0.0 else plan.depth.mm + x_mm,
        plan.lower_mm + y_mm if y_mm > 0.0 else plan.upper_mm + y_mm,
    )
    name = f"place of the {kind.value} header"
    tape = f"board's rear and top edge to the {kind.value} header"
    links = (link(name, _PLACE, Axis.DEPTH, Axis.HEIGHT, tape=tape),)
    alone = kind in {_Kind.FRONT_PANEL, _Kind.AUDIO}
    return _plug(plan, kind, at_mm=at_mm, links=links, spare=not alone)


def _told(plan: BoardPlan, place: HeaderPlace) -> Plug:
    x_mm, y_mm = place.from_rear.mm, plan.upper_mm - place.from_top.mm
    if x_mm > plan.depth.mm or y_mm < plan.lower_mm:
        raise PartError(
            field="header places",
            found=f"{place.kind.value} at {x_mm:g} from the rear edge and "
            f"{place.from_top.mm:g} from the top edge",
            right=f"a place on the board, {plan.depth.mm:g} x {plan.height.mm:g}",
        )
    name = place.kind.value
    links = (
        link(f"{name} header from the rear edge", place.from_rear, Axis.DEPTH),
        link(f"{name} header from the top edge", place.from_top, Axis.HEIGHT),
    )
    return _plug(plan, place.kind, at_mm=(x_mm, y_mm), links=links, spare=False)


def header_bodies(plan: BoardPlan, told: Sequence[HeaderPlace]) -> tuple[Piece, ...]:
    """Return the plugs in headers whose places the file tells, from the board up."""
    pieces = []
    alike = Counter[ConnectorKind]()
    for place in told:
        plug = _told(plan, place)
        alike[place.kind] += 1
        more = f" {alike[place.kind]}" if alike[place.kind] > 1 else ""
        name = f"{place.kind.value} header{more}"
        (x, y, z), (long_mm, wide_mm) = plug.at_mm, plug.size_mm
        solid = block(
            (x - long_mm / 2, x + long_mm / 2),
            (y - wide_mm / 2, y + wide_mm / 2),
            (plan.thickness.mm, z),
        )
        deep, high, over, thick = plug.links
        # each has its own figures: chains share what is called alike
        deep = replace(deep, label=f"{name} from the rear edge")
        high = replace(high, label=f"{name} from the top edge")
        links = (
            deep,
            centred(exact("plug's length", long_mm, Axis.DEPTH)),
            *plan.upper_links,
            less(high),
            centred(exact("plug's width", wide_mm, Axis.HEIGHT)),
            thick,
            size(over, Direction.PANEL),
        )
        pieces.append(
            Piece(name=name, role=Role.BOARD_CONNECTOR, solids=(solid,), links=links)
        )
    return tuple(pieces)


def _plug(
    plan: BoardPlan,
    kind: ConnectorKind,
    *,
    at_mm: _Corner,
    links: tuple[Link, ...],
    spare: bool,
) -> Plug:
    outline = OUTLINES[_OUTLINES.get(kind, _FAN_OUTLINE)]
    height = height_of(plan, kind, _OVER_BOARD)
    over = link(f"height of the {kind.value} plug", height, Axis.WIDTH)
    return Plug(
        name="",
        kind=kind,
        at_mm=(*at_mm, plan.thickness.mm + height.mm),
        out=Direction.PANEL,
        along=Axis.DEPTH,
        size_mm=(outline.length.mm, outline.width.mm),
        links=(*links, over, plan.thick),
        spare=spare,
    )
