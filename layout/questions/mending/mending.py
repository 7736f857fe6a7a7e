"""What mends a finding: the smallest change that does, tried and checked.

Another place, a fan raised, a part turned, another slot, an angled plug are tried in
turn, and if none helps the size to look for.  A change counts where the finding no
longer fails and no other finding of what moved is worse than before.  Where none
counts, a rule's own remedy is told without the changes that were tried.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import field, replace
from itertools import chain, islice
from typing import Final

from layout.build.remade import Remaker
from layout.parts.board.board import Board
from layout.parts.board.m2_drive import M2Drive
from layout.parts.board.memory import Memory
from layout.parts.drives.drive import Drive
from layout.parts.kinds.kinds import Spec
from layout.parts.kinds.places import Place, places
from layout.parts.supply.supply import Supply
from layout.questions.bends.bends import lacking
from layout.questions.clearances.plug_rules import BEND_RULES, HEADER_BEND
from layout.questions.findings.advice import spoken
from layout.questions.findings.answered import listed
from layout.questions.findings.finding import Check, Finding, Verdict
from layout.questions.mending.changes import (
    Change,
    Known,
    angled,
    angled_on,
    both,
    low_brackets,
    placed,
    sized,
    taken_out,
    turned,
)
from layout.questions.mending.least import least_raise
from layout.questions.mending.otherwise import other_reading
from layout.questions.mending.sizes import Sizes
from layout.questions.mending.trials import Trials
from layout.questions.reach.loops import HOSE_REACH
from layout.values import dataclass

__all__ = ["mended", "mends"]

_MOST_PAIRS: Final = 8
"""Two changes at once are tried this often for one finding; most spoil the more."""


def mended(made: Remaker, found: Check) -> Check:
    """Return a check whose findings that fail say what would mend them.

    Parameters
    ----------
    made : Remaker
        A plan with its build.
    found : Check
        Of this very build.
    """
    changes = _Changes.of(made, found)
    known = changes.known()
    if not known:
        return found
    trials = changes.trials
    findings = tuple(
        replace(each, advice=_with(each, known[each.id]) + other_reading(trials, each))
        if each.id in known
        else each
        for each in found.findings
    )
    return replace(found, findings=findings)


def mends(made: Remaker, found: Check) -> dict[str, Change | None]:
    """Return for each finding that fails the smallest change that mends it, by id.

    None where no change that can be tried does so and makes nothing else worse.
    """
    return _Changes.of(made, found).known()


def _is_asked(finding: Finding) -> bool:
    """Tell whether a change may mend it; what is missing but a hose is ordered."""
    if finding.verdict.lacks_room:
        return not finding.doubtful
    return finding.rule == HOSE_REACH and finding.verdict is Verdict.MISSING


def _with(finding: Finding, change: Change | None) -> str:
    """Return a finding's advice with what mends it, instead of what might."""
    remedy = finding.remedy
    if remedy is not None and remedy.told in finding.advice:
        told = change.told if change else remedy.left
        return finding.advice.replace(remedy.told, told)
    return f"{finding.advice}; {change.told}" if change else finding.advice


