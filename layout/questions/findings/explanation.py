"""What explains a finding: a chain of lengths, or what is needed and what is there."""

from __future__ import annotations

from typing import Final

from layout.geometry.space import Vector
from layout.parts.form.form import Link
from layout.questions.findings.finding import Finding
from layout.questions.findings.tolerance import STATED_SIGMA, Stacking
from layout.values import dataclass

__all__ = ["NOTHING_OFF", "Account", "Contribution", "Explanation", "Fact", "Step"]

NOTHING_OFF: Final = "No figure between the two may be off along this gap."
"""What is told where nothing is to be stacked, as under a stated limit."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Contribution:
    """One figure of the chain.

    Parameters
    ----------
    owner : str
        The part whose figure it is.
    mm : float
        What it adds to the gap, with its sign.
    plus_minus_mm : float
        How far it may move the gap: its scatter along the gap.
    share : float
        Its part of the gap's variance, 0 to 1.
    towards_b : bool
        Whether it lies on the way to b; else on the way to a.
    """

    owner: str
    link: Link
    mm: float
    plus_minus_mm: float
    share: float
    towards_b: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """From one seat to the next, or to the face: places along the gap, in mm.

    The places grow from a to b; the case's origin is at 0.
    """

    owner: str
    from_mm: float
    to_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Explanation:
    """A finding with what it rests on.

    Parameters
    ----------
    number : int
        Its number in the table of a check that stacks the same way.
    along : Vector or None
        Unit vector from a to b along which the gap is stacked; None for a lead's way,
        which has no one direction: there the worst axis counts.
    chain : tuple of Contribution
        The figures between the two bodies, from the case outwards; shared ones are
        left out, they cancel.
    a_steps, b_steps : tuple of Step
        The way from the nearest seat that both share to either face.
    rss_mm, worst_mm : float
        The chain's scatter by root sum of squares (at 3 standard deviations), and if
        every figure is off at once.
    chance : float
        The probability that the gap is under its need.
    heading : str
        What is explained, where that is no gap between two bodies.
    closing : str
        What the chain closes in: a gap, an overlap, what is left of a lead.
    room_mm : float
        How long that is; below zero where it is wanting.
    drawn_number : int
        Its number on drawings, which stack as usual, where that is another; else 0.
    """

    build: str
    number: int
    finding: Finding
    along: Vector | None
    chain: tuple[Contribution, ...]
    a_steps: tuple[Step, ...]
    b_steps: tuple[Step, ...]
    rss_mm: float
    worst_mm: float
    stacking: Stacking
    chance: float
    heading: str = ""
    closing: str = "gap"
    room_mm: float
    drawn_number: int = 0

    @property
    def closes(self) -> bool:
        """Tell whether it is a chain along one line, whose figures add up to a gap."""
        return self.along is not None and not self.heading

    @property
    def straight(self) -> bool:
        """Tell whether it runs along depth, height or width."""
        return self.along is not None and 1.0 in map(abs, self.along)

    @property
    def by_figure(self) -> tuple[tuple[Step, ...], tuple[Step, ...]]:
        """Return both ways, figure by figure, from one place to either face.

        A step's owner is its figure's; together they close in the gap.
        """
        ways: tuple[list[Step], list[Step]] = ([], [])
        for each in self.chain:
            way, sign = ways[each.towards_b], 1.0 if each.towards_b else -1.0
            at_mm = way[-1].to_mm if way else 0.0
            way.append(
                Step(owner=each.owner, from_mm=at_mm, to_mm=at_mm + sign * each.mm)
            )
        return tuple(ways[0]), tuple(ways[1])

    @property
    def stacked_mm(self) -> float:
        """Return the scatter as it was asked for."""
        if self.stacking.worst_case:
            return self.worst_mm
        return self.rss_mm * self.stacking.sigma / STATED_SIGMA


@dataclass(frozen=True, slots=True, kw_only=True)
class Fact:
    """One thing that a finding without a length rests on.

    Parameters
    ----------
    owner : str
        Whose it is.
    what : str
        What is needed or there: ``needs 2 x 8-pin card power``.
    source : str
        Who says so.
    assumed : bool
        Whether nobody does.
    """

    owner: str
    what: str
    source: str
    assumed: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Account:
    """A finding that has no length, with what is needed and what is there.

    Its numbers are those of an explanation.
    """

    build: str
    number: int
    finding: Finding
    facts: tuple[Fact, ...]
    drawn_number: int = 0
