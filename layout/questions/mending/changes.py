"""The changes that may mend a finding, the smallest first, and how each is told."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from typing import Final

from layout.build.plan import Plan
from layout.parts.board.board import Board
from layout.parts.board.board_angles import ANGLED
from layout.parts.board.m2_drive import M2Drive
from layout.parts.board.memory import Memory
from layout.parts.card.card import Card, PlugAt
from layout.parts.card.card_sheet import BracketShape
from layout.parts.cooling.fan import Fan
from layout.parts.cooling.liquid_cooler import LiquidCooler
from layout.parts.cooling.radiator import PortEnd, Radiator
from layout.parts.cooling.tower_cooler import TowerCooler
from layout.parts.cooling.twin_tower import TwinTower
from layout.parts.drives.cage import Cage
from layout.parts.drives.drive import Drive, DriveShape
from layout.parts.form.connector import ConnectorKind
from layout.parts.form.form import PlugShape
from layout.parts.kinds.kinds import Spec
from layout.parts.kinds.places import Place
from layout.parts.supply.supply import Supply
from layout.parts.wiring.adapter import Adapter
from layout.questions.findings.advice import spoken
from layout.questions.findings.answered import listed
from layout.questions.mending.sizes import SMALLER, Size
from layout.standards.cards import LOW_HEIGHT
from layout.values import dataclass

__all__ = [
    "Change",
    "Known",
    "angled",
    "angled_on",
    "both",
    "low_brackets",
    "placed",
    "sized",
    "taken_out",
    "turned",
]

Known = Sequence[tuple[str, Spec]]
"""Parts with their descriptions."""


@dataclass(frozen=True, slots=True)
class Change:
    """Parts described otherwise, None for what is taken out, and that in words."""

    parts: tuple[tuple[str, Spec | None], ...]
    told: str


def both(first: Change, second: Change) -> Change:
    """Return two changes at once."""
    return Change((*first.parts, *second.parts), f"{first.told}, and {second.told}")


def turned(keys: Known) -> Iterator[Change]:
    """Yield every radiator where it is, its ports at the other end."""
    for key, now in keys:
        radiator = now.radiator if isinstance(now, LiquidCooler) else now
        if not isinstance(radiator, Radiator):
            continue
        (end,) = {*PortEnd} - {radiator.ports}
        other = replace(radiator, ports=end)
        spec = replace(now, radiator=other) if isinstance(now, LiquidCooler) else other
        own = spoken(key if now is radiator else f"{key}/radiator")
        told = f"turn {own} end for end (ports: {end.value})"
        yield Change(((key, spec),), told)


def placed(key: str, now: Spec, places: Sequence[Place]) -> Iterator[Change]:
    """Yield a part at every other place that it could have."""
    for name, spec in places:
        known_slots = isinstance(now, Memory) and now.slot is None
        if spec is not None and spec != now and not known_slots:
            yield Change(((key, spec),), _moved(key, now, spec, name=name))


def taken_out(keys: Known, carried: Sequence[Sequence[str]]) -> Iterator[Change]:
    """Yield every cage taken out, with what it carries."""
    for (key, now), load in zip(keys, carried, strict=True):
        if isinstance(now, Cage):
            others = [each for each in load if each != key]
            also = f", and with it {' and '.join(map(spoken, others))}" * bool(others)
            gone = tuple((each, None) for each in (*others, key))
            yield Change(gone, f"take {spoken(key)} out{also}")


def angled(keys: Known) -> Iterator[Change]:
    """Yield cards and drives with angled plugs, and adapters that look otherwise."""
    for key, now in keys:
        if isinstance(now, Card):
            straight = now.plug_shape is PlugShape.STRAIGHT
            if straight and now.plug is not PlugAt.NONE and now.adapter is None:
                spec: Spec = replace(now, plug_shape=PlugShape.ANGLED)
                told = f"take an angled plug or adapter for {spoken(key)}"
                yield Change(((key, spec),), told)
        if isinstance(now, Drive) and now.plug is PlugShape.STRAIGHT:
            spec = replace(now, plug=PlugShape.ANGLED)
            yield Change(((key, spec),), f"take angled plugs for {spoken(key)}")
        if isinstance(now, Card | Board):
            for told, spec in _looking_otherwise(now):
                yield Change(((key, spec),), f"{told} of {spoken(key)}")


def _looking_otherwise(now: Card | Board) -> Iterator[tuple[str, Spec]]:
    """Yield a part with each of its adapters looking the other way, and that told."""
    if isinstance(now, Card):
        if now.adapter is not None:
            other: Adapter = replace(now.adapter, looks=now.adapter.looks.opposite)
            spec: Spec = replace(now, adapter=other)
            yield f"take an adapter that looks {other.looks.value} for the plug", spec
        return
    for k, each in enumerate(now.adapters):
        turned = replace(each, looks=each.looks.opposite)
        more = now.adapters[:k], now.adapters[k + 1 :]
        spec = replace(now, adapters=(*more[0], turned, *more[1]))
        what = f"the {each.kind.value} plug"
        yield f"take an adapter that looks {turned.looks.value} for {what}", spec


def low_brackets(keys: Known) -> Iterator[Change]:
    """Yield low cards on the short bracket that comes with them."""
    for key, now in keys:
        if not isinstance(now, Card) or now.height.mm > LOW_HEIGHT.mm:
            continue
        if now.bracket is BracketShape.FULL:
            spec = replace(now, bracket=BracketShape.LOW)
            told = f"put the low bracket on {spoken(key)}"
            yield Change(((key, spec),), told)


def angled_on(key: str, now: Board, kinds: Sequence[ConnectorKind]) -> Change | None:
    """Return a board with right-angle plugs of some kinds; None where it has them."""
    words = [each.value for each in kinds if each in ANGLED]
    more = [each for each in words if each not in now.angled_plugs]
    if not more:
        return None
    spec = replace(now, angled_plugs=(*now.angled_plugs, *more))
    plugs = "a right-angle plug or adapter" if len(more) == 1 else "right-angle plugs"
    told = (
        f"take {plugs} for the {listed(more)} of {spoken(key)} "
        f"('angled plugs: [{', '.join(spec.angled_plugs)}]')"
    )
    return Change(((key, spec),), told)


def sized(plan: Plan, size: Size) -> Change:
    """Return a part of a smaller size; of several of its kind it is named."""
    key, dimension, mm = size
    now = next(each.spec for each in plan.entries if each.key == key)
    what = "a radiator" if dimension.name.startswith("radiator") else _noun(now)
    alike = [each for each in plan.entries if each.spec.kind == now.kind]
    of = f" for {spoken(key)}" if len(alike) > 1 else ""
    told = f"take {what} of {mm:g} mm or {SMALLER[dimension.name]}{of}"
    return Change(((key, dimension.with_mm(mm)),), told)


_VERBS: Final = {
    "cage": "move {} to its position '{}'",
    "fan": "move {} to the mount: {}",
    "radiator": "move {} to the mount: {}",
    "liquid cooler": "move {} with its radiator to the mount: {}",
    "supply": "turn {} over: {}",
    "card": "put {} into {}",
    "memory": "put {} into {}",
    "low cooler": "have {} {}",
}


def _moved(key: str, now: Spec, spec: Spec, *, name: str) -> str:
    if isinstance(spec, Drive) and isinstance(now, Drive):
        framed = ", in a frame for a 5.25 in bay" if _is_framed(spec) else ""
        return f"put {spoken(key)} into {name}{framed}"
    if isinstance(spec, Supply) and isinstance(now, Supply):
        looks = spec.intake.direction() if spec.intake else None
        was = now.intake.direction() if now.intake else None
        if looks and was and looks.axis is not was.axis:
            return f"turn {spoken(key)} by a quarter: {name}"
    if name.startswith("turned to"):
        return f"have {spoken(key)} {name}"
    if isinstance(spec, TowerCooler | TwinTower):
        fan, raised = spoken(f"{key}/front fan"), spec.fan_raise
        if raised is None or raised.mm == 0.0:
            return f"leave {fan} at its lowest"
        return f"have {fan} raised by {raised.mm:g} mm"
    return _VERBS.get(spec.kind, "move {} to {}").format(spoken(key), name)


def _is_framed(drive: Drive) -> bool:
    """Tell whether a drive stands in a bay that is made for larger ones."""
    in_bay = drive.place is not None and drive.place.startswith("bay ")
    return in_bay and drive.size is not DriveShape.BAY


def _noun(spec: Spec) -> str:
    if spec.kind == "memory":
        return "memory"
    if isinstance(spec, M2Drive):
        return "an M.2 drive with its heatsink"
    if isinstance(spec, Fan) and spec.count > 1:
        return "fans"
    return (
        "a cooler"
        if "cooler" in spec.kind or "tower" in spec.kind
        else f"a {spec.kind}"
    )
