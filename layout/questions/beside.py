"""The questions beside those of two bodies: stated limits, screws and plugs."""

from __future__ import annotations

from collections.abc import Callable
from typing import Final

from layout.build.placed import Build
from layout.parts.card_support import CardSupport
from layout.parts.case_panels import Opens
from layout.questions.answered import Answered, joined
from layout.questions.bends import cables_taken
from layout.questions.faces import shared_faces
from layout.questions.finding import Group
from layout.questions.hookup import hookup
from layout.questions.kits import cooler_kits
from layout.questions.limits import stated_limits
from layout.questions.loops import hose_reach, pump_height
from layout.questions.reach import reach
from layout.questions.screws import screws
from layout.questions.tolerance import RSS, Stacking

__all__ = ["beside"]


def _panel(build: Build, *, every: bool, stacking: Stacking) -> Answered:
    """Ask of a panel that swings or slides; most are lifted off."""
    if build.panel is None or build.panel.opens is Opens.LIFTED:
        return Answered()
    from layout.questions.panel import panel_opens  # noqa: PLC0415 (few builds)

    return panel_opens(build, every=every, stacking=stacking)


def _posts(build: Build, *, every: bool) -> Answered:
    """Ask of supports under cards, where there are any."""
    if not any(part.kind == CardSupport.kind for part in build.parts):
        return Answered()
    from layout.questions.props import posts_reach  # noqa: PLC0415 (few builds)

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
