"""A part's size beside a limit that its case states: a finding of one body."""

from __future__ import annotations

from typing import Final

from layout.geometry.space import Axis
from layout.questions.findings.advice import spoken
from layout.questions.findings.finding import Finding, Group, Verdict, verdict_of
from layout.questions.findings.remedy import Remedy
from layout.questions.findings.tolerance import Assumed, Stacking, tolerance_mm
from layout.values import dataclass

__all__ = ["STATED_LIMIT", "UNITS", "Stated"]

STATED_LIMIT: Final = "stated-limit"
_SOURCE: Final = "given in the case file"
UNITS: Final = {Axis.DEPTH: (1.0, 0.0, 0.0), Axis.WIDTH: (0.0, 0.0, 1.0)}
"""Unit vectors of the axes along which limits are stated."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Stated:
    """A part's size beside the limit that is stated for it."""

    a: str
    part: str
    what: str
    size_mm: float
    limit_mm: float
    told: str
    remedy: Remedy
    hint: str = ""
    axis: Axis | None = None
    rests_on: tuple[Assumed, ...] = ()
    readings: tuple[str, ...] = ()

    def finding(self, stacking: Stacking) -> Finding:
        """Return the finding; what is assumed may eat what is spare."""
        margin_mm = self.limit_mm - self.size_mm
        links = tuple((each.owner, each.link) for each in self.rests_on)
        scatter_mm = tolerance_mm(
            links, UNITS[self.axis] if self.axis else None, stacking
        )
        verdict = verdict_of(margin_mm, scatter_mm)
        return Finding(
            id=f"{STATED_LIMIT}:{self.part}:{self.what}",
            rule=STATED_LIMIT,
            group=Group.DISTANCE,
            a=self.a,
            b=None,
            gap_mm=self.limit_mm,
            need_mm=self.size_mm,
            tolerance_mm=scatter_mm,
            margin_mm=margin_mm,
            verdict=verdict,
            axis=self.axis,
            from_mm=None,
            to_mm=None,
            overlap=None,
            assumed=tuple(each.name for each in self.rests_on),
            why=f"the case's data sheet states {self.told}",
            source=_SOURCE,
            advice=self._advice(verdict),
            readings=self.readings,
            rests_on=self.rests_on,
            remedy=self.remedy if verdict.fails else None,
        )

    def _advice(self, verdict: Verdict) -> str:
        if verdict is Verdict.CLEAR:
            return ""
        over_mm = self.size_mm - self.limit_mm
        much = f"{over_mm:.1f} mm over" if over_mm > 0.0 else f"{-over_mm:.1f} mm under"
        return (
            f"{spoken(self.a)}: {self.what} {self.size_mm:.4g} is {much} what the "
            f"case's data sheet states ({self.told}): {self.remedy.told}{self.hint}"
        )