@dataclass(frozen=False, eq=False, slots=True)
class _Changes:
    """The changes that may mend findings, and what they come to."""

    trials: Trials
    sizes: Sizes
    _places: dict[str, tuple[Place, ...]] = field(default_factory=dict)
    _told: dict[str, Change | None] = field(default_factory=dict)

    @classmethod
    def of(cls, made: Remaker, before: Check) -> _Changes:
        """Return the changes of a plan, which was checked as it is."""
        trials = Trials(made, before)
        bad = [each for each in before.findings if each.verdict.lacks_room]
        return cls(trials, Sizes(trials.remaker, trials.cables, bad))

    def known(self) -> dict[str, Change | None]:
        """Return for each finding that fails what mends it, by id."""
        told = self._told
        for each in self.trials.before.findings:
            if not _is_asked(each):
                continue
            # what is told of one finding already is no further change for another
            known = (other for other in told.values() if other and other.parts)
            told[each.id] = self.first(each, known) or self.remedy(each)
        return told

    def remedy(self, finding: Finding) -> Change | None:
        """Return the first change that mends a finding and makes none worse.

        Where a place leaves it tight, another place of the same part that clears it is
        told instead.

        Cables of a part that itself stands in others are not worth a change: the part
        must go elsewhere first.
        """
        if finding.rule in BEND_RULES and (met := self._met_by(finding)):
            own = spoken(_part(finding.a))
            return Change((), f"find {own} another place first: it meets {met}")
        keys = self._movable(finding)
        half: list[tuple[Change, tuple[Finding, ...]]] = []
        tight: Change | None = None
        for each in chain(self._at_places(keys), self._angled_on_board(finding)):
            if tight is not None and _keys(each) != _keys(tight):
                continue
            worse = self._spoiled(finding, each)
            if worse == () and not self.trials.leaves_tight(finding, each.parts):
                plan = self._remaker.plan
                return least_raise(plan, each, lambda e: self._clears(finding, e))
            if worse == ():
                tight = tight or each
            elif worse:
                half.append((each, worse))
        plan, trials = self._remaker.plan, self.trials
        if tight is not None:
            return least_raise(plan, tight, lambda e: trials.mends(finding, e.parts))
        further = chain(self._two(half), self._of_size(finding, keys))
        had = next((e for e in further if trials.mends(finding, e.parts)), None)
        return had and least_raise(plan, had, lambda e: trials.mends(finding, e.parts))

    def _spoiled(self, finding: Finding, change: Change) -> tuple[Finding, ...] | None:
        """Return what a change that mends spoils; None where it does not, or cannot."""
        worse = self.trials.spoiled(finding, change.parts)
        return None if worse == () and not self._goes_along(change) else worse

    def _goes_along(self, change: Change) -> bool:
        """Tell whether a change can be made beside each that is told of other parts.

        A place that one of them takes is no place for another.
        """
        own = {*_keys(change)}
        others = (e for e in self._told.values() if e and own.isdisjoint(_keys(e)))
        return all(self.trials.can_be(both(e, change).parts) for e in others)

    def first(self, finding: Finding, changes: Iterable[Change]) -> Change | None:
        """Return the first of some changes that clears a finding, none made worse."""
        return next((each for each in changes if self._clears(finding, each)), None)

    def _clears(self, finding: Finding, change: Change) -> bool:
        """Tell whether a change clears a finding, none made worse, none left tight."""
        trials = self.trials
        mends = trials.mends(finding, change.parts)
        return mends and not trials.leaves_tight(finding, change.parts)

    def _met_by(self, finding: Finding) -> str:
        """Return what the part of a plug is in one place with."""
        part = _part(finding.a)
        if not isinstance(self._remaker.plan.spec(part), Drive | M2Drive | Supply):
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

    def _at_places(self, keys: Known) -> Iterator[Change]:
        """Yield every change that needs no other part, the smallest first."""
        yield from turned(keys)
        yield from low_brackets(keys)
        # boards want their memory in certain slots: other slots are the last resort
        for key, now in sorted(keys, key=lambda each: isinstance(each[1], Memory)):
            yield from placed(key, now, self._places_of(key, now))
        yield from angled(keys)

    def _angled_on_board(self, finding: Finding) -> Iterator[Change]:
        """Yield the board with right-angle plugs where cables have no room to bend.

        Which of its spare headers a lead takes is found by trying: kind by kind there.
        """
        key = _part(finding.a)
        now = self._remaker.plan.spec(key)
        if finding.rule not in BEND_RULES or not isinstance(now, Board):
            return
        kinds = lacking(self._remaker.build, key, finding.rule)
        alone = [(each,) for each in kinds] if finding.rule == HEADER_BEND else []
        changes = (angled_on(key, now, each) for each in (*alone, kinds))
        yield from filter(None, changes)

    def _two(
        self, half: Sequence[tuple[Change, tuple[Finding, ...]]]
    ) -> Iterator[Change]:
        """Yield changes that would mend but spoil, each with one of what they spoil."""
        pairs = (
            both(first, second)
            for first, worse in half
            for second in self._at_places(self._movable(*worse))
            if not {key for key, _ in first.parts} & {key for key, _ in second.parts}
        )
        return islice(pairs, _MOST_PAIRS)

    def _of_size(self, finding: Finding, keys: Known) -> Iterator[Change]:
        """Yield smaller parts, the least change first, then cages taken out."""
        for size in self.sizes.smaller(finding, keys):
            yield sized(self._remaker.plan, size)
        carried = self._remaker.build.carried_by
        yield from taken_out(keys, [sorted(carried(key)) for key, _ in keys])

    def _movable(self, *findings: Finding) -> list[tuple[str, Spec]]:
        """Return the parts that findings name, and what carries them but the board.

        What is least work comes first: what sits in the case by itself.
        """
        hosts = {part.key: part.hosts for part in self._remaker.build.parts}
        keys = [
            key
            for each in findings
            for key in sorted(each.parts, key=each.a.startswith)
        ]
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


def _keys(change: Change) -> list[str]:
    """Return the keys of the parts that a change is of."""
    return [key for key, _ in change.parts]


def _part(name: str) -> str:
    """Return the key of the part that a body belongs to."""
    return name.partition("/")[0]
