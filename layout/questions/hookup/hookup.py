"""The hook-up: every plug has a socket, every socket that needs it a lead."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from types import MappingProxyType
from typing import Final

from layout.build.placed import Build
from layout.parts.form.connector import ConnectorKind
from layout.parts.wiring.front_leads import USUAL_FRONT
from layout.parts.wiring.hookup import POWER, Counts, Hookup
from layout.questions.clearances.asked import CASE
from layout.questions.findings.advice import spoken, whose
from layout.questions.findings.answered import Answered, finding_of, joined, listed
from layout.questions.findings.finding import Group, ToOrder, Verdict
from layout.questions.hookup.ledger import Lack, Ledger, ledger
from layout.questions.hookup.loads import HEADER_MA, Load
from layout.questions.hookup.remedies import HUB, caution, to_order
from layout.questions.hookup.supply_sockets import supply_sockets

__all__ = ["REFUSED", "hookup", "kind_of"]

_LOAD: Final = "splitter-load"
REFUSED: Final = "lead-of-another-supply"

_Kind = ConnectorKind

_RULES: Final[Mapping[ConnectorKind, str]] = MappingProxyType(
    {
        _Kind.MAIN: "main-power",
        _Kind.PROCESSOR: "processor-power",
        _Kind.CARD_8: "card-power-8",
        _Kind.CARD_6: "card-power-6",
        _Kind.CARD_16: "card-power-16",
        _Kind.DRIVE_POWER: "drive-power",
        _Kind.DRIVE_DATA: "drive-data",
        _Kind.FAN_3: "fan-3-pin",
        _Kind.FAN_4: "fan-4-pin",
        _Kind.LIGHT_5V: "light-5-v",
        _Kind.LIGHT_12V: "light-12-v",
        _Kind.USB_9: "usb-9-pin",
        _Kind.USB_19: "usb-19-pin",
        _Kind.USB_20: "usb-20-pin",
        _Kind.FRONT_PANEL: "front-panel",
        _Kind.AUDIO: "front-audio",
    }
)
"""Name of the rule by what lacks: each kind of a part is a finding of its own."""

_USUAL_MOST: Final[Mapping[ConnectorKind, int]] = MappingProxyType(
    {
        _Kind.PROCESSOR: 2,
        _Kind.CARD_8: 4,
        _Kind.CARD_16: 1,
        _Kind.DRIVE_POWER: 8,
        _Kind.DRIVE_DATA: 6,
        _Kind.FAN_3: 6,
        _Kind.FAN_4: 6,
        _Kind.LIGHT_5V: 3,
        _Kind.LIGHT_12V: 2,
        _Kind.USB_9: 2,
        _Kind.USB_19: 2,
        _Kind.USB_20: 1,
    }
)
"""More than this of one kind is not taken for granted without a word; common practice,
no source."""


def kind_of(rule: str) -> ConnectorKind | None:
    """Return the kind whose lack a rule tells; None for rules on several."""
    return next((kind for kind, name in _RULES.items() if name == rule), None)


def hookup(build: Build, *, every: bool) -> Answered:
    """Return what finds no socket, and what was taken for granted.

    ``every`` adds a clear finding for each part whose plugs all find one.
    """
    found = ledger(build.hookups)
    answers = [
        *map(_lacking, found.lacks),
        *((_overloaded if each.sure else _doubted)(each) for each in found.loads),
        *_heavy(build),
        supply_sockets(build.hookups),
        *(_refused(part, each) for part, each in build.hookups if each.refused),
        Answered(notes=tuple(_notes(build, found))),
    ]
    return joined([*answers, *(_met(build, found) if every else ())])


def _lacking(lack: Lack) -> Answered:
    count, what = to_order(lack)
    order_it = f"{_wrong(lack)}: order {count} x {what}"
    advice = "; ".join(filter(None, (order_it, caution(lack))))
    found = finding_of(
        _RULES[lack.kind],
        Group.HOOKUP,
        (lack.part, None),
        verdict=Verdict.MISSING,
        why=_why(lack),
        advice=advice,
        assumed=_assumed(lack),
    )
    order = ToOrder(count=count, what=what, owner=lack.part)
    return Answered(findings=(found,), to_order=(order,))


def _assumed(lack: Lack) -> tuple[str, ...]:
    told = f"{lack.part}: plugs as usual, {lack.of} x {lack.kind.value}"
    return (told,) if lack.usual else ()


def _why(lack: Lack) -> str:
    """Return what lacks and what there is."""
    there = {0: "there is none", 1: "the only one is taken"}.get(
        lack.there, f"all {lack.there} are taken"
    )
    return f"{_of(lack, 'its')}: {there}"


def _wrong(lack: Lack) -> str:
    return _of(lack, whose(lack.part))


def _of(lack: Lack, owner: str) -> str:
    """Return which of the owner's plugs or sockets finds none.

    A plug looks for a socket, a socket that is fed for a lead.
    """
    have, find = ("socket", "lead") if lack.kind in POWER else ("plug", "socket")
    verb = "finds" if lack.count == 1 else "find"
    if lack.of == 1:
        return f"{owner} {have} ({lack.kind.value}) {verb} no {find}"
    every = "both" if lack.of == 2 else f"all {lack.of}"
    some = f"{lack.count} of {owner} {lack.of} {have}s"
    if lack.count == lack.of:
        some = f"{every} of {owner} {have}s"
    return f"{some} ({lack.kind.value}) {verb} no {find}"


def _overloaded(load: Load) -> Answered:
    told = f"{load.fans} {load.of} draw {load.draws_ma} mA, it bears {load.bears_ma}"
    hub = HUB if load.of == "fans" else "light controller fed by drive power"
    found = finding_of(
        _LOAD,
        Group.HOOKUP,
        (load.part, None),
        verdict=Verdict.MISSING,
        why=f"its {told}",
        advice=f"{spoken(load.part)} bears too little for its {load.of}: share them "
        f"out over more sockets of the board, or order 1 x {hub}",
    )
    order = ToOrder(what=hub, owner=load.part)
    return Answered(findings=(found,), to_order=(order,))


def _refused(part: str, hookup: Hookup) -> Answered:
    """Refuse leads of another supply; what then lacks is told where it lacks."""
    leads = listed(
        [f"{count} x {kind.value} of {owner}" for owner, kind, count in hookup.refused]
    )
    one = sum(count for _, _, count in hookup.refused) == 1
    of_another, them = ("a lead", "it") if one else ("leads", "them")
    found = finding_of(
        REFUSED,
        Group.HOOKUP,
        (part, None),
        verdict=Verdict.MISSING,
        why=f"a lead of another supply is refused: {leads}",
        advice=f"{spoken(part)} has {of_another} of another supply ({leads}): leave "
        f"{them} out and take its own; the same plug may be wired otherwise and "
        "destroy what it feeds",
    )
    return Answered(findings=(found,))


def _notes(build: Build, found: Ledger) -> Iterator[str]:
    for part, counts in found.granted:
        fed = any(kind in POWER for kind, _ in counts)
        yield f"{part}: {'leads' if fed else 'sockets'} for {_told(counts)}"
    for part, kind, count in found.idle:
        yield (
            f"{part}: {count} x {kind.value} may stay empty (most boards start "
            "without it, see the manual)"
        )
    yield from _unsaid(build)


def _heavy(build: Build) -> Iterator[Answered]:
    """Yield chains of fans that draw more than a header usually bears."""
    for part, each in build.hookups:
        if each.draws_ma is not None and each.draws_ma > HEADER_MA:
            yield _confirmed(
                "header-load",
                part,
                f"its fans draw {each.draws_ma} mA through one plug, where a header "
                f"bears {HEADER_MA} as usual",
                assumed=f"a fan header bears {HEADER_MA} mA",
                read="read the board's manual",
            )


def _doubted(load: Load) -> Answered:
    """Return a splitter that bears too much by usual figures: labels tell."""
    bears = "it bears " if load.stated else ""
    usual = "" if load.stated else " are usual"
    return _confirmed(
        _LOAD,
        load.part,
        f"its {load.fans} {load.of} may be too many: they draw {load.draws_ma} mA at "
        f"{load.usual_ma} each where none is told, where {bears}{load.bears_ma}{usual}",
        assumed=f"{load.of} draw {load.usual_ma} mA each where none is told",
        read="read the labels",
    )


def _confirmed(rule: str, part: str, told: str, *, assumed: str, read: str) -> Answered:
    """Return what is not wrong by any figure of the file, but must be looked up."""
    found = finding_of(
        rule,
        Group.HOOKUP,
        (part, None),
        verdict=Verdict.CLEAR,
        why=told,
        advice=f"confirm before ordering: {spoken(part)}, {told}: {read}",
        assumed=(f"{part}: {assumed}",),
    )
    return Answered(findings=(found,))


def _unsaid(build: Build) -> Iterator[str]:
    """Yield what a part says nothing of while others do."""
    every = dict(build.hookups)
    headers_told = any(each.provides and each.offers for each in every.values())
    for part, each in build.hookups:
        if part == CASE and not each.demands and headers_told:
            yield f"{part}: {_front_untold(every.values())}"
        if each.usual and not each.demands:
            yield f"{part}: its power plugs find their leads"


def _front_untold(hookups: Iterable[Hookup]) -> str:
    """Return what is taken of a front's plugs that no file lists."""
    there = {kind for each in hookups for kind, count in each.offers if count}
    there |= {kind for each in hookups for kind in each.unsaid}
    lacks = [kind.value for kind, _ in USUAL_FRONT if kind not in there]
    if not lacks:
        return "its front panel's plugs find their sockets"
    return (
        f"a usual front's {listed(lacks)} finds no socket: look which plugs its front "
        "has, and list them ('leads' of the case)"
    )


def _told(counts: Counts) -> str:
    return ", ".join(
        (f"{count} x " if count > 1 else "")
        + kind.value
        + (" (more than usual: count them)" if count > _most(kind) else "")
        for kind, count in counts
    )


def _most(kind: ConnectorKind) -> int:
    return _USUAL_MOST.get(kind, 1)


def _met(build: Build, found: Ledger) -> Iterable[Answered]:
    """Yield a clear finding for each part of which nothing lacks."""
    lacking = {each.part for each in found.lacks}
    for part, each in build.hookups:
        demands = [f"{count} x {kind.value}" for kind, count in each.demands if count]
        if demands and part not in lacking:
            clear = finding_of(
                "plugged-in",
                Group.HOOKUP,
                (part, None),
                verdict=Verdict.CLEAR,
                why=f"every plug has its socket, every socket its lead: "
                f"{', '.join(demands)}",
                assumed=(f"{part}: {', '.join(demands)}",) if each.usual else (),
            )
            yield Answered(findings=(clear,))
