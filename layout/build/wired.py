"""Which cable is in which plug, where the supply says how its own are made."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace

from layout.build.placed import PlacedLead, PlacedPlug
from layout.parts.connector import ConnectorKind
from layout.parts.leads import CABLES

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
    made = tuple(
        replace(each, plug=replace(each.plug, cable=own[each.plug.kind]))
        if each.plug.kind in own
        else each
        for each in plugs
    )
    return tuple(_used(made, leads))


def _used(
    plugs: Sequence[PlacedPlug], leads: Sequence[PlacedLead]
) -> Iterator[PlacedPlug]:
    """Yield the plugs, those at a supply spare but for as many as are needed."""
    left = {
        (each.part, kind): _needed(each, plugs)
        for each in leads
        if not each.lead.from_plug
        for kind in each.lead.kinds
    }
    fields = {part for part, _ in left}
    for each in plugs:
        key = (each.part, each.plug.kind)
        if each.part not in fields:
            yield each
            continue
        count = left.get(key, 0)
        left[key] = count - 1
        yield each if count > 0 else replace(each, plug=replace(each.plug, spare=True))


def _needed(lead: PlacedLead, plugs: Sequence[PlacedPlug]) -> int:
    """Return how many such leads a build needs; of the main one there is always one."""
    fed = {
        (each.name, each.plug.kind): each.plug.sockets
        for each in plugs
        if each.part != lead.part and each.plug.kind in lead.lead.kinds
    }
    thickest = ConnectorKind.MAIN in lead.lead.kinds
    return max(int(thickest), math.ceil(sum(fed.values()) / lead.lead.plugs))
