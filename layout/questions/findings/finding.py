"""A finding: one question answered, with everything it rests on."""

from __future__ import annotations

from dataclasses import field
from enum import Enum
from typing import TYPE_CHECKING, Final

from layout.geometry.relations.relation import Overlap, Relation
from layout.geometry.space import Axis, Vector
from layout.questions.findings.remedy import Remedy
from layout.questions.findings.tolerance import ALLOWED_MM, Assumed
from layout.values import dataclass

if TYPE_CHECKING:
    from layout.questions.findings.passages import Passages

__all__ = [
    "Check",
    "Finding",
    "Group",
    "ToOrder",
    "Verdict",
    "is_doubtful",
    "verdict_of",
]


class Verdict(Enum):
    """The fixed words, best first; a build's verdict is its worst finding's."""

    CLEAR = "clear"
    TIGHT = "tight"
    SHORT = "short"
    CLASH = "clash"
    MISSING = "missing"

    @property
    def fails(self) -> bool:
        """Tell whether something must change before the build is ordered."""
        return self.lacks_room or self is Verdict.MISSING

    @property
    def lacks_room(self) -> bool:
        """Tell whether there is less room than is needed."""
        return self in {Verdict.SHORT, Verdict.CLASH}


_FAR_UNDER: Final = 0.1
"""A want this share of its tolerance, or less, is not known to be one."""


def verdict_of(margin_mm: float, scatter_mm: float) -> Verdict:
    """Return what a margin means that may be off by its scatter: no clash."""
    if margin_mm < -ALLOWED_MM:
        return Verdict.SHORT
    return Verdict.TIGHT if margin_mm - scatter_mm < -ALLOWED_MM else Verdict.CLEAR


def is_doubtful(margin_mm: float, scatter_mm: float) -> bool:
    """Tell whether a want is so far under its tolerance that only a tape tells.

    Examples
    --------
    >>> is_doubtful(-0.03, 5.6), is_doubtful(-3.0, 5.6), is_doubtful(0.1, 5.6)
    (True, False, False)
    """
    return 0.0 < -margin_mm <= _FAR_UNDER * scatter_mm


class Group(Enum):
    """The groups rules come in."""

    DISTANCE = "distance"
    HOLES = "holes"
    REACH = "reach"
    HOOKUP = "hookup"
    ORDER = "order"


@dataclass(frozen=True, slots=True, kw_only=True)
class Finding:
    """Which two bodies, how far apart, what is needed and why.

    ``advice`` is one sentence on what to do, for people; the rest is what programs
    read.  ``margin_mm`` is gap less need, for a clash minus overlap less need.
    ``readings`` say what the figures it rests on are measured from, ``rests_on``
    what is assumed and how far that may move the gap.  ``along`` is the unit vector
    of the gap where its two ends may be one point and do not tell it.  ``remedy`` is
    what the advice says may help, before any change was tried.  ``lead`` is which lead
    or hose it is about, where it is about one.
    """

    id: str
    rule: str
    group: Group
    a: str
    b: str | None
    gap_mm: float | None
    need_mm: float | None
    tolerance_mm: float | None
    margin_mm: float | None
    verdict: Verdict
    axis: Axis | None
    from_mm: Vector | None
    to_mm: Vector | None
    overlap: Overlap | None
    assumed: tuple[str, ...]
    why: str
    source: str
    advice: str
    readings: tuple[str, ...] = ()
    rests_on: tuple[Assumed, ...] = ()
    along: Vector | None = None
    remedy: Remedy | None = None
    lead: str = ""

    @property
    def parts(self) -> frozenset[str]:
        """Return the keys of the parts it names."""
        names = (self.a, self.b) if self.b else (self.a,)
        return frozenset(name.partition("/")[0] for name in names)

    @property
    def doubtful(self) -> bool:
        """Tell whether it is short by so little that only a tape tells."""
        if self.verdict is not Verdict.SHORT or self.margin_mm is None:
            return False
        return is_doubtful(self.margin_mm, self.tolerance_mm or 0.0)


@dataclass(frozen=True, slots=True, kw_only=True)
class ToOrder:
    """A part that is missing: how many, what, and for which part of the build."""

    count: int = 1
    what: str
    owner: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Check:
    """A build's verdict: its findings, worst first.

    ``to_order`` lists what is missing as parts.

    ``pairs`` holds the relation of every unordered pair of bodies where it was asked
    for, in the order of the build's bodies; None where it was not.  ``space`` is what
    leads run in, with the ways found through it: what is asked next may use them.
    """

    build: str
    verdict: Verdict
    findings: tuple[Finding, ...]
    notes: tuple[str, ...]
    pairs: tuple[Relation, ...] | None = None
    to_order: tuple[ToOrder, ...] = ()
    space: Passages | None = field(default=None, repr=False, compare=False)
