"""What a finding without a length rests on: what is needed, what is there."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import Final, TypeAlias

from layout.build.placed import Build, Fixing
from layout.parts.card.card_support import REACHES, ROOM_UNDER
from layout.parts.form.connector import ConnectorKind
from layout.parts.form.form import SeatSort
from layout.parts.form.screws import Screws
from layout.parts.wiring.hookup import Counts, Hookup, family_of
from layout.questions.findings.explanation import Account, Fact
from layout.questions.findings.finding import Finding, Group
from layout.questions.hookup.hookup import REFUSED, kind_of
from layout.standards.figure import COMMON_PRACTICE

__all__ = ["account"]

_FILE: Final = "given in the file"
_Kinds: TypeAlias = frozenset[ConnectorKind]

_UNSAID: Final = "the file says nothing: taken for granted"


def account(build: Build, number: int, finding: Finding) -> Account:
    """Return what is needed and what is there, for a finding without a length."""
    facts = [
        *_hookup(build, finding),
        *_fixings(build, finding),
        *_post(build, finding),
    ]
    told = {fact.what for fact in facts}
    facts += [
        Fact(owner=owner, what=what.strip(), source="assumed", assumed=True)
        for owner, _, what in (each.partition(":") for each in finding.assumed)
        if what.strip() not in told
    ]
    return Account(build=build.name, number=number, finding=finding, facts=tuple(facts))


def _post(build: Build, finding: Finding) -> Iterator[Fact]:
    """Yield how high a post can be set, and what lies under its card."""
    if finding.gap_mm is None:
        return
    stated = {k: v for e in build.parts if e.key == finding.a for k, v in e.stated}
    if REACHES in stated:
        reach = f"sets to {stated[REACHES].mm:.1f} mm"
        yield Fact(owner=finding.a, what=reach, source=stated[REACHES].source)
        room = f"{stated[ROOM_UNDER].mm:.1f} mm lie under it"
        yield Fact(owner=finding.b or "", what=room, source="what stands below it")


def _hookup(build: Build, finding: Finding) -> Iterator[Fact]:
    """Yield every plug and socket of the finding's kind, whose it is, who says so."""
    if finding.group is not Group.HOOKUP:
        return
    kinds = _kinds(finding, dict(build.hookups)[finding.a.partition("/")[0]])
    for owner, each in build.hookups:
        yield from _wanted(owner, each, kinds)
        yield from _offered(owner, each, kinds)


def _kinds(finding: Finding, own: Hookup) -> _Kinds:
    """Return which plugs and sockets a finding is about."""
    kind = kind_of(finding.rule)
    if kind is not None:
        return family_of(kind)
    if finding.rule == REFUSED:
        return frozenset(each for _, each, _ in own.refused)
    if own.outlets is not None:
        return family_of(own.outlets.kind)
    return frozenset(each for each, _ in own.demands)


def _wanted(owner: str, hookup: Hookup, kinds: _Kinds) -> Iterator[Fact]:
    """Yield what a part has that looks for a socket or a lead."""
    usual = "usual for its kind: the file says nothing" if hookup.usual else _FILE
    if needed := _told(hookup.demands, kinds):
        what = f"needs {needed}"
        yield Fact(owner=owner, what=what, source=usual, assumed=hookup.usual)
    if free := _told(hookup.spare, kinds):
        yield Fact(owner=owner, what=f"may leave empty {free}", source=_FILE)


def _offered(owner: str, hookup: Hookup, kinds: _Kinds) -> Iterator[Fact]:
    """Yield what a part has for the plugs of others."""
    unsaid = hookup.unsaid & kinds
    if there := _told(hookup.offers, kinds):
        yield Fact(owner=owner, what=f"has {there}", source=_FILE)
    elif hookup.provides & kinds and not unsaid:
        none = f"has none of {_any(hookup.provides & kinds)}"
        yield Fact(owner=owner, what=none, source=_FILE)
    if unsaid:
        granted = f"has what is wanted of {_any(unsaid)}"
        yield Fact(owner=owner, what=granted, source=_UNSAID, assumed=True)
    if hookup.outlets is not None and hookup.outlets.kind in kinds:
        bears = hookup.outlets.bears_ma
        most = f", {bears} mA in all" if bears is not None else ""
        out = f"gives {hookup.outlets.count} x {hookup.outlets.kind.value}{most}"
        yield Fact(owner=owner, what=out, source=_FILE)
    for whose, refused, count in hookup.refused:
        if refused in kinds:
            lead = f"has {count} x {refused.value} made for {whose}: refused"
            yield Fact(owner=owner, what=lead, source=_FILE)


def _told(counts: Counts, kinds: Iterable[ConnectorKind]) -> str:
    among = {*kinds}
    return ", ".join(f"{n} x {kind.value}" for kind, n in counts if kind in among and n)


def _any(kinds: Iterable[ConnectorKind]) -> str:
    return " or ".join(sorted(each.value for each in kinds))


def _fixings(build: Build, finding: Finding) -> Iterator[Fact]:
    """Yield a part's holes and kits, and those of its seat."""
    if finding.group is not Group.HOLES:
        return
    part = finding.a.partition("/")[0]
    for fixing in build.fixings:
        if fixing.part != part:
            continue
        kits = finding.rule == "cooler-kit"
        if kits != (fixing.sort is SeatSort.COOLER):
            continue
        if fixing.own is not None:
            yield _pattern(part, fixing.own)
        if fixing.theirs is not None:
            yield _pattern(f"{fixing.host}, {fixing.seat}", fixing.theirs)
        yield from _kits(fixing)


def _pattern(owner: str, screws: Screws) -> Fact:
    holes = f", {len(screws.holes)} holes" if screws.holes else ""
    return Fact(
        owner=owner,
        what=f"holes of {screws.name}{holes}",
        source=_FILE if screws.given else COMMON_PRACTICE,
    )


def _kits(fixing: Fixing) -> Iterator[Fact]:
    if fixing.sort is not SeatSort.COOLER:
        return
    if fixing.kits is None:
        what = "holds the kit for the board's socket"
        yield Fact(owner=fixing.part, what=what, source=_UNSAID, assumed=True)
    for kit in fixing.kits or ():
        known = f"{kit.known.value}, {_FILE}"
        yield Fact(owner=fixing.part, what=f"a kit for {kit.socket}", source=known)
    if fixing.kits == ():
        yield Fact(owner=fixing.part, what="no kit", source=_FILE)
