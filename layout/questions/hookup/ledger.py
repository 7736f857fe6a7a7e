"""Count plugs against sockets: who finds none, and what was taken for granted."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import field, replace
from types import MappingProxyType
from typing import Final, TypeAlias

from layout.parts.form.connector import ConnectorKind
from layout.parts.wiring.hookup import POWER, Counts, Hookup, family_of
from layout.questions.hookup.loads import (
    HEADER_MA,
    LIGHT_HEADER_MA,
    USUAL_LIGHT_MA,
    Bank,
    Fan,
    Load,
    loads,
)
from layout.values import dataclass

__all__ = ["Lack", "Ledger", "ledger"]

_Kind = ConnectorKind
_FANS: Final = family_of(_Kind.FAN_4)

_LIGHTS: Final = (_Kind.LIGHT_5V, _Kind.LIGHT_12V)

_ACCEPTED: Final[Mapping[ConnectorKind, tuple[ConnectorKind, ...]]] = MappingProxyType(
    {
        # A fourth contact that is not there, or not met, only leaves a fan unsteered.
        _Kind.FAN_3: (_Kind.FAN_3, _Kind.FAN_4),
        _Kind.FAN_4: (_Kind.FAN_4, _Kind.FAN_3),
        # The 8-pin plug of a card is one of 6 with 2 beside it.
        _Kind.CARD_6: (_Kind.CARD_6, _Kind.CARD_8),
    }
)
"""What else a kind may be joined to, the best first; every other only to itself."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Lack:
    """Demands of a part that nothing meets.

    Parameters
    ----------
    count, of : int
        How many lack, of how many that the part has of the kind.
    there : int
        How many the build offers of what the kind may be joined to.
    left : frozenset of ConnectorKind
        What is still free, of any kind.
    usual : bool
        Whether the demand is the usual one of its part: the file says nothing.
    """

    part: str
    kind: ConnectorKind
    count: int
    of: int
    there: int
    left: frozenset[ConnectorKind]
    usual: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Ledger:
    """What the counting finds.

    Parameters
    ----------
    lacks : tuple of Lack
    loads : tuple of Load
        Splitters that must bear more than they can, or may have to.
    granted : tuple of (str, (ConnectorKind, int)...)
        What was taken for granted of each part that the file says nothing of.
    idle : tuple of (str, ConnectorKind, int)
        Sockets that may stay empty and do.
    """

    lacks: tuple[Lack, ...]
    loads: tuple[Load, ...]
    granted: tuple[tuple[str, Counts], ...]
    idle: tuple[tuple[str, ConnectorKind, int], ...]


def ledger(hookups: Sequence[tuple[str, Hookup]]) -> Ledger:
    """Return what lacks when every plug has been given a socket.

    A kind that no part of the build is there to offer is not asked about: a build
    without a supply is not finished, not wrong.

    Notes
    -----
    Splitters come first, each as soon as its own plugs find sockets, then the rest in
    the file's order, a kind with fewer to choose from before its relatives.
    """
    book = _Book.of(hookups)
    lacks = book.splitters(hookups)
    outlets = sum(bank.outlets for bank in book.banks)
    direct = sum(book.left[each] for each in _FANS) - outlets
    lacks += book.rest(hookups)
    lit = [load for kind in _LIGHTS for load in book.lit(kind)]
    idle = [
        (part, kind, count)
        for part, each in hookups
        for kind, asked in each.spare
        if (count := asked - book.meet(kind, asked))
    ]
    return Ledger(
        lacks=tuple(book.lack(each) for each in lacks),
        loads=(*loads(book.fans, direct, book.banks), *lit),
        granted=_granted(hookups, book.taken),
        idle=tuple(idle),
    )


_Missing: TypeAlias = tuple[str, Hookup, ConnectorKind, int]


