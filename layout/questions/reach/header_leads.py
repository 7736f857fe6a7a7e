"""The leads that end in plugs for a board's headers, and where each may leave."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import product
from typing import Final, TypeAlias

from layout.build.placed import Build, PlacedBody
from layout.geometry.space import Vector
from layout.parts.form.connector import ConnectorKind
from layout.parts.form.form import Role
from layout.parts.wiring.front_leads import USUAL_FRONT
from layout.parts.wiring.hookup import Hookup, family_of
from layout.questions.clearances.asked import CASE
from layout.questions.findings.passages import OFF_MM
from layout.standards.figure import Figure
from layout.values import dataclass

__all__ = ["FANS", "HeaderLead", "header_leads"]

FANS: Final = family_of(ConnectorKind.FAN_4)
"""Plugs of fans, which share headers."""
_TURNING: Final = frozenset({Role.FAN, Role.COOLER_FAN})


@dataclass(frozen=True, slots=True, kw_only=True)
class HeaderLead:
    """A lead that ends in a plug for a board's header.

    Parameters
    ----------
    part, name : str
        The part it belongs to, and the body it leaves.
    kind : ConnectorKind
        The plug it ends in.
    entry : str
        The field of its part that tells its length.
    starts_mm : tuple of Vector
        Where it may leave: a fan is turned so that its lead comes out where it is
        wanted, and of fans in a chain any may be the last.
    usual : bool
        Whether the file says nothing of the plug.
    """

    part: str
    name: str
    kind: ConnectorKind
    length: Figure
    entry: str
    starts_mm: tuple[Vector, ...]
    usual: bool


def header_leads(build: Build) -> tuple[HeaderLead, ...]:
    """Return every lead of fans, pumps, lights and the case's front.

    Where a case file lists no plugs of its front, the usual ones are taken.
    """
    return tuple(
        lead
        for part, hookup in build.hookups
        if hookup.leads and (hookup.from_mm is not None or not hookup.outlets)
        for lead in _of_part(build, part, hookup)
    )


def _of_part(build: Build, part: str, hookup: Hookup) -> Iterator[HeaderLead]:
    front = part == CASE
    demands = hookup.demands or (USUAL_FRONT if front else ())
    lengths = {kind: (figure, entry) for kind, figure, entry in hookup.leads}
    for kind, count in demands:
        if kind not in lengths:
            continue
        own = [each for each in build.bodies if each.part == part]
        for name, starts_mm, pump in _sources(part, hookup, own, needs=(kind, count)):
            length, entry = lengths[kind]
            if pump and hookup.pump_lead is not None:
                length, entry = hookup.pump_lead, "pump lead"
            yield HeaderLead(
                part=part,
                name=name,
                kind=kind,
                length=length,
                entry=entry,
                starts_mm=starts_mm,
                usual=hookup.usual or (front and not hookup.demands),
            )


_Source: TypeAlias = tuple[str, tuple[Vector, ...], bool]
"""The body a lead leaves, where it may, and whether that is a pump."""


def _sources(
    part: str,
    hookup: Hookup,
    own: Sequence[PlacedBody],
    *,
    needs: tuple[ConnectorKind, int],
) -> Iterator[_Source]:
    """Yield where each lead of a kind starts.

    A pump has the first plug for fans; fewer plugs than fans are those of chains.
    """
    kind, count = needs
    if hookup.from_mm is not None:
        yield from [(part, (hookup.from_mm,), False)] * count
        return
    fans = [each for each in own if each.role in _TURNING]
    pumps = [each for each in own if each.role is Role.PUMP_BLOCK]
    if kind in FANS and hookup.pump_lead is not None and pumps and count:
        yield pumps[0].name, _corners(pumps[:1]), True
        count -= 1
    fans = fans or pumps or [*own]
    for number in range(count if fans else 0):
        alone = count >= len(fans)
        last = [fans[min(number, len(fans) - 1)]] if alone else fans
        yield last[0].name if alone else part, _corners(last), False


def _corners(bodies: Sequence[PlacedBody]) -> tuple[Vector, ...]:
    """Return the corners of bodies, off each by half a lead."""
    out: list[Vector] = []
    for each in bodies:
        low, high = each.body.bounds.low, each.body.bounds.high
        x, y, z = ((a - OFF_MM, b + OFF_MM) for a, b in zip(low, high, strict=True))
        out += product(x, y, z)
    return tuple(out)
