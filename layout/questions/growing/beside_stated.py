"""What the bodies leave beside what a case's data sheet states: where they differ."""

from __future__ import annotations

from typing import Final

from layout.parts.case.case_inside import DISAGREE_MM
from layout.parts.kinds.dimensions import FINE_MM
from layout.questions.findings.finding import Finding
from layout.questions.findings.shown import down
from layout.questions.growing.search import Search, stated

__all__ = ["beside_stated", "said_down"]

_ALIKE_MM: Final = 0.05
"""Bodies and data sheet say the same: notes are told in tenths."""


def said_down(mm: float) -> str:
    """Return a largest figure in words, in hundredths and never above it."""
    return f"{down(mm)} mm"


def _as_stated(finding: Finding, limit_mm: float) -> str:
    """Return a limit as it is stated, and what it comes to where that is another."""
    if finding.why.endswith(" here"):
        return finding.why
    return f"the case's data sheet states {limit_mm:g} mm"


def beside_stated(search: Search, used_mm: float | None, suffix: str) -> str:
    """Return where what the bodies leave and what the case states differ."""
    grown, now_mm = search.grown, search.grown.dimension.now_mm
    at_now = stated(grown.remaker.build, grown.key, every=True)
    raised = grown.dimension.name == "fan raise"  # no limit is stated for that itself
    if raised or not at_now or search.bodies_mm is None:
        return ""
    build = grown.built(now_mm + 1.0)
    if build is None:
        return ""
    larger = {e.id: e for e in stated(build, grown.key, every=True)}
    for each in at_now:
        margin_mm, then = each.margin_mm or 0.0, larger.get(each.id)
        # a limit of this figure is nearer by as much as the figure grows
        if then is None or abs(margin_mm - (then.margin_mm or 0.0) - 1.0) > FINE_MM:
            continue
        stated_mm = now_mm + margin_mm
        off_mm = stated_mm - search.bodies_mm
        if abs(off_mm) < _ALIKE_MM:
            return ""
        word = "more" if off_mm > 0 else "less"
        agree = abs(off_mm) <= DISAGREE_MM
        close = f" (they agree within {DISAGREE_MM:g})" if agree else ""
        used = "no size" if used_mm is None else said_down(used_mm)
        return (
            f"{grown.key}, {grown.dimension.name}{suffix}: the bodies leave "
            f"{said_down(search.bodies_mm)}, {_as_stated(each, stated_mm)}, "
            f"{abs(off_mm):.1f} mm {word}{close}; {used} was used"
        )
    return ""
