"""What mends a finding: the smallest change that does, tried and checked.

Another place, a fan raised, a part turned, another slot, an angled plug are tried in
turn, and if none helps the size to look for.  A change counts where the finding no
longer fails and no other finding of what moved is worse than before.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field, replace
from typing import Final, TypeAlias

from layout.build.remade import Remaker
from layout.parts.card import Card, PlugAt
from layout.parts.dimensions import Dimension
from layout.parts.drive import Drive
from layout.parts.form import PlugShape
from layout.parts.kinds import Spec
from layout.parts.liquid_cooler import LiquidCooler
from layout.parts.m2_drive import M2Drive
from layout.parts.memory import Memory
from layout.parts.places import Place, places
from layout.parts.radiator import PortEnd, Radiator
from layout.parts.tower_cooler import TowerCooler
from layout.parts.twin_tower import TwinTower
from layout.questions.advice import remedy_of, spoken
from layout.questions.answered import listed
from layout.questions.asked import OWN_NEED
from layout.questions.finding import Check, Finding, Verdict
from layout.questions.plug_rules import PLUG_RULES
from layout.questions.rules import NO_INTERFERENCE, RULES
from layout.questions.sizes import SMALLER, Sizes
from layout.questions.stated import STATED_LIMIT
from layout.questions.trials import Trials

__all__ = ["mended"]

_REMEDIES: Final = {
    each.name: sorted(each.remedies, key=len, reverse=True)
    for each in (*RULES, *PLUG_RULES)
}
"""What might mend a finding of a rule, the longest text first: one may hold another."""
_BENDS: Final = frozenset(each.name for each in PLUG_RULES)
_WORST: Final = (Verdict.SHORT, Verdict.CLASH)
_SAYS_WHICH: Final = re.compile(r"take a (?:lower|shorter|smaller) one")
"""How a stated limit's advice names what to take, without a size."""


def mended(made: Remaker, found: Check) -> Check:
    """Return a check whose findings that fail say what would mend them.

    Parameters
    ----------
    made : Remaker
        A plan with its build.
    found : Check
        Of this very build.
    """
    bad = [each for each in found.findings if each.verdict in _WORST]
    if not bad:
        return found
    changes = _Changes.of(made, found)
    told = {each.id: changes.remedy(each) for each in bad}
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
    if finding.rule in {NO_INTERFERENCE, OWN_NEED} and (told := remedy_of(finding)):
        return finding.advice.replace(told, remedy)
    if finding.rule == STATED_LIMIT and _SAYS_WHICH.search(finding.advice):
        return _SAYS_WHICH.sub(remedy, finding.advice, count=1)
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
class _Changes:
    """The changes that may mend findings, and what they come to."""

    trials: Trials
    sizes: Sizes
    _places: dict[str, tuple[Place, ...]] = field(default_factory=dict)

    @classmethod
    def of(cls, made: Remaker, before: Check) -> _Changes:
        """Return the changes of a plan, which was checked as it is."""
        trials = Trials(made, before)
        bad = [each for each in before.findings if each.verdict in _WORST]
        return cls(trials, Sizes(trials.remaker, trials.cables, bad))

    def remedy(self, finding: Finding) -> str | None:
        """Return the first change that mends a finding and makes none worse.

        Cables of a part that itself stands in others are not worth a change: the part
        must go elsewhere first.
        """
        if finding.rule in _BENDS and (met := self._met_by(finding)):
            return (
                f"find {spoken(_part(finding.a))} another place first: it meets {met}"
            )
        for key, spec, told in self._all(finding):
            if self.trials.mends(finding, key, spec):
                return told
        return None

    def _met_by(self, finding: Finding) -> str:
        """Return what the part of a plug is in one place with."""
        part = _part(finding.a)
        if not isinstance(self._remaker.plan.spec(part), Drive | M2Drive):
            return ""
        met = [
            other
            for each in self.trials.before.findings
            if each.verdict is Verdict.CLASH and part in each.parts
            for other in (each.a, each.b or "")
            if _part(other) != part
        ]
        return listed(list(dict.fromkeys(map(spoken, met)))) if met else ""

    @property
    def _remaker(self) -> Remaker:
        return self.trials.remaker

    def _all(self, finding: Finding) -> Iterator[_Change]:
        """Yield every change, the smallest first."""
        keys = self._movable(finding)
        yield from _turned_end_for_end(keys)
        # boards want their memory in certain slots: other slots are the last resort
        for key, now in sorted(keys, key=lambda each: isinstance(each[1], Memory)):
            for name, spec in self._places_of(key, now):
                known_slots = isinstance(now, Memory) and now.slot is None
                if spec is not None and spec != now and not known_slots:
                    yield key, spec, _moved(key, spec, name)
        yield from _angled(keys)
        specs = dict(keys)
        for key, dimension, mm in self.sizes.smaller(finding, keys):
            spec = dimension.with_mm(mm)
            yield key, spec, _size_told(specs[key], dimension, mm)

    def _movable(self, finding: Finding) -> list[tuple[str, Spec]]:
        """Return the parts that a finding names, and what carries them but the board.

        What is least work comes first: what sits in the case by itself.
        """
        hosts = {part.key: part.hosts for part in self._remaker.build.parts}
        keys = sorted(finding.parts, key=finding.a.startswith)
        carriers = [host for key in keys for host in hosts.get(key, ())]
        every = dict.fromkeys((*keys, *carriers))
        plan = self._remaker.plan
        known = [(key, plan.spec(key)) for key in every]
        return [(key, spec) for key, spec in known if spec is not None]

    def _places_of(self, key: str, now: Spec) -> tuple[Place, ...]:
        if key not in self._places:
            seats = tuple((o.host, o.seat) for o in self._remaker.tree.seats.offers)
            self._places[key] = places(now, seats)
        return self._places[key]


def _part(name: str) -> str:
    """Return the key of the part that a body belongs to."""
    return name.partition("/")[0]


def _angled(keys: Sequence[tuple[str, Spec]]) -> Iterator[_Change]:
    """Yield cards and drives with angled plugs."""
    for key, now in keys:
        if isinstance(now, Card):
            straight = now.plug_shape is PlugShape.STRAIGHT
            if straight and now.plug is not PlugAt.NONE:
                angled = replace(now, plug_shape=PlugShape.ANGLED)
                yield key, angled, f"take an angled plug for {spoken(key)}"
        if isinstance(now, Drive) and now.plug is PlugShape.STRAIGHT:
            turned = replace(now, plug=PlugShape.ANGLED)
            yield key, turned, f"take angled plugs for {spoken(key)}"


def _size_told(now: Spec, dimension: Dimension, mm: float) -> str:
    what = "a radiator" if dimension.name.startswith("radiator") else _noun(now)
    return f"take {what} of {mm:g} mm or {SMALLER[dimension.name]}"


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
    if name.startswith("turned to"):
        return f"have {spoken(key)} {name}"
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
