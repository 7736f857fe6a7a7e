"""Changes of a plan, each put in place once and asked what it mends and makes worse.

The cheap questions come first, and only what moved is asked again: the finding's own
pairs, then what names a part that moved, then the ways of all leads.  What a change
answers is kept, since several findings may be mended by the same one.
"""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import field, replace
from typing import Final, TypeAlias

from layout.build.errors import SeatError
from layout.build.placed import Build
from layout.build.remade import Remaker
from layout.parts.form.errors import PartError
from layout.parts.kinds.kinds import Spec
from layout.questions.bends.bends import bends, shut_in
from layout.questions.bends.cables import Cables
from layout.questions.case.limits import stated_limits
from layout.questions.case.stated import STATED_LIMIT
from layout.questions.checking.check import check, met, surely_failed
from layout.questions.clearances.asked import CASE, Question, making
from layout.questions.clearances.plug_rules import BEND_RULES
from layout.questions.clearances.rules import NO_INTERFERENCE, RULES
from layout.questions.findings.finding import Check, Finding, Group, Verdict
from layout.questions.findings.tolerance import ALLOWED_MM
from layout.questions.reach.loops import hose_reach
from layout.questions.reach.reach import reach
from layout.values import dataclass

__all__ = ["Trials"]

_NEAR: Final = frozenset({Group.DISTANCE, Group.HOLES, Group.HOOKUP})
_OF_BODIES: Final = frozenset({NO_INTERFERENCE, *(each.name for each in RULES)})

_Parts: TypeAlias = tuple[tuple[str, Spec | None], ...]
"""Parts described otherwise; None for what is taken out."""


@dataclass(frozen=False, eq=False, slots=True)
class Trials:
    """Changes of a plan; ``before`` is the check of the plan as it is."""

    remaker: Remaker
    before: Check
    cables: Cables = field(default_factory=Cables)
    _builds: dict[_Parts, Build | None] = field(default_factory=dict)
    _near: dict[_Parts, tuple[Finding, ...]] = field(default_factory=dict)
    _bent: dict[_Parts, tuple[Finding, ...]] = field(default_factory=dict)
    _reach: dict[_Parts, tuple[Finding, ...]] = field(default_factory=dict)

    def mends(self, finding: Finding, change: _Parts) -> bool:
        """Tell whether a change mends a finding and makes no other worse."""
        return self.spoiled(finding, change) == ()

    def can_be(self, change: _Parts) -> bool:
        """Tell whether every part finds a place with a change."""
        return self._built(change) is not None

    def spoiled(self, finding: Finding, change: _Parts) -> tuple[Finding, ...] | None:
        """Return what a change that mends a finding makes worse; None: it mends not."""
        if self._is_idle(change, finding):
            return None
        build = self._built(change)
        if build is None or not self._clears(change, build, finding):
            return None
        known = {each.id: each for each in self.before.findings}
        met = finding if self._is_of_place(finding) else None
        for ask in (self._of_moved, self._bends, self._leads):
            there = ask(change, build)
            if _fails(there, finding) or (met and _any_meet(there, met)):
                return None
            if worse := _spoilt(there, known):
                return worse
        return ()

    def _is_idle(self, change: _Parts, finding: Finding) -> bool:
        """Tell whether the two bodies that a finding is of surely fail even so.

        They are as before, or too near by the boxes within them.  What makes no part
        mends nothing either.
        """
        if finding.rule not in _OF_BODIES or len(change) != 1 or change in self._builds:
            return False
        ((key, spec),) = change
        if spec is None or key not in finding.parts:
            return False
        names = {finding.a, finding.b or ""}
        try:
            if self.remaker.keeps(key, spec, names):
                return True
            build = self.remaker.partly(key, spec, names)
        except (PartError, SeatError):
            return True
        return build is not None and surely_failed(build, _own(build, finding))

    def leaves_tight(self, finding: Finding, change: _Parts) -> bool:
        """Tell whether what a change mends is tight then."""
        asked_of = (self._near, self._bent, self._reach)
        found = (each for one in asked_of for each in one.get(change, ()))
        return any(e.id == finding.id and e.verdict is Verdict.TIGHT for e in found)

    def _is_of_place(self, finding: Finding) -> bool:
        """Tell whether a finding is of a vent or an opening: no body meets another."""
        names = {finding.a, finding.b}
        bodies = self.remaker.build.bodies
        return any(e.name in names and not e.role.is_matter for e in bodies)

    def explains(self, finding: Finding, change: _Parts) -> bool:
        """Tell whether a finding is gone with parts described otherwise."""
        if self._is_idle(change, finding):
            return False
        build = self._built(change)
        if build is None or not self._clears(change, build, finding):
            return False
        # what no pair of bodies asks is found with what moved alone
        return not _fails(self._of_moved(change, build), finding)

    def _built(self, change: _Parts) -> Build | None:
        """Return the build with a change; None where it cannot be had."""
        if change not in self._builds:
            try:
                self._builds[change] = self.remaker.with_all(change)
            except (PartError, SeatError):
                self._builds[change] = None
        return self._builds[change]

    def _clears(self, change: _Parts, build: Build, finding: Finding) -> bool:
        """Tell whether the finding alone is gone; what else it does is asked later."""
        if finding.group is Group.REACH:
            return not _fails(self._leads(change, build), finding)
        if finding.rule in BEND_RULES:
            own = tuple(each for each in build.plugs if each.part in finding.parts)
            alone = replace(build, plugs=own)
            barred = finding.id in shut_in(alone)
            return not barred and not _fails(bends(alone), finding)
        if finding.rule == STATED_LIMIT:
            return not _fails(stated_limits(build, every=False).findings, finding)
        return met(build, _own(build, finding))

    def _of_moved(self, change: _Parts, build: Build) -> tuple[Finding, ...]:
        """Return what names a part that moved, but the room and ways of cables."""
        if change not in self._near:
            moved = self._moved(change, build)
            found = check(build, of=moved, groups=_NEAR, bent=())
            self._near[change] = found.findings
        return self._near[change]

    def _bends(self, change: _Parts, build: Build) -> tuple[Finding, ...]:
        """Return what is found of the room that cables need beside what moved."""
        if change not in self._bent:
            moved = self._moved(change, build)
            self._bent[change] = self.cables.bends(build, moved)
        return self._bent[change]

    def _leads(self, change: _Parts, build: Build) -> tuple[Finding, ...]:
        """Return what is found of all leads: what moved may bar any of their ways."""
        if change not in self._reach:
            led = reach(build, every=False, like=self.before.space)
            found = (led, hose_reach(build, every=False))
            self._reach[change] = tuple(e for one in found for e in one.findings)
        return self._reach[change]

    def _moved(self, change: _Parts, build: Build) -> frozenset[str]:
        """Return the parts whose bodies are others, or lie elsewhere, than before.

        The changed ones and what they carry are among them.
        """
        then = {each.name: each.body for each in self.remaker.build.bodies}
        asked = [build.carried_by(key) for key, spec in change if spec is not None]
        return frozenset().union(*asked) | frozenset(
            each.part
            for each in build.bodies
            if (was := then.get(each.name)) is None
            or was.shape is not each.body.shape
            or was.at_mm != each.body.at_mm
        )


