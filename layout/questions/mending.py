"""What mends a finding: the smallest change that does, tried and checked.

Another place, a fan raised, a part turned, another slot, an angled plug are tried in
turn, and if none helps the size to look for.  A change counts where the finding no
longer fails and no other finding of what moved is worse than before.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field, replace
from typing import Final, TypeAlias

from layout.build.errors import SeatError
from layout.build.placed import Build
from layout.build.plan import Plan
from layout.build.remade import Remaker
from layout.parts.card import Card, PlugAt
from layout.parts.dimensions import dimensions
from layout.parts.errors import PartError
from layout.parts.form import PlugShape
from layout.parts.kinds import Spec
from layout.parts.liquid_cooler import LiquidCooler
from layout.parts.m2_drive import M2Drive
from layout.parts.memory import Memory
from layout.parts.places import places
from layout.parts.radiator import PortEnd, Radiator
from layout.parts.tower_cooler import TowerCooler
from layout.parts.twin_tower import TwinTower
from layout.questions.advice import spoken
from layout.questions.asked import APART_REMEDIES, CASE, asked, question_id
from layout.questions.cables import Cables
from layout.questions.check import check, margins
from layout.questions.finding import Check, Finding, Verdict
from layout.questions.headroom import largest
from layout.questions.plug_rules import PLUG_RULES
from layout.questions.rules import NO_INTERFERENCE, RULES
from layout.questions.search import FINE_MM
from layout.questions.stated import STATED_LIMIT
from layout.questions.tolerance import ALLOWED_MM

__all__ = ["mended"]

_REMEDIES: Final = {
    **{each.name: (each.remedy,) for each in RULES},
    **{each.name: each.remedies for each in PLUG_RULES},
    NO_INTERFERENCE: APART_REMEDIES,
    "own-need": APART_REMEDIES,
}
_WORST: Final = (Verdict.SHORT, Verdict.CLASH)
_SMALLER: Final = {
    "length": "shorter",
    "height": "lower",
    "block height": "lower",
    "thickness": "thinner",
    "radiator thickness": "thinner",
    "radiator length": "shorter",
}
_MOST: Final = 5
"""Findings beyond these, the worst, keep their general advice."""


def mended(plan: Plan, found: Check) -> Check:
    """Return a check whose findings that fail say what would mend them.

    Parameters
    ----------
    plan : Plan
    found : Check
        Of this very plan.
    """
    # a stated limit says what size to look for itself
    bad = [
        each
        for each in found.findings
        if each.verdict in _WORST and each.rule != STATED_LIMIT
    ]
    if not bad:
        return found
    trials = _Trials(Remaker.of(plan), found)
    told = {each.id: trials.remedy(each) for each in bad[:_MOST]}
    findings = tuple(
        replace(each, advice=_with(each, remedy))
        if (remedy := told.get(each.id))
        else each
        for each in found.findings
    )
    return replace(found, findings=findings)


def _with(finding: Finding, remedy: str) -> str:
    """Return a finding's advice with what mends it, instead of what might."""
    for general in _REMEDIES.get(finding.rule, ()):
        if general in finding.advice:
            return finding.advice.replace(general, remedy)
    return f"{finding.advice}; {remedy}"


_Change: TypeAlias = tuple[str, Spec, str]
"""A part, its description with the change, and the change in words."""


def _turned_end_for_end(keys: Sequence[tuple[str, Spec]]) -> Iterator[_Change]:
    """Yield every radiator where it is, its ports at the other end."""
    for key, now in keys:
        radiator = now.radiator if isinstance(now, LiquidCooler) else now
        if not isinstance(radiator, Radiator):
            continue
        (end,) = {*PortEnd} - {radiator.ports}
        other = replace(radiator, ports=end)
        spec = replace(now, radiator=other) if isinstance(now, LiquidCooler) else other
        own = "" if now is radiator else f"{key}/radiator"
        yield (
            key,
            spec,
            f"turn {spoken(own or key)} end for end (ports: {end.value})",
        )


