"""Parts that a build leaves out: stand-ins, so that headroom tells what would fit.

A build that names its case and board alone makes the case's own data sheet.  A
stand-in is small and usual; its figures grow until something limits them.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from typing import Final

from layout.build.errors import SeatError
from layout.build.plan import Plan
from layout.build.remade import Remaker
from layout.parts.board.memory import Memory
from layout.parts.card.card import Card
from layout.parts.case.case import Case
from layout.parts.case.case_inside import settled
from layout.parts.case.case_limits import limits
from layout.parts.cooling.liquid_cooler import LiquidCooler
from layout.parts.cooling.low_cooler import LowCooler
from layout.parts.cooling.radiator import PortEnd, Radiator
from layout.parts.cooling.tower_cooler import TowerCooler
from layout.parts.cooling.twin_tower import TwinTower
from layout.parts.drives.cage import Cage
from layout.parts.form.errors import PartError
from layout.parts.form.form import SeatSort
from layout.parts.kinds.kinds import Spec
from layout.parts.kinds.places import places
from layout.parts.supply.supply import Cables, Intake, Supply
from layout.questions.checking.check import check
from layout.questions.moving.positions import GROUPS
from layout.standards.cards import LOW_HEIGHT
from layout.standards.figure import practice
from layout.standards.radiators import CLASSES
from layout.values import dataclass

__all__ = ["USUAL_CORE", "StandIn", "stand_ins"]

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
USUAL_CORE: Final = practice(27.0)
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


@dataclass(frozen=True, slots=True)
class _Variant:
    """One way in which a part could stand in, and what is said of it."""

    plan: Plan
    key: str
    said: str = ""


def _with(
    plan: Plan, new: tuple[str, Spec], dimension: str, *, suffix: str = ""
) -> Iterator[StandIn]:
    """Yield a plan with one part more; nothing where it has no seat for it."""
    yield from _first(_having(plan, (new,)), (dimension,), suffix=suffix)


def _having(plan: Plan, new: Iterable[tuple[str, Spec]]) -> Iterator[_Variant]:
    """Yield the plan with each of some parts in turn, unless it has one so named."""
    for key, spec in new:
        if plan.spec(key) is None:
            yield _Variant(plan.having(key, spec), key)


def _first(
    variants: Iterable[_Variant], dimensions: Sequence[str], *, suffix: str = ""
) -> Iterator[StandIn]:
    """Yield the first variant that clears as small as it is, else the first there is.

    A builder turns a supply over, puts a radiator's ports at the other end and takes
    a lower card before he says that none fits.
    """
    had: list[tuple[_Variant, Remaker]] = []
    for each in variants:
        try:
            made = Remaker.of(each.plan)
        except (PartError, SeatError):
            continue
        had.append((each, made))
        carried = made.build.carried_by(each.key)
        found = check(made.build, of=carried, groups=GROUPS).findings
        if not any(finding.verdict.fails for finding in found):
            had = had[-1:]
            break
    for one, made in had[:1]:
        for dimension in dimensions:
            yield StandIn(
                key=one.key,
                dimension=dimension,
                suffix=f"{one.said}{suffix}",
                remaker=made,
            )


def _cards(plan: Plan, *, whole: bool) -> Iterator[StandIn]:
    """Yield a card with the front as built, bare, and behind a radiator with fans."""
    yield from _first(_usual_cards(plan), ("length", "height"))
    if whole:
        return
    end = _card_ends_at(plan.case)
    before = [
        each.key for each in plan.entries if getattr(each.spec, "mount", None) == end
    ]
    bare = plan.without(before)
    if before:
        yield from _first(_usual_cards(bare), ("length",), suffix=f", {end} bare")
    for name, spec in _on_mounts(bare):
        if name == end:
            usual = replace(spec, thickness=USUAL_CORE)
            cooled = bare.having(f"{end} radiator", usual)
            suffix = f", {end} radiator"
            yield from _first(_usual_cards(cooled), ("length",), suffix=suffix)
            return


def _card_ends_at(case: Case | None) -> str:
    """Return the face that a card's far end looks at."""
    return limits(case).card_to.value if case else _FRONT


def _usual_cards(plan: Plan) -> Iterator[_Variant]:
    """Yield usual cards, the largest first: of full height, then low ones."""
    usual = _usual_card(plan.case)
    for height in (_CARD.height, LOW_HEIGHT):
        low = ", low card" if height is LOW_HEIGHT else ""
        for slots in range(usual.slots, 0, -1):
            spec = replace(usual, slots=slots, height=height)
            thin = ", 1 slot" if slots < usual.slots else ""
            for each in _having(plan, (("card", spec),)):
                yield replace(each, said=f"{low}{thin}")


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
    yield from _first(_usual_supplies(plan), ("length",))
    if any(isinstance(each.spec, Cage) for each in plan.entries):
        return  # headroom of a supply asks for its cage's positions itself
    for offer in Remaker.of(plan).tree.seats.offers:
        if offer.seat.sort is SeatSort.CAGE:
            name = offer.seat.name
            caged = plan.having("cage", Cage(position=name))
            suffix = f", cage {name}"
            yield from _first(_usual_supplies(caged), ("length",), suffix=suffix)


def _usual_supplies(plan: Plan) -> Iterator[_Variant]:
    """Yield a supply of the bay's form, turned every way, then with its leads fixed."""
    form = plan.case.supply_bay.form if plan.case else _SUPPLY.form
    for cables in Cables:
        fixed = ", leads fixed" if cables is not _SUPPLY.cables else ""
        for intake in (None, *Intake):
            spec = replace(_SUPPLY, form=form, intake=intake, cables=cables)
            looks = f", intake {intake.value}" if intake else ""
            for each in _having(plan, (("supply", spec),)):
                yield replace(each, said=f"{looks}{fixed}")


def _radiators(plan: Plan) -> Iterator[StandIn]:
    """Yield a radiator of every class that each mount takes."""
    for (mount, size), specs in _of_classes(plan).items():
        suffix = f" of {size}, {mount}"
        new = (("radiator", each) for each in specs)
        yield from _first(_having(plan, new), ("thickness",), suffix=suffix)


def _of_classes(plan: Plan) -> dict[tuple[str, int], list[Radiator]]:
    """Return every place of every class of radiator, by mount and class."""
    seats = tuple((e.host, e.seat) for e in Remaker.of(plan).tree.seats.offers)
    found: dict[tuple[str, int], list[Radiator]] = {}
    for size in sorted(CLASSES, reverse=True):
        for ports in (PortEnd.LAST, PortEnd.FIRST):
            spec = Radiator(
                size=size, mount=_FRONT, thickness=practice(15.0), ports=ports
            )
            for name, place in places(spec, seats):
                if isinstance(place, Radiator):
                    of = name.partition(",")[0], size
                    found.setdefault(of, []).append(place)
    mounts = list(dict.fromkeys(mount for mount, _ in found))
    return dict(sorted(found.items(), key=lambda each: mounts.index(each[0][0])))


def _on_mounts(plan: Plan) -> Iterator[tuple[str, Radiator]]:
    """Yield the longest class of radiator on each mount, at its first place."""
    best: dict[str, Radiator] = {}
    for (mount, _), specs in _of_classes(plan).items():
        best.setdefault(mount, specs[0])
    yield from best.items()
