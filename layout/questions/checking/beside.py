"""The questions beside those of two bodies: stated limits, screws and plugs."""

from __future__ import annotations

from collections.abc import Callable
from typing import Final

from layout.build.placed import Build
from layout.parts.card.card_support import CardSupport
from layout.parts.case.case_panels import Opens
from layout.questions.bends.bends import cables_taken
from layout.questions.case.faces import shared_faces
from layout.questions.case.limits import stated_limits
from layout.questions.findings.answered import Answered, joined
from layout.questions.findings.finding import Group
from layout.questions.findings.tolerance import RSS, Stacking
from layout.questions.hookup.hookup import hookup
from layout.questions.hookup.kits import cooler_kits
from layout.questions.hookup.screws import screws
from layout.questions.reach.loops import hose_reach, pump_height
from layout.questions.reach.reach import reach

__all__ = ["beside"]


def _panel(build: Build, *, every: bool, stacking: Stacking) -> Answered:
    """Ask of a panel that swings or slides; most are lifted off."""
    if build.panel is None or build.panel.opens is Opens.LIFTED:
        return Answered()
    from layout.questions.case.panel import panel_opens  # noqa: PLC0415 (few builds)

    return panel_opens(build, every=every, stacking=stacking)


def _posts(build: Build, *, every: bool) -> Answered:
    """Ask of supports under cards, where there are any."""
    if not any(part.kind == CardSupport.kind for part in build.parts):
        return Answered()
    from layout.questions.case.props import posts_reach  # noqa: PLC0415 (few builds)

    return posts_reach(build, every=every)


_QUESTIONS: Final[tuple[tuple[Group, Callable[..., Answered]], ...]] = (
    (Group.DISTANCE, cables_taken),
    (Group.HOLES, cooler_kits),
    (Group.HOLES, screws),
    (Group.HOLES, shared_faces),
    (Group.HOOKUP, hookup),
    (Group.DISTANCE, pump_height),
    (Group.DISTANCE, _posts),
)


_STACKED: Final[tuple[tuple[Group, Callable[..., Answered]], ...]] = (
    (Group.DISTANCE, stated_limits),
    (Group.REACH, reach),
    (Group.REACH, hose_reach),
    (Group.DISTANCE, _panel),
)
"""Those whose findings have a tolerance."""


def beside(
    build: Build,
    groups: frozenset[Group],
    *,
    every: bool,
    stacking: Stacking = RSS,
) -> Answered:
    """Return the answers of the groups that are asked.

    ``every`` adds a clear finding for what is taken for granted.
    """
    stacked = (
        ask(build, every=every, stacking=stacking)
        for group, ask in _STACKED
        if group in groups
    )
    rest = (ask(build, every=every) for group, ask in _QUESTIONS if group in groups)
    return joined([*rest, *stacked])