@dataclass(slots=True)
class _Trials:
    """Changes of a plan, each put in place and checked once."""

    remaker: Remaker
    before: Check
    cables: Cables = field(default_factory=Cables)
    _known: dict[tuple[str, Spec], Build | None] = field(default_factory=dict)
    _better: dict[tuple[str, Spec], Check] = field(default_factory=dict)

    def remedy(self, finding: Finding) -> str | None:
        """Return the first change that mends a finding and makes none worse."""
        for key, spec, told in self._changes(finding):
            if self._mends(finding, key, spec):
                return told
        return None

    def _changes(self, finding: Finding) -> Iterator[_Change]:
        """Yield every change, the smallest first."""
        keys = self._movable(finding)
        seats = tuple((o.host, o.seat) for o in self.remaker.tree.seats.offers)
        yield from _turned_end_for_end(keys)
        # boards want their memory in certain slots: other slots are the last resort
        for key, now in sorted(keys, key=lambda each: isinstance(each[1], Memory)):
            for name, spec in places(now, seats):
                known_slots = isinstance(now, Memory) and now.slot is None
                if spec is not None and spec != now and not known_slots:
                    yield key, spec, _moved(key, spec, name)
        for key, now in keys:
            straight = isinstance(now, Card) and now.plug_shape is PlugShape.STRAIGHT
            if isinstance(now, Card) and straight and now.plug is not PlugAt.NONE:
                angled = replace(now, plug_shape=PlugShape.ANGLED)
                yield key, angled, f"take an angled plug for {spoken(key)}"
        sizes = [size for key, now in keys for size in self._sizes(key, now)]
        yield from (size for _, size in sorted(sizes, key=lambda each: each[0]))

    def _movable(self, finding: Finding) -> list[tuple[str, Spec]]:
        """Return the parts that a finding names, and what carries them but the board.

        What is least work comes first: what sits in the case by itself.
        """
        hosts = {part.key: part.hosts for part in self.remaker.build.parts}
        keys = sorted(finding.parts, key=finding.a.startswith)
        carriers = [host for key in keys for host in hosts.get(key, ())]
        every = dict.fromkeys((*keys, *carriers))
        plan = self.remaker.plan
        known = [(key, plan.spec(key)) for key in every]
        return [(key, spec) for key, spec in known if spec is not None]

    def _sizes(self, key: str, now: Spec) -> Iterator[tuple[float, _Change]]:
        """Yield the part in the largest whole millimetres that would clear.

        With it by what share of its size it is smaller: the least is tried first.
        """
        for each in dimensions(now):
            word = _SMALLER.get(each.name)
            if word is None:
                continue
            row = largest(self.remaker, key, each.name, cables=self.cables)
            if row.largest_mm is None or row.largest_mm >= each.now_mm - FINE_MM:
                continue
            mm = float(math.floor(row.largest_mm + FINE_MM / 2))
            what = "a radiator" if each.name.startswith("radiator") else _noun(now)
            told = f"take {what} of {mm:g} mm or {word}"
            yield 1.0 - mm / each.now_mm, (key, each.with_mm(mm), told)

    def _mends(self, finding: Finding, key: str, spec: Spec) -> bool:
        """Tell whether a change mends a finding and makes no other worse."""
        build = self._built(key, spec)
        if build is None or not _clears(build, finding):
            return False
        parts = build.carried_by(key)
        if (key, spec) not in self._better:
            self._better[key, spec] = check(build, of=parts)
        there = self._better[key, spec]
        known = {each.id: each for each in self.before.findings}
        if any(_still_meet(each, finding) for each in there.findings):
            return False
        return all(
            not _worse(each, known.get(each.id)) and each.id != finding.id
            for each in there.findings
            if each.verdict.fails
        )

    def _built(self, key: str, spec: Spec) -> Build | None:
        if (key, spec) not in self._known:
            try:
                self._known[key, spec] = self.remaker.plan.changed(key, spec).build()
            except (PartError, SeatError):
                self._known[key, spec] = None
        return self._known[key, spec]


def _clears(build: Build, finding: Finding) -> bool:
    """Tell whether the finding's own pairs clear; others are looked at later."""
    pairs = [
        q
        for q in asked(build)
        if question_id(q.rule, build.bodies[q.a], build.bodies[q.b]) == finding.id
    ]
    return all(not verdict.fails for _, verdict in margins(build, pairs))


def _still_meet(left: Finding, finding: Finding) -> bool:
    """Tell whether the same two parts are in one place even so: then nothing is won."""
    alike = left.parts == finding.parts and CASE not in finding.parts
    return left.verdict is Verdict.CLASH and alike


def _worse(finding: Finding, before: Finding | None) -> bool:
    """Tell whether a finding that fails does so more than before."""
    if before is None or not before.verdict.fails:
        return True
    now_mm, then_mm = finding.margin_mm, before.margin_mm
    return now_mm is None or then_mm is None or now_mm < then_mm - ALLOWED_MM


_VERBS: Final = {
    "cage": "move {} to its position {}",
    "fan": "move {} to the mount: {}",
    "radiator": "move {} to the mount: {}",
    "liquid cooler": "move {} with its radiator to the mount: {}",
    "supply": "turn {} over: {}",
    "card": "put {} into {}",
    "drive": "put {} into {}",
    "memory": "put {} into {}",
    "low cooler": "have {} {}",
}


def _moved(key: str, spec: Spec, name: str) -> str:
    if isinstance(spec, TowerCooler | TwinTower):
        fan, raised = spoken(f"{key}/front fan"), spec.fan_raise
        if raised is None or raised.mm == 0.0:
            return f"leave {fan} at its lowest"
        return f"have {fan} raised by {raised.mm:g} mm"
    return _VERBS.get(spec.kind, "move {} to {}").format(spoken(key), name)


def _noun(spec: Spec) -> str:
    if spec.kind == "memory":
        return "memory"
    if isinstance(spec, M2Drive):
        return "an M.2 drive with its heatsink"
    return (
        "a cooler"
        if "cooler" in spec.kind or "tower" in spec.kind
        else f"a {spec.kind}"
    )
