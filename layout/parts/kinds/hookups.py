"""Each kind's plugs and sockets, as its file gives them or as they usually are."""

from __future__ import annotations

import math
from collections import Counter
from dataclasses import replace

from layout.parts.board.board import Board
from layout.parts.card.card import Card, PlugAt
from layout.parts.case.case import Case
from layout.parts.case.case_inside import settled
from layout.parts.cooling.fan import Fan
from layout.parts.cooling.liquid_cooler import LiquidCooler
from layout.parts.cooling.low_cooler import LowCooler
from layout.parts.cooling.radiator import FanPlaces, Radiator
from layout.parts.cooling.tower_cooler import TowerCooler
from layout.parts.cooling.twin_tower import TwinTower
from layout.parts.drives.drive import Drive
from layout.parts.form.connector import ConnectorKind
from layout.parts.kinds.kinds import Spec
from layout.parts.supply.supply import Supply
from layout.parts.supply.supply_leads import USUAL_BOX
from layout.parts.wiring.front_leads import lengths, starts_mm
from layout.parts.wiring.hookup import (
    HEADERS,
    PINS,
    PLUGS,
    POWER,
    Counts,
    Hookup,
    Listed,
    Outlets,
    counted,
    family_of,
)
from layout.parts.wiring.splitter import Splitter
from layout.standards.figure import Figure

__all__ = ["hookup_of"]

_Kind = ConnectorKind
_NOTHING = Hookup()


def hookup_of(spec: Spec | Case) -> Hookup:
    """Return what a part plugs in and what can be plugged into it."""
    match spec:
        case Board():
            return _board(spec)
        case Supply():
            return _supply(spec)
        case Splitter():
            return _splitter(spec)
        case Card():
            return _card(spec)
        case _:
            return _others(spec)


def _board(board: Board) -> Hookup:
    """Return a board's; a second processor socket may stay empty unless it is told."""
    told = counted("headers", board.headers, HEADERS | {_Kind.PROCESSOR})
    families = {family_of(kind) for kind, _ in told}
    processor = dict(told).get(_Kind.PROCESSOR)
    needed = min(1, board.power_plugs) if processor is None else processor
    spare = board.power_plugs - needed if processor is None else 0
    return Hookup(
        demands=((_Kind.MAIN, 1), (_Kind.PROCESSOR, needed)),
        spare=((_Kind.PROCESSOR, spare),) if spare else (),
        provides=HEADERS,
        offers=tuple(each for each in told if each[0] in HEADERS),
        unsaid=frozenset(k for k in HEADERS if family_of(k) not in families),
    )


def _supply(supply: Supply) -> Hookup:
    sockets = supply.counted_sockets
    native = _Kind.CARD_16 in dict(sockets or ())
    if supply.leads is None:
        fed = tuple(each.fed(native=native) for each in USUAL_BOX)
        return Hookup(sockets=sockets, fed=fed, provides=POWER, unsaid=POWER)
    own = [each for each in supply.leads if each.made_for is None]
    return Hookup(
        sockets=sockets,
        fed=tuple(each.fed(native=native) for each in own),
        provides=POWER,
        offers=tuple((each.plug, each.plugs * each.count) for each in own),
        refused=tuple(
            (each.made_for, each.plug, each.plugs * each.count)
            for each in supply.leads
            if each.made_for is not None
        ),
    )


def _splitter(splitter: Splitter) -> Hookup:
    demands = Counter({splitter.plug: splitter.plugs})
    demands.update(dict(counted("also", splitter.also, PLUGS | POWER)))
    return Hookup(
        demands=tuple(demands.items()),
        outlets=Outlets(
            kind=splitter.given,
            count=splitter.outlets,
            bears_ma=splitter.milliamperes,
        ),
        leads=tuple((kind, splitter.lead, "lead") for kind in demands if kind in PINS),
        from_mm=splitter.at_mm,
    )


