"""How a build is judged: with which tolerances, and with advice where it fails."""
# ruff: noqa: PLC0415 (imports inside, as commands have them)

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from layout.build.remade import Remaker
    from layout.questions.findings.finding import Check
    from layout.questions.findings.tolerance import Stacking

__all__ = ["advised", "stacking"]


def stacking(worst_case: bool, sigma: float) -> Stacking:  # noqa: FBT001 (an option)
    """Return how tolerances are stacked, as the options ask for it."""
    from layout.questions.findings.tolerance import Stacking

    return Stacking(worst_case=worst_case, sigma=sigma)


def advised(made: Remaker, answer: Check) -> Check:
    """Return the answer with advice that was tried, where something must change."""
    if not answer.verdict.fails:
        return answer
    from layout.questions.mending.mending import mended

    return mended(made, answer)
