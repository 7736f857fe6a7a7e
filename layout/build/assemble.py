"""Put every part on its seat: specs in, bodies in place out."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace
from typing import Final

from layout.build.errors import SeatError
from layout.build.fed import fed
from layout.build.kept import Kept
from layout.build.notes import not_there, unverified
from layout.build.openings import check_cover, check_openings
from layout.build.placed import Build, Mate, OwnNeed, PlacedBody, PlacedPart
from layout.build.seats import Offer
from layout.build.tree import Tree, mates_of
from layout.build.usual import board_under
from layout.build.wired import wired
from layout.geometry.space import ORIGIN
from layout.parts.board.board import Board
from layout.parts.card.card import Card
from layout.parts.card.card_support import CardSupport, SupportShape
from layout.parts.case.case import Case
from layout.parts.case.case_inside import settled, width_notes
from layout.parts.case.case_limits import limits
from layout.parts.case.case_stands import Stands
from layout.parts.cooling.processor import Processor
from layout.parts.drives.cage import Cage
from layout.parts.form.form import Allowance, SeatSort
from layout.parts.kinds.block import Block
from layout.parts.kinds.hookups import hookup_of
from layout.parts.kinds.kinds import Spec
from layout.parts.wiring.hookup import Hookup
from layout.parts.wiring.splitter import Splitter
from layout.values import dataclass

__all__ = ["CASE", "Entry", "SeatError", "assemble", "grown", "offers", "through"]

CASE: Final = "case"
"""Key of the case among the parts."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Entry:
    """A part of a build: its key, and what its data sheet says."""

    key: str
    spec: Spec


def assemble(
    *,
    name: str,
    entries: Sequence[Entry],
    case: Case | None = None,
    needs: tuple[tuple[str, float], ...] = (),
    own_needs: tuple[OwnNeed, ...] = (),
    tree: Tree | None = None,
) -> Build:
    """Return every part in its place, hosts before their guests.

    A build with a board that names no processor gets one for the board's socket.
    ``tree`` is that of :func:`grown`, where it was grown before.

    Raises
    ------
    SeatError
        If a part asks for a seat that is not there, or is taken.
    """
    tree = tree or grown(entries, case)
    openings: tuple[Allowance, ...] = ()
    notes: tuple[str, ...] = ()
    if case is not None:
        form = tree.formed(case)
        openings = form.openings
        told = [case.stands.told] if case.stands.told else []
        missing = not_there({entry.spec.kind for entry in entries})
        notes = (*told, *missing, *_of_use(form.notes, case, entries))
    unnamed = _processor(entries)
    every = (*entries, *unnamed)
    order = {key: index for index, key in enumerate([CASE, *(e.key for e in every)])}
    bodies = tuple(sorted(tree.bodies, key=lambda body: order[body.part]))
    parts = tuple(sorted(_told(tree, unnamed), key=lambda part: order[part.key]))
    own = [f"{part.key}: {note}" for part in parts for note in part.notes]
    return Build(
        name=name,
        parts=parts,
        bodies=bodies,
        mates=(*tree.mates, *through(openings, bodies)),
        fixings=tuple(tree.fixings),
        hookups=_hookups(every, case),
        needs=needs,
        own_needs=own_needs,
        notes=(*notes, *own, *unverified(bodies)),
        plugs=wired(tree.plugs, tree.leads),
        leads=tuple(tree.leads),
        case_name=case.name if case else None,
        case_size_mm=settled(case).size_mm if case else None,
        stands=case.stands if case else Stands.UPRIGHT,
        limits=limits(case) if case else None,
        panel=case.side_panel if case else None,
    )


def _told(tree: Tree, unnamed: Sequence[Entry]) -> list[PlacedPart]:
    """Return the parts, those that nobody named marked as assumed."""
    keys = {each.key for each in unnamed}
    return [replace(each, assumed=each.key in keys) for each in tree.parts]


def offers(entries: Sequence[Entry], case: Case | None) -> tuple[Offer, ...]:
    """Return every seat that the case and the parts offer, taken or not."""
    return tuple(grown(entries, case).seats.offers)


def grown(
    entries: Sequence[Entry], case: Case | None, *, kept: Kept | None = None
) -> Tree:
    """Return the seat tree with every part in its place.

    ``kept`` are the parts of other such trees.

    Raises
    ------
    SeatError
        If a part asks for a seat that is not there, or is taken.
    """
    tree = Tree(kept=kept or Kept())
    if case is not None:
        tree.stand(CASE, tree.formed(case))
    specs = [entry.spec for entry in entries]
    usual = (
        replace(e, spec=board_under(e.spec, specs)) if isinstance(e.spec, Board) else e
        for e in entries
    )
    every = sorted((*usual, *_processor(entries)), key=_seat_depth)
    tree.seats.arrange(
        (each.key, wish)
        for each in every
        if not isinstance(each.spec, Block)
        for wish in each.spec.wishes()
    )
    specs_by_key = {entry.key: entry.spec for entry in every}
    for entry in every:
        _place(tree, entry)
        if case is not None:
            _check_openings(tree, case, entry=entry, specs=specs_by_key)
    return tree