def _card(card: Card) -> Hookup:
    offers = counted("headers", card.headers, HEADERS)
    if card.power is None and card.plug_kind and card.plug is not PlugAt.NONE:
        return Hookup(demands=((card.plug_kind, 1),), usual=True, offers=offers)
    if card.power is None:
        return Hookup(usual=card.plug is not PlugAt.NONE, offers=offers)
    return Hookup(demands=counted("power", card.power, POWER), offers=offers)


def _others(spec: Spec | Case) -> Hookup:
    match spec:
        case Drive():
            return Hookup(demands=((_Kind.DRIVE_POWER, 1), (_Kind.DRIVE_DATA, 1)))
        case Case():
            return _case(spec)
        case _:
            return _cooling(spec)


def _cooling(spec: Spec | Case) -> Hookup:
    """Return the plugs of what has fans; twin fans come with one lead for both."""
    match spec:
        case Fan():
            return _fans(spec)
        case TowerCooler() | TwinTower():
            return _plugged(spec.plugs, min(1, spec.fans), spec.fan_lead)
        case LowCooler():
            return _plugged(spec.plugs, 1, spec.fan_lead)
        case LiquidCooler():
            return _liquid(spec)
        case Radiator():
            rows = {FanPlaces.NONE: 0, FanPlaces.BOTH: 2}.get(spec.fans, 1)
            return _plugged(spec.plugs, rows * spec.usual.fans, spec.fan_lead)
        case _:
            return _NOTHING


def _fans(fan: Fan) -> Hookup:
    """Return fans' plugs; those of a chain draw through its one plug together."""
    hookup = _plugged(fan.plugs, fan.count, fan.lead, entry="lead")
    return replace(
        hookup,
        draws_ma=_through(hookup, _Kind.FAN_4, (fan.count, fan.milliamperes)),
        light_ma=_through(hookup, _Kind.LIGHT_5V, (fan.count, fan.light_milliamperes)),
    )


def _through(
    hookup: Hookup, kind: ConnectorKind, drawn: tuple[int, int | None]
) -> int | None:
    """Return what goes through each plug for a purpose of so many fans' draw each."""
    fans, each_ma = drawn
    plugs = sum(n for each, n in hookup.demands if each in family_of(kind))
    return math.ceil(fans * each_ma / plugs) if plugs and each_ma is not None else None


def _liquid(cooler: LiquidCooler) -> Hookup:
    """Return a liquid cooler's: its pump, and its radiator's fans on one lead."""
    lead, entry = cooler.radiator.fan_lead, "radiator.fan lead"
    if cooler.plugs is None and cooler.radiator.plugs is not None:
        demands = Counter(dict(counted("plugs", cooler.radiator.plugs, PLUGS)))
        demands[_Kind.FAN_4] += 1
        hookup = Hookup(demands=tuple(demands.items()), leads=_each(lead, entry))
    else:
        fans = 0 if cooler.radiator.fans is FanPlaces.NONE else 1
        hookup = _plugged(cooler.plugs, 1 + fans, lead, entry=entry)
    return replace(hookup, pump_lead=cooler.pump_lead)


def _plugged(
    told: Listed | None, usual: int, lead: Figure, *, entry: str = "fan lead"
) -> Hookup:
    fans: Counts = ((_Kind.FAN_4, usual),)
    demands = fans if told is None else counted("plugs", told, PLUGS)
    return Hookup(demands=demands, usual=told is None, leads=_each(lead, entry))


def _each(lead: Figure, entry: str) -> tuple[tuple[ConnectorKind, Figure, str], ...]:
    """Return a fan's lead for every plug that it may end in: its lights' too."""
    kinds = family_of(_Kind.FAN_4) | family_of(_Kind.LIGHT_5V)
    return tuple((kind, lead, entry) for kind in _Kind if kind in kinds)


def _case(case: Case) -> Hookup:
    """Return a case's front: its plugs, and where their leads start."""
    inside_mm = settled(case).size_mm
    return Hookup(
        demands=counted("leads", case.leads, PLUGS),
        leads=tuple(lengths(case.front_leads, inside_mm)),
        from_mm=starts_mm(case.front_leads, inside_mm),
    )
