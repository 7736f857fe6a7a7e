"""Which cable is in which plug, where the supply says how its own are made."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from layout.build.placed import PlacedLead, PlacedPlug
from layout.parts.leads import CABLES

__all__ = ["wired"]


def wired(
    plugs: Iterable[PlacedPlug], leads: Iterable[PlacedLead]
) -> tuple[PlacedPlug, ...]:
    """Return the plugs, those that the supply feeds with its own sort of cable."""
    own = {
        kind: replace(CABLES[kind], form=each.lead.form, rule=each.lead.rule)
        for each in leads
        if not each.lead.from_plug
        for kind in each.lead.kinds
    }
    return tuple(
        replace(each, plug=replace(each.plug, cable=own[each.plug.kind]))
        if each.plug.kind in own
        else each
        for each in plugs
    )
