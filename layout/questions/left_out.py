"""Parts that a build leaves out: stand-ins, so that headroom tells what would fit.

A build that names its case and board alone makes the case's own data sheet.  A
stand-in is small and usual; its figures grow until something limits them.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from typing import Final

from layout.build.errors import SeatError
from layout.build.plan import Plan
from layout.build.remade import Remaker
from layout.parts.cage import Cage
from layout.parts.card import Card
from layout.parts.case import Case
from layout.parts.case_inside import settled
from layout.parts.case_limits import limits
from layout.parts.form import SeatSort
from layout.parts.kinds import Spec
from layout.parts.liquid_cooler import LiquidCooler
from layout.parts.low_cooler import LowCooler
from layout.parts.memory import Memory
from layout.parts.places import places
from layout.parts.radiator import Radiator
from layout.parts.supply import Supply
from layout.parts.tower_cooler import TowerCooler
from layout.parts.twin_tower import TwinTower
from layout.standards.figure import practice
from layout.standards.radiators import CLASSES
from layout.values import dataclass

__all__ = ["StandIn", "stand_ins"]

_COOLERS: Final = (TowerCooler, TwinTower, LowCooler, LiquidCooler)
_RADIATORS: Final = (Radiator, LiquidCooler)
_COOLER: Final = TowerCooler(
    height=practice(85.0),
    width=practice(80.0),
    depth=practice(40.0),
    fans=0,
    fan_size=80,
)
_LOW_COOLER: Final = LowCooler(
    height=practice(28.0), width=practice(75.0), depth=practice(75.0), fan_size=60
)
_THICK: Final = practice(27.0)
"""A usual radiator's core; common practice, no source."""
_NARROW_MM: Final = 140.0
"""Inside width under which a case is one for low coolers."""
_CARD: Final = Card(length=practice(100.0), height=practice(111.15), slots=2)
_SUPPLY: Final = Supply(length=practice(100.0))
_MEMORY: Final = Memory(height=practice(20.0))
_FRONT: Final = "front"


@dataclass(frozen=True, slots=True, kw_only=True)
class StandIn:
    """A part that is left out, put in place of it, and the figure that is asked.

    ``suffix`` tells what stands around it otherwise than in the build.
    """

    key: str
    dimension: str
    suffix: str
    remaker: Remaker


def stand_ins(plan: Plan, part: str | None = None) -> Iterator[StandIn]:
    """Yield a stand-in for every sort of part that a build leaves out.

    A build that has cooler, memory and supply is a whole one: nothing is asked but a
    card, and that by its name alone.
    """
    specs = [each.spec for each in plan.entries]
    cooler, memory, supply, card, radiator = (
        any(isinstance(each, kinds) for each in specs)
        for kinds in (_COOLERS, (Memory,), (Supply,), (Card,), _RADIATORS)
    )
    if not cooler and part in {None, "cooler"}:
        size_mm = settled(plan.case).size_mm if plan.case else None
        narrow = size_mm is not None and size_mm[2] < _NARROW_MM
        new: tuple[str, Spec] = ("cooler", _LOW_COOLER if narrow else _COOLER)
        yield from _with(plan, new, "height")
    if not memory and part in {None, "memory"}:
        yield from _with(plan, ("memory", _MEMORY), "height")
    whole = cooler and memory and supply
    if not card and (part == "card" or (part is None and not whole)):
        yield from _cards(plan, whole=whole)
    if not supply and part in {None, "supply"}:
        yield from _supplies(plan)
    if not radiator and not whole and part in {None, "radiator"}:
        yield from _radiators(plan)


def _with(
    plan: Plan, new: tuple[str, Spec], dimension: str, *, suffix: str = ""
) -> Iterator[StandIn]:
    """Yield a plan with one part more; nothing where it has no seat for it."""
    key, spec = new
    if plan.spec(key) is not None:
        return
    try:
        remaker = Remaker.of(plan.having(key, spec))
    except SeatError:
        return
    yield StandIn(key=key, dimension=dimension, suffix=suffix, remaker=remaker)


def _cards(plan: Plan, *, whole: bool) -> Iterator[StandIn]:
    """Yield a card with the front as built, bare, and behind a radiator with fans."""
    new = ("card", _usual_card(plan.case))
    yield from _with(plan, new, "length")
    if whole:
        return
    end = _card_ends_at(plan.case)
    before = [
        each.key for each in plan.entries if getattr(each.spec, "mount", None) == end
    ]
    bare = plan.without(before)
    if before:
        yield from _with(bare, new, "length", suffix=f", {end} bare")
    for name, spec in _on_mounts(bare):
        if name == end:
            usual = replace(spec, thickness=_THICK)
            cooled = bare.having(f"{end} radiator", usual)
            yield from _with(cooled, new, "length", suffix=f", {end} radiator")


def _card_ends_at(case: Case | None) -> str:
    """Return the face that a card's far end looks at."""
    return limits(case).card_to.value if case else _FRONT


def _usual_card(case: Case | None) -> Card:
    """Return a card that takes no more openings than the case has."""
    if case is None or case.slots > 1:
        return _CARD
    if case.slots or not case.risers:
        return replace(_CARD, slots=1)
    name, bracket = case.risers[0]
    return replace(_CARD, riser=name, slots=min(_CARD.slots, bracket.slots))


def _supplies(plan: Plan) -> Iterator[StandIn]:
    """Yield a supply as built, then for every position that a cage could have."""
    new = ("supply", _SUPPLY)
    yield from _with(plan, new, "length")
    if any(isinstance(each.spec, Cage) for each in plan.entries):
        return  # headroom of a supply asks for its cage's positions itself
    for offer in Remaker.of(plan).tree.seats.offers:
        if offer.seat.sort is SeatSort.CAGE:
            name = offer.seat.name
            caged = plan.having("cage", Cage(position=name))
            yield from _with(caged, new, "length", suffix=f", cage {name}")


def _radiators(plan: Plan) -> Iterator[StandIn]:
    """Yield the longest radiator that each mount takes."""
    for name, spec in _on_mounts(plan):
        suffix = f" of {spec.size}, {name}"
        yield from _with(plan, ("radiator", spec), "thickness", suffix=suffix)


def _on_mounts(plan: Plan) -> Iterator[tuple[str, Radiator]]:
    """Yield the radiator with most fans, then the largest ones, on each free mount."""
    seats = tuple((e.host, e.seat) for e in Remaker.of(plan).tree.seats.offers)
    best: dict[str, Radiator] = {}
    for size in sorted(CLASSES, key=lambda each: -CLASSES[each].length.mm):
        spec = Radiator(size=size, mount=_FRONT, thickness=practice(15.0))
        for name, place in places(spec, seats):
            mount = name.partition(",")[0]
            if mount not in best and isinstance(place, Radiator):
                best[mount] = place
    yield from best.items()
