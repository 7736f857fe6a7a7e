"""Which bodies of a build may take room from a cable at all."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

import numpy as np
from numpy.typing import NDArray

from layout.build.placed import Build, PlacedBody
from layout.geometry.solids.cells import Floats, Ints
from layout.geometry.space import Axis
from layout.parts.form.form import Plug, Role
from layout.parts.wiring.plug import deep_mm, plug_body
from layout.questions.bends.cable_ways import Way

__all__ = ["in_the_way", "parted", "passes"]

_PLUGS = frozenset({Role.BOARD_CONNECTOR, Role.CARD_PLUG, Role.SUPPLY_LEADS})
"""Cables pass round one another's plugs."""
_OWN = frozenset({Role.REGULATOR_HEATSINK, Role.CHIPSET_HEATSINK})
"""What of a board itself may stand beside its plugs as high as they do."""


def parted(
    ends: tuple[Floats, Floats], ways: Ints, trays: Sequence[int]
) -> NDArray[np.bool_]:
    """Tell which bodies lie wholly on the tray's other side than each way.

    Parameters
    ----------
    ends : (array, array)
        Low and high ends along width of all in one crowd, mm.
    ways : array of int
        Their places there.
    trays : sequence of int
        Those of trays.
    """
    low, high = ends
    parted = np.zeros((len(ways), len(low)), bool)
    for tray in trays:
        behind, before = high <= low[tray], low >= high[tray]
        parted |= behind & before[ways][:, None] | before & behind[ways][:, None]
    return parted


def passes(way: Way) -> frozenset[Role]:
    """Return what takes no room from a cable, or is asked of it by another rule."""
    free = _PLUGS | way.plug.passes
    ahead_mm = deep_mm(way.plug, way.to, straight_mm=way.straight_mm) - way.plug.body_mm
    return free if ahead_mm > way.rule.elsewhere_mm else free | way.rule.asked_elsewhere


def in_the_way(build: Build, way: Way) -> NDArray[np.bool_]:
    """Tell which bodies take room from a cable."""
    free = passes(way)
    part = way.placed.part
    takes = _OWN if way.rule.on is not Role.CARD_PLUG else frozenset(Role)
    return np.array(
        [
            body.role not in free
            and body.role.is_matter
            and (
                body.part != part
                or (body.role in takes and not _stands_in(way.plug, body))
            )
            for body in build.bodies
        ]
    )


def _stands_in(plug: Plug, body: PlacedBody) -> bool:
    """Tell whether a plug would stand inside a body of its own part.

    Then the body, whose place is assumed, is not there: where figures of the file put
    both in one place, that is a finding of its own.
    """
    foot = plug_body(plug, _FOOT_MM)[0].bounds
    box = body.body.bounds
    k, out = plug.out.axis.index, plug.out.sign
    if out * (box.low if out > 0 else box.high)[k] >= out * plug.at_mm[k]:
        return False  # a cover over it
    across = [axis.index for axis in Axis if axis is not plug.out.axis]
    return all(foot.low[k] < box.high[k] and box.low[k] < foot.high[k] for k in across)


_FOOT_MM: Final = 1.0
