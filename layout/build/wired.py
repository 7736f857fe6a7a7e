"""Which cable is in which plug, where the supply says how its own are made."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from typing import Final

from layout.build.placed import PlacedLead, PlacedPlug
from layout.parts.form.cable import Cable
from layout.parts.form.connector import ConnectorKind
from layout.parts.wiring.hookup import EIGHTS_OF_16
from layout.parts.wiring.leads import CABLES

__all__ = ["wired"]


def wired(
    plugs: Iterable[PlacedPlug], leads: Iterable[PlacedLead]
) -> tuple[PlacedPlug, ...]:
    """Return the plugs, those that the supply feeds with its own sort of cable.

    Sockets of a supply's field that no lead is needed in are marked as spare.
    """
    plugs, leads = tuple(plugs), tuple(leads)
    own = {
        kind: replace(CABLES[kind], form=each.lead.form, rule=each.lead.rule)
        for each in leads
        if not each.lead.from_plug
        for kind in each.lead.kinds
    }
    made = tuple(_with_cable(each, own.get(each.plug.kind)) for each in plugs)
    return tuple(_used(made, leads))


def _with_cable(placed: PlacedPlug, cable: Cable | None) -> PlacedPlug:
    if cable is None or placed.plug.cable == cable:
        return placed
    return replace(placed, plug=replace(placed.plug, cable=cable))


def _used(
    plugs: Sequence[PlacedPlug], leads: Sequence[PlacedLead]
) -> Iterator[PlacedPlug]:
    """Yield the plugs, those at a supply spare but for as many as are needed."""
    left = {
        (each.part, kind): count
        for each in leads
        if not each.lead.from_plug
        for kind, count in _needed(each, plugs).items()
    }
    fields = {part for part, _ in left}
    for each in plugs:
        key = (each.part, each.plug.kind)
        if each.part not in fields:
            yield each
            continue
        count = left.get(key, 0)
        left[key] = count - 1
        used = count > 0 or each.plug.spare
        yield each if used else replace(each, plug=replace(each.plug, spare=True))


def _needed(lead: PlacedLead, plugs: Sequence[PlacedPlug]) -> dict[ConnectorKind, int]:
    """Return how many sockets its leads take at their supply, by kind.

    Of the main one there is always one.  A 12V-2x6 lead takes one of its own kind,
    or two of 8 contacts where its supply has none; a 6-pin lead one of 8.
    """
    fed = {
        (each.name, each.plug.kind): each.plug.sockets
        for each in plugs
        if each.part != lead.part and each.plug.kind in lead.lead.kinds
    }
    wanted = Counter[ConnectorKind]()
    for (_, kind), count in fed.items():
        wanted[_SOCKETS.get(kind, kind)] += count
    taken = {
        kind: math.ceil(wanted[kind] / lead.lead.plugs) for kind in lead.lead.kinds
    }
    spread = taken.get(_Kind.CARD_16, 0)
    native = any(e.part == lead.part and e.plug.kind is _Kind.CARD_16 for e in plugs)
    if spread and not native:
        taken[_Kind.CARD_8] = taken.get(_Kind.CARD_8, 0) + EIGHTS_OF_16 * spread
    if _Kind.MAIN in taken:
        taken[_Kind.MAIN] = max(1, taken[_Kind.MAIN])
    return taken


_Kind = ConnectorKind
_SOCKETS: Final = {_Kind.CARD_6: _Kind.CARD_8}