@dataclass(frozen=False, eq=False, slots=True)
class _Book:
    """What is there, and what of it is taken."""

    asked: frozenset[ConnectorKind]
    free: frozenset[ConnectorKind]
    there: Counter[ConnectorKind]
    left: Counter[ConnectorKind]
    taken: Counter[ConnectorKind] = field(default_factory=Counter)
    banks: list[Bank] = field(default_factory=list)
    fans: list[Fan] = field(default_factory=list)
    lights: list[tuple[ConnectorKind, Fan]] = field(default_factory=list)
    fed: Counter[ConnectorKind] = field(default_factory=Counter)
    light_banks: list[tuple[ConnectorKind, Bank]] = field(default_factory=list)

    @classmethod
    def of(cls, hookups: Sequence[tuple[str, Hookup]]) -> _Book:
        """Return the book before anything is plugged."""
        every = [each for _, each in hookups]
        there: Counter[ConnectorKind] = Counter()
        for each in every:
            for kind, count in each.offers:  # leads of one kind may be listed apart
                there[kind] += count
        return cls(
            asked=frozenset().union(*(each.provides for each in every)),
            free=frozenset().union(*(each.unsaid for each in every)),
            there=there,
            left=Counter(there),
        )

    def meet(self, kind: ConnectorKind, count: int) -> int:
        """Take sockets for some plugs of a kind; return how many found one."""
        if kind not in self.asked and not self.there[kind]:
            return count
        met = 0
        for each in _accepted(kind):
            found = min(count - met, self.left[each])
            self.left[each] -= found
            met += found
        if kind in self.free:
            self.taken[kind] += count - met
            return count
        return met

    def splitters(self, hookups: Sequence[tuple[str, Hookup]]) -> list[_Missing]:
        """Plug each splitter that finds its sockets, then those that hang on it."""
        waiting = [(part, each) for part, each in hookups if each.outlets]
        while ready := [each for each in waiting if self._finds_all(each[1])]:
            part, hookup = ready[0]
            waiting.remove(ready[0])
            for kind, count in hookup.demands:
                self.meet(kind, count)
            self._open(part, hookup)
        return [
            (part, hookup, kind, count - met)
            for part, hookup in waiting
            for kind, count in hookup.demands
            if (met := self.meet(kind, count)) < count
        ]

    def rest(self, hookups: Sequence[tuple[str, Hookup]]) -> list[_Missing]:
        """Plug everything that is no splitter; return what finds no socket."""
        lacking = []
        plain = [(part, each) for part, each in hookups if not each.outlets]
        for narrow in (True, False):
            for part, hookup in plain:
                for kind, count in hookup.demands:
                    if (len(_accepted(kind)) == 1) is not narrow:
                        continue
                    met = self.meet(kind, count)
                    if kind in _FANS and kind not in self.free:
                        self.fans += [Fan(part=part, draws_ma=hookup.draws_ma)] * met
                    if kind in _LIGHTS and kind not in self.free:
                        light = Fan(part=part, draws_ma=hookup.light_ma)
                        self.lights += [(kind, light)] * met
                    if met < count:
                        lacking.append((part, hookup, kind, count - met))
        return lacking

    def lit(self, kind: ConnectorKind) -> Iterator[Load]:
        """Yield the splitters of one voltage that must bear more light than they can.

        Each voltage has its own: no light may go from one to the other.
        """
        plugs = [each for of, each in self.lights if of is kind]
        banks = [each for of, each in self.light_banks if of is kind]
        direct = self.there[kind] - sum(each.outlets for each in banks)
        fed = self.fed[kind]
        for each in loads(plugs, direct - fed, banks, usual_ma=USUAL_LIGHT_MA):
            yield replace(each, of="lights", usual_ma=USUAL_LIGHT_MA)

    def lack(self, missing: _Missing) -> Lack:
        """Return what lacks, with what the build has of the kind and of its kin."""
        part, hookup, kind, count = missing
        return Lack(
            part=part,
            kind=kind,
            count=count,
            of=sum(n for each, n in hookup.demands if each is kind),
            there=sum(self.there[each] for each in _accepted(kind)),
            left=frozenset(each for each, n in self.left.items() if n > 0),
            usual=hookup.usual,
        )

    def _finds_all(self, hookup: Hookup) -> bool:
        return all(
            kind in self.free
            or (kind not in self.asked and not self.there[kind])
            or sum(self.left[each] for each in _accepted(kind)) >= count
            for kind, count in hookup.demands
        )

    def _open(self, part: str, hookup: Hookup) -> None:
        """Add a splitter's outlets to what is there."""
        outlets = hookup.outlets
        if outlets is None:
            return
        self.there[outlets.kind] += outlets.count
        self.left[outlets.kind] += outlets.count
        lit = outlets.kind in _LIGHTS
        if not lit and outlets.kind not in _FANS:
            return
        powered = any(kind in POWER for kind, _ in hookup.demands)
        usual_ma = LIGHT_HEADER_MA if lit else HEADER_MA
        bank = Bank(
            part=part,
            outlets=outlets.count,
            bears_ma=outlets.bears_ma,
            usual_ma=None if powered else usual_ma,
        )
        if not lit:
            self.banks.append(bank)
        else:
            self.light_banks.append((outlets.kind, bank))
            self.fed[outlets.kind] += dict(hookup.demands).get(outlets.kind, 0)


def _accepted(kind: ConnectorKind) -> tuple[ConnectorKind, ...]:
    return _ACCEPTED.get(kind, (kind,))


def _granted(
    hookups: Sequence[tuple[str, Hookup]], taken: Mapping[ConnectorKind, int]
) -> tuple[tuple[str, Counts], ...]:
    """Return what was taken for granted, said of the first part that may offer it."""
    out = []
    told: set[ConnectorKind] = set()
    for part, hookup in hookups:
        kinds = [kind for kind in ConnectorKind if kind in hookup.unsaid - told]
        counts = tuple((kind, taken[kind]) for kind in kinds if taken[kind])
        told.update(kinds)
        if counts:
            out.append((part, counts))
    return tuple(out)
