"""The shortest list of measurements that settles what rests on assumptions.

A finding is *settled* when it passes, or fails, wherever its assumed figures lie
within their scatter: together they may move the gap by no more than its margin.
Measuring one leaves it the tape's own plus-minus.  The shortest list is the fewest
measurements after which every finding is settled as long as the tape finds about what
was assumed; where it finds something else, the figure is written down and the check
asked again.  A tape from where another figure starts brings that one into every gap
in which both ends had it in common.  A finding that stays in doubt with everything
taped asks for all of its own that a tape knows better.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from itertools import chain, combinations
from typing import Final, TypeAlias

from layout.parts.form.link import said_mm
from layout.questions.findings.finding import Finding
from layout.questions.findings.tolerance import ALLOWED_MM, Assumed
from layout.standards.tolerances import TAPED_PLUS_MINUS_MM
from layout.values import dataclass

__all__ = ["EXACT_UP_TO", "Measurement", "needed", "shortest", "told"]

EXACT_UP_TO: Final = 14
"""Measurements that hang together, of which every choice is tried; of more, the one
that settles most is taken first, and the list may be longer than the shortest."""

_Key: TypeAlias = tuple[str, str]


@dataclass(frozen=True, slots=True, kw_only=True)
class Measurement:
    """A figure to measure.

    Parameters
    ----------
    part : str
        Key of the part whose figure it is.
    figure : str
        What it is called.
    tape : str
        From what to what.
    entry : str
        The part's field in which the measured figure is written; empty where it has
        none.
    assumed_mm : float or None
        What is assumed; None for a place that only scatters about where it is drawn.
    plus_minus_mm : float
        What the assumption may be off by.
    settles : tuple of str
        Ids of the findings in doubt that rest on it.
    """

    part: str
    figure: str
    tape: str
    entry: str
    assumed_mm: float | None
    plus_minus_mm: float
    settles: tuple[str, ...]


def needed(margin_mm: float, assumed: tuple[Assumed, ...]) -> tuple[Assumed, ...]:
    """Return the fewest of a finding's own assumptions to measure, largest first.

    Empty where the finding is settled, or no tape could tell it any better.
    """
    doubt = _Doubt.of("", margin_mm, assumed)
    largest_first = sorted(assumed, key=doubt.settles_mm, reverse=True)
    brought = [e for key, e in doubt.assumed.items() if key not in map(_key, assumed)]
    taped: list[Assumed] = []
    for each in (*largest_first, *brought):
        if doubt.settled({_key(every) for every in taped}):
            break
        taped.append(each)
    return tuple(taped)


def shortest(findings: Iterable[Finding]) -> tuple[Measurement, ...]:
    """Return the shortest list, in the order in which the findings ask for it.

    Of lists equally short it is the one whose measurements come first: those of the
    worst finding before those of the next, the larger scatter before the smaller.
    """
    every = [
        _Doubt.of(each.id, each.margin_mm, each.rests_on)
        for each in findings
        if each.margin_mm is not None
    ]
    doubts = [each for each in every if not each.settled(frozenset())]
    taped = {key for each in doubts for key in each.worth_taping}
    doubts += [e for e in every if e not in doubts and taped & {*e.brings}]
    picked = {key for group in _groups(doubts) for key in _fewest(group)}
    return tuple(
        _measurement(key, doubts, picked) for key in _in_order(doubts) if key in picked
    )


def told(assumed: Assumed) -> str:
    """Return one measurement as a sentence names it.

    The tape's two ends, and what was assumed; the figure's name where it has none.
    """
    link = assumed.link
    figure = f"{link.figure.mm:.4g} " if link.figure.mm else ""
    off_mm = max(link.plus_minus_mm)
    place = link.tape or link.label
    return f"{assumed.owner}: {place} ({figure}± {said_mm(off_mm)} assumed)"


@dataclass(frozen=True, slots=True)
class _Doubt:
    """A finding, with how far each assumption may move its gap.

    ``spare_mm`` is what they may move it by together: its margin, or what a tape
    leaves open where that is more.  ``needless`` are the assumptions that fall away
    once one is taped, whose tape reaches past them; ``brings`` those that it was free
    of and rests on from then on.
    """

    id: str
    spare_mm: float
    assumed: dict[_Key, Assumed]
    needless: dict[_Key, set[_Key]]
    brings: dict[_Key, set[_Key]]

    @classmethod
    def of(cls, name: str, margin_mm: float, assumed: Sequence[Assumed]) -> _Doubt:
        own = {_key(each): each for each in assumed}
        reached = {_key(each): each for one in assumed for each in _past(one)}
        past = {_key(e): {*map(_key, _past(e))} for e in assumed if e.link.instead}
        every = reached | own
        at_best_mm = sum(_taped_mm(every[key]) for key in own.keys() ^ reached.keys())
        return cls(
            name,
            max(abs(margin_mm), at_best_mm) + ALLOWED_MM,
            every,
            {key: more & own.keys() for key, more in past.items()},
            {key: more - own.keys() for key, more in past.items()},
        )

    def settled(self, taped: frozenset[_Key] | set[_Key]) -> bool:
        """Tell whether it is settled once these are taped."""
        return self.over_mm(taped) <= 0.0

    def over_mm(self, taped: frozenset[_Key] | set[_Key]) -> float:
        """Return by how much the assumptions exceed what they may."""
        together_mm = sum(
            _taped_mm(self.assumed[key]) if key in taped else self.assumed[key].off_mm
            for key in self.resting(taped)
        )
        return max(0.0, together_mm - self.spare_mm)

    def resting(self, taped: frozenset[_Key] | set[_Key]) -> set[_Key]:
        """Return the assumptions that it rests on once these are taped."""
        past = [more for key, more in self.needless.items() if key in taped]
        not_yet = [more for key, more in self.brings.items() if key not in taped]
        return self.assumed.keys() - {*chain(*past, *not_yet)}

    def asks_for(self, key: _Key, picked: set[_Key]) -> bool:
        """Tell whether it is in doubt, or would be if this one stayed unmeasured."""
        if key not in self.resting(picked - {key}):
            return False
        return not self.settled(frozenset()) or not self.settled(picked - {key})

    def settles_mm(self, assumed: Assumed) -> float:
        """Return how much of the scatter is gone once this one is taped."""
        key = _key(assumed)
        past, more = self.needless.get(key, ()), self.brings.get(key, ())
        return assumed.off_mm + self._off_mm(past) - self._off_mm(more)

    def _off_mm(self, keys: Iterable[_Key]) -> float:
        return sum(self.assumed[key].off_mm for key in keys)

    @property
    def worth_taping(self) -> list[_Key]:
        """Return what a tape knows better, what settles most first."""
        worth = [
            each for each in self.assumed.values() if _taped_mm(each) < each.off_mm
        ]
        return [_key(e) for e in sorted(worth, key=self.settles_mm, reverse=True)]


def _key(assumed: Assumed) -> _Key:
    return assumed.owner, assumed.link.label


def _past(assumed: Assumed) -> tuple[Assumed, ...]:
    """Return what a tape reaches past, each by as much of its scatter as acts here."""
    acts = assumed.off_mm / max(assumed.link.plus_minus_mm)
    return tuple(
        Assumed(assumed.owner, each, acts * max(each.plus_minus_mm))
        for each in assumed.link.instead
    )


def _taped_mm(assumed: Assumed) -> float:
    return min(assumed.off_mm, TAPED_PLUS_MINUS_MM)


def _in_order(doubts: Sequence[_Doubt]) -> list[_Key]:
    return list(dict.fromkeys(key for doubt in doubts for key in doubt.worth_taping))


def _groups(doubts: Sequence[_Doubt]) -> list[list[_Doubt]]:
    """Return the doubts that hang together by a common assumption."""
    groups: list[tuple[set[_Key], set[int]]] = []
    for index, doubt in enumerate(doubts):
        keys = set(doubt.worth_taping)
        joined = [group for group in groups if group[0] & keys]
        apart = [group for group in groups if not group[0] & keys]
        together = (
            keys.union(*(group[0] for group in joined)),
            {index}.union(*(group[1] for group in joined)),
        )
        groups = [*apart, together]
    return [[doubts[index] for index in sorted(indices)] for _, indices in groups]


def _fewest(doubts: Sequence[_Doubt]) -> tuple[_Key, ...]:
    """Return the fewest measurements that settle all of these."""
    candidates = _in_order(doubts)
    if len(candidates) > EXACT_UP_TO:
        return _largest_first(doubts, candidates)
    return next(
        choice
        for size in range(len(candidates) + 1)
        for choice in combinations(candidates, size)
        if all(doubt.settled(set(choice)) for doubt in doubts)
    )


def _largest_first(
    doubts: Sequence[_Doubt], candidates: Sequence[_Key]
) -> tuple[_Key, ...]:
    """Return measurements that settle all, each the one that settles most."""
    taped: set[_Key] = set()
    while not all(doubt.settled(taped) for doubt in doubts):
        left = [key for key in candidates if key not in taped]
        taped.add(
            min(
                left,
                key=lambda key: sum(each.over_mm({*taped, key}) for each in doubts),
            )
        )
    return tuple(key for key in candidates if key in taped)


def _measurement(key: _Key, doubts: Sequence[_Doubt], picked: set[_Key]) -> Measurement:
    having = [doubt for doubt in doubts if key in doubt.assumed]
    owner, link = having[0].assumed[key].owner, having[0].assumed[key].link
    return Measurement(
        part=owner,
        figure=link.label,
        tape=link.tape or link.label,
        entry=link.entry,
        assumed_mm=link.figure.mm or None,
        plus_minus_mm=max(link.plus_minus_mm),
        settles=tuple(each.id for each in having if each.asks_for(key, picked)),
    )
