"""A length less the way it must take, against the slack that it needs."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from layout.build.placed import Build
from layout.questions.findings.answered import listed
from layout.questions.findings.finding import Finding, Group, Verdict, verdict_of
from layout.questions.findings.holes import Passage
from layout.questions.findings.measure import needed, told
from layout.questions.findings.remedy import Remedy
from layout.questions.findings.tolerance import Stacking
from layout.questions.reach.drift import Moved, stacked_mm
from layout.standards.figure import COMMON_PRACTICE
from layout.standards.supplies import NO_TENSION
from layout.values import dataclass

__all__ = ["Slack", "asked_slack", "passing"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Slack:
    """What a lead or a hose has beyond its way, and what is said of it.

    Parameters
    ----------
    rule, id, a, b, why, source : str
        As in the finding.
    spare_mm, need_mm : float
        Length less way, and what of it is needed.
    moved : tuple of Moved
        Every figure that the spare length rests on: length first, both ends, corners.
    taken : tuple of str
        What else is taken for granted.
    readings : tuple of str
        What the figures are measured from.
    has : str
        Its subject and verb, as 'the hoses of the pump have'.
    remedy : str
        What is told of it where it is too short.
    helps : Remedy, optional
        What of that text may help.
    lead : str
        Which lead of its part it is.
    """

    rule: str
    id: str
    a: str
    b: str
    why: str
    source: str
    spare_mm: float
    need_mm: float
    moved: tuple[Moved, ...]
    has: str
    remedy: str
    taken: tuple[str, ...] = ()
    readings: tuple[str, ...] = ()
    helps: Remedy | None = None
    lead: str = ""

    def finding(self, stacking: Stacking) -> Finding:
        """Return the finding on it, its figures stacked as asked."""
        scatter_mm = stacked_mm(self.moved, stacking)
        margin_mm = self.spare_mm - self.need_mm
        assumed = tuple(each.assumed for each in self.moved if each.assumed)
        verdict = verdict_of(margin_mm, scatter_mm)
        measure = "; ".join(map(told, needed(margin_mm, assumed)))
        guessed = verdict is Verdict.SHORT and self.moved[0].assumed is not None
        return Finding(
            id=self.id,
            rule=self.rule,
            group=Group.REACH,
            a=self.a,
            b=self.b,
            gap_mm=self.spare_mm,
            need_mm=self.need_mm,
            tolerance_mm=scatter_mm,
            margin_mm=margin_mm,
            verdict=verdict,
            axis=None,
            from_mm=None,
            to_mm=None,
            overlap=None,
            assumed=(*(each.name for each in assumed), *self.taken),
            why=f"{self.why}; the length is assumed" if guessed else self.why,
            source=self.source,
            rests_on=assumed,
            readings=self.readings,
            advice=self._advice(verdict, measure),
            remedy=self.helps if verdict.fails else None,
            lead=self.lead,
        )

    def _advice(self, verdict: Verdict, measure: str) -> str:
        first = f"measure first: {measure}" if measure else ""
        if verdict is Verdict.SHORT:
            # long enough yet, for all that is known: a tape before an order
            return f"{first}; as assumed, {self.remedy}" if first else self.remedy
        if verdict is Verdict.TIGHT and not first:
            return (
                f"{self.has} {self.spare_mm:.0f} mm to spare, but the figures may be "
                "off by more: measure before ordering"
            )
        return first


def asked_slack(build: Build, rule: str) -> tuple[float, str]:
    """Return what a rule asks of a lead or hose beyond its way, and who says so."""
    given_mm = dict(build.needs).get(rule)
    return (_USUAL_MM, _SOURCE) if given_mm is None else (given_mm, "given in the file")


_USUAL_MM: Final = 20.0
_SOURCE: Final = f"no tension: {NO_TENSION}; slack: {COMMON_PRACTICE}"


def passing(holes: Sequence[Passage]) -> tuple[str, tuple[str, ...]]:
    """Return by which holes a way goes, in words, and which of them are assumed."""
    taken = tuple(f"case: {hole.name} in the tray" for hole in holes if hole.assumed)
    names = [hole.name for hole in holes]
    return f"through {listed(names)}" if names else "on one side of the tray", taken