def _own(build: Build, finding: Finding) -> list[Question]:
    """Return the questions that a finding may come from."""
    if finding.rule != NO_INTERFERENCE:
        return making(build, {finding.id})
    # what no rule names is looked for among the bodies of its parts alone
    own = [k for k, each in enumerate(build.bodies) if each.part in finding.parts]
    bodies = tuple(build.bodies[k] for k in own)
    found = making(replace(build, bodies=bodies), {finding.id})
    return [replace(each, a=own[each.a], b=own[each.b]) for each in found]


def _fails(found: Collection[Finding], finding: Finding) -> bool:
    return any(each.id == finding.id and each.verdict.fails for each in found)


def _spoilt(
    found: Collection[Finding], before: dict[str, Finding]
) -> tuple[Finding, ...]:
    """Return what fails more than before."""
    return tuple(
        each
        for each in found
        if each.verdict.fails and _worse(each, before.get(each.id))
    )


def _any_meet(found: Collection[Finding], finding: Finding) -> bool:
    return any(_still_meet(each, finding) for each in found)


def _still_meet(left: Finding, finding: Finding) -> bool:
    """Tell whether the same two parts are in one place even so: then nothing is won."""
    alike = left.parts == finding.parts and CASE not in finding.parts
    return left.verdict is Verdict.CLASH and alike


def _worse(finding: Finding, before: Finding | None) -> bool:
    """Tell whether a finding that fails does so more than before."""
    if before is None or not before.verdict.fails:
        return True
    now_mm, then_mm = finding.margin_mm, before.margin_mm
    if now_mm is None and then_mm is None:
        return finding.advice != before.advice  # as much is missing where it says so
    return now_mm is None or then_mm is None or now_mm < then_mm - ALLOWED_MM