def _check_openings(
    tree: Tree, case: Case, *, entry: Entry, specs: Mapping[str, Spec]
) -> None:
    """Refuse what takes an opening for cards that the case has not."""
    spec = entry.spec
    if isinstance(spec, Card):
        ((_, at),) = tree.seated[entry.key]
        free = tree.seats.free(SeatSort.SLOT)
        check_openings(entry.key, spec, case, at=at, free=free)
    elif isinstance(spec, CardSupport) and spec.shape is SupportShape.BRACKET:
        ((_, under),) = tree.seated[entry.key]
        card = specs[under.host]
        ((_, at),) = tree.seated[under.host]
        if isinstance(card, Card) and at.seat.sort is SeatSort.SLOT:
            check_cover(entry.key, card, case, at=at)


def _hookups(
    entries: Sequence[Entry], case: Case | None
) -> tuple[tuple[str, Hookup], ...]:
    parts = [(each.key, hookup_of(each.spec)) for each in entries]
    return ((CASE, hookup_of(case)), *parts) if case else tuple(parts)


def _place(tree: Tree, entry: Entry) -> None:
    spec = entry.spec
    if not isinstance(spec, Block):
        tree.seat(entry.key, spec)
        if isinstance(spec, Splitter):
            tree.plugs += fed(entry.key, spec)
        return
    form = tree.formed(spec)
    tree.stand(entry.key, form, at_mm=spec.at_mm)
    tree.parts.append(
        PlacedPart(
            key=entry.key,
            kind=spec.kind,
            size=form.size,
            seat="",
            at_mm=spec.at_mm,
            approach=None,
        )
    )


_ON_A_PART = frozenset(
    {SeatSort.PROCESSOR, SeatSort.MEMORY, SeatSort.SLOT, SeatSort.DRIVE, SeatSort.M2}
)


_ON_A_GUEST = frozenset({SeatSort.COOLER, SeatSort.SUPPORT})


def _seat_depth(entry: Entry) -> int:
    """Return how deep in the seat tree a part sits: hosts come first."""
    if isinstance(entry.spec, Block):
        return 0
    depths = [
        3 if wish.sort in _ON_A_GUEST else 2 if wish.sort in _ON_A_PART else 1
        for wish in entry.spec.wishes()
    ]
    return max(depths, default=0)


def _of_use(notes: tuple[str, ...], case: Case, entries: Sequence[Entry]) -> list[str]:
    """Return the case's notes without those on a cage that the build leaves out.

    What they say of a processor is said of the build's own.
    """
    caged = any(isinstance(entry.spec, Cage) for entry in entries)
    idle = () if caged else settled(case).cage_notes
    of_use = [note for note in notes if note not in idle]
    board = next((e.spec for e in entries if isinstance(e.spec, Board)), None)
    if board is None:
        return of_use
    named = (e.spec.stack for e in entries if isinstance(e.spec, Processor))
    stack = next(named, None) or board.plan(standoff_mm=case.standoff.mm).stack
    usual, own = width_notes(case), width_notes(case, board.socket, stack)
    return [*(note for note in of_use if note not in usual), *own]


_USUAL_PROCESSOR: Final = Processor()


def _processor(entries: Sequence[Entry]) -> tuple[Entry, ...]:
    """Return the processor that no entry names, where there is a board for it."""
    specs = [entry.spec for entry in entries]
    if any(isinstance(spec, Processor) for spec in specs):
        return ()
    if not any(isinstance(spec, Board) for spec in specs):
        return ()
    keys = {entry.key for entry in entries}
    key = "processor" if "processor" not in keys else "board's processor"
    return (Entry(key=key, spec=_USUAL_PROCESSOR),)


def through(
    openings: tuple[Allowance, ...], bodies: Iterable[PlacedBody]
) -> list[Mate]:
    """Return the case's openings for the parts that reach into one of them."""
    reaching = dict.fromkeys(
        body.part
        for body in bodies
        if body.part != CASE
        and any(body.body.bounds.meets(each.box) for each in openings)
    )
    return [mate for part in reaching for mate in mates_of(part, openings, ORIGIN)]
