"""Whether a supply has a socket for every lead that the build needs of it."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from types import MappingProxyType
from typing import Final, TypeAlias

from layout.parts.form.connector import ConnectorKind
from layout.parts.wiring.hookup import EIGHT_PINS, POWER, Fed, Hookup
from layout.questions.findings.advice import spoken
from layout.questions.findings.answered import Answered, finding_of, joined, listed
from layout.questions.findings.finding import Group, ToOrder, Verdict

__all__ = ["supply_sockets"]

_Kind = ConnectorKind

_Hookups: TypeAlias = Sequence[tuple[str, Hookup]]
_Wanted: TypeAlias = Counter[ConnectorKind]


def supply_sockets(hookups: _Hookups) -> Answered:
    """Return what lacks at a supply whose sockets the file counts.

    Only leads that the build needs are plugged in, those that must be ordered for it
    too: those of a box that nothing asks for stay there.  A file that lists no leads
    has as many usual ones as are needed.
    Plugs of 8 contacts for processor and card share their sockets at the supply, as on
    nearly every one; common practice, no source.
    """
    wanted = _plugs_wanted(hookups)
    found = [
        (part, lacks, _USUAL_LEADS if each.unsaid else "")
        for part, each in hookups
        if each.sockets is not None and (lacks := list(_lacks(each, wanted)))
    ]
    return joined([_lacking(*each) for each in found])


def _plugs_wanted(hookups: _Hookups) -> _Wanted:
    """Return how many plugs of each kind leads must bring, less what adapters give."""
    wanted: _Wanted = Counter()
    for _, each in hookups:
        wanted.update({kind: n for kind, n in each.demands if kind in POWER})
    for _, each in hookups:
        if each.outlets and each.outlets.kind in POWER:
            wanted[each.outlets.kind] -= each.outlets.count
    return +wanted


def _lacks(hookup: Hookup, wanted: _Wanted) -> Iterator[str]:
    """Yield which sockets are fewer than the leads that are needed take."""
    there = Counter(dict(hookup.sockets or ()))
    taken = _taken(hookup.fed, wanted)
    pools = [EIGHT_PINS, *(frozenset({k}) for k in _Kind if k not in EIGHT_PINS)]
    for kinds in pools:
        needs, has = (sum(each[k] for k in kinds) for each in (taken, there))
        if needs > has:
            what = " or ".join(each.value for each in _Kind if each in kinds)
            yield f"{needs} for {what}, where it has {has or 'none'}"


_USUAL_LEADS: Final = "; two plugs on a lead for cards, three for drives assumed"


def _taken(fed: Sequence[Fed], wanted: _Wanted) -> Mapping[ConnectorKind, int]:
    """Return how many sockets the leads that are needed take, by kind."""
    left, taken = Counter(wanted), Counter[ConnectorKind]()
    # A 6-pin lead is none for 8 contacts: what it leaves goes to those of 8.
    for lead in sorted(fed, key=lambda each: each.plug is _Kind.CARD_8):
        for _ in range(lead.count):
            kind = lead.plug
            if kind is _Kind.CARD_8 and not left[kind]:
                kind = _Kind.CARD_6
            if left[kind] <= 0:
                break
            left[kind] -= lead.plugs
            taken[lead.socket] += lead.takes
    for kind, plugs in _AT_MOST.items():  # leads that are still to be ordered
        taken[kind] += math.ceil(max(0, left[kind]) / plugs)
    return taken


_AT_MOST: Final = MappingProxyType(
    {_Kind.PROCESSOR: 1, _Kind.CARD_8: 2, _Kind.CARD_6: 2, _Kind.DRIVE_POWER: 3}
)
"""Plugs on a lead that is to be ordered, at most; common practice, no source."""


def _lacking(part: str, lacks: Sequence[str], assumed: str) -> Answered:
    found = finding_of(
        "supply-sockets",
        Group.HOOKUP,
        (part, None),
        verdict=Verdict.MISSING,
        why=f"the leads that the build needs take sockets at the supply: "
        f"{listed([*lacks])}{assumed}",
        advice=f"{spoken(part)} has too few sockets for the leads that the build "
        f"needs ({listed([*lacks])}): take its own leads with more plugs on each, or "
        "a supply with more sockets",
    )
    order = ToOrder(what="supply with more sockets", owner=part)
    return Answered(findings=(found,), to_order=(order,))
