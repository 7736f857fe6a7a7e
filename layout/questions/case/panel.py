"""Whether a side panel opens with what is fixed to its inside, and what room it takes.

A panel in hooks slides, and a hinged one swings, with its fans on it: what they meet
in the panel's plane keeps it shut.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import Final

from layout.build.placed import Build, PlacedBody
from layout.geometry.space import Axis
from layout.parts.case.case_fields import Face, Material
from layout.parts.case.case_panels import Opens, SidePanel
from layout.parts.form.form import Role
from layout.questions.findings.advice import spoken
from layout.questions.findings.answered import Answered
from layout.questions.findings.finding import Finding, Group, Verdict, verdict_of
from layout.questions.findings.tolerance import Stacking, links_between, tolerance_mm
from layout.standards.figure import COMMON_PRACTICE

__all__ = ["panel_opens"]

_RULE: Final = "panel-opens"
_FELT_GIVES_MM: Final = 0.5
"""By how much a lining's edge is pressed together; common practice, no source."""
_ASKED_MM: Final = 50.0
"""Room beyond what a panel needs that is still told."""


def panel_opens(build: Build, *, every: bool, stacking: Stacking) -> Answered:
    """Return a finding for each part on the panel that keeps it shut, and notes.

    ``every`` adds those that let it open.
    """
    panel, size_mm = build.panel, build.case_size_mm
    if panel is None or size_mm is None or panel.opens is Opens.LIFTED:
        return Answered()
    on_it = [
        each
        for each in build.bodies
        if each.where == Face.PANEL_SIDE.value and each.role.is_matter
    ]
    found = [_nearest(build, panel, each, stacking=stacking) for each in on_it]
    told = [each for each in found if each is not None]
    return Answered(
        findings=tuple(e for e in told if every or e.verdict is not Verdict.CLEAR),
        notes=(_outside(panel, size_mm[0]), *_edges(panel, size_mm[0])),
    )


def _outside(panel: SidePanel, depth_mm: float) -> str:
    """Return what room the panel takes outside the case."""
    glass = ", and hold the pane with both hands" if _is_glass(panel) else ""
    if panel.opens.hinged:
        return (
            f"side panel {panel.opens.value}: it swings through {depth_mm:.0f} mm "
            f"beside the case; keep that free on the desk{glass}"
        )
    return (
        f"side panel {panel.opens.value}: it slides {panel.slide.mm:g} mm before it "
        f"comes off; keep that free behind the case, past its plugs{glass}"
    )


def _edges(panel: SidePanel, depth_mm: float) -> Iterator[str]:
    """Yield where a panel's own edge, and that of its lining, meet the frame.

    The pane lies over the frame: its edge turns past the hinge by up to its thickness.
    What is glued to it within the frame moves along depth as the panel opens.
    """
    hinge = "front" if panel.opens is Opens.HINGED_FRONT else "rear"
    if panel.opens.hinged:
        yield (
            f"side panel {panel.opens.value}: its own edge turns up to "
            f"{panel.thickness.mm:g} mm past the case's {hinge}; see that the frame is "
            "cut back there"
        )
    if panel.lining is None:
        return
    far = "front" if panel.opens is Opens.HINGED_REAR else "rear"
    moves_mm = panel.slide.mm
    if panel.opens.hinged:
        moves_mm = math.hypot(depth_mm, panel.lining.mm) - depth_mm
    if moves_mm >= _FELT_GIVES_MM:
        yield (
            f"the side panel's lining moves {moves_mm:.1f} mm along depth as the panel "
            f"opens: it must end that much before the {far}'s frame"
        )


def _is_glass(panel: SidePanel) -> bool:
    return panel.material is Material.GLASS


def _needed_mm(panel: SidePanel, body: PlacedBody, depth_mm: float) -> float:
    """Return how far a body moves along depth, at most, while the panel opens.

    The inner edge farthest from a hinge swings on the longer radius.
    """
    if not panel.opens.hinged:
        return panel.slide.mm
    box = body.body.bounds
    at_front = panel.opens is Opens.HINGED_FRONT
    far_mm = depth_mm - box.low[0] if at_front else box.high[0]
    deep_mm = box.high[2] - box.low[2]
    return math.hypot(far_mm, deep_mm) - far_mm


def _nearest(
    build: Build, panel: SidePanel, body: PlacedBody, *, stacking: Stacking
) -> Finding | None:
    """Return what is first met by a body on the panel; None where nothing is near."""
    from layout.geometry.travel.travel import blocked  # noqa: PLC0415 (few panels need it)

    way, size_mm = panel.opens.way, build.case_size_mm
    if way is None or size_mm is None:
        return None
    need_mm = _needed_mm(panel, body, size_mm[0])
    end_mm = way.sign * (need_mm + _ASKED_MM)
    travel_mm = (min(0.0, end_mm), max(0.0, end_mm))
    met: list[tuple[float, PlacedBody]] = []
    for other in build.bodies:
        if other.part == body.part or not _stays(other):
            continue
        stretches = blocked(other.body, body.body, Axis.DEPTH, travel_mm=travel_mm)
        if stretches:
            met.append((min(abs(e) for pair in stretches for e in pair), other))
    if not met:
        return None
    free_mm, other = min(met, key=lambda each: each[0])
    return _finding(
        body, other, free_mm=free_mm, need_mm=need_mm, way=way.sign, stacking=stacking
    )


def _stays(other: PlacedBody) -> bool:
    """Tell whether a body stays where it is while the panel opens."""
    on_panel = other.where == Face.PANEL_SIDE.value or other.role is Role.SIDE_PANEL
    return other.role.is_matter and not on_panel


def _finding(
    body: PlacedBody,
    other: PlacedBody,
    *,
    free_mm: float,
    need_mm: float,
    way: int,
    stacking: Stacking,
) -> Finding:
    along = (float(way), 0.0, 0.0)
    scatter_mm = tolerance_mm(links_between(body, other, along), along, stacking)
    margin_mm = free_mm - need_mm
    fans = body.role is Role.FAN
    thinner = "thinner fans, or move them" if fans else "a thinner one, or move it"
    return Finding(
        id=f"{_RULE}:{body.name}:{other.name}",
        rule=_RULE,
        group=Group.DISTANCE,
        a=body.name,
        b=other.name,
        gap_mm=free_mm,
        need_mm=need_mm,
        tolerance_mm=scatter_mm,
        margin_mm=margin_mm,
        verdict=verdict_of(margin_mm, scatter_mm),
        axis=Axis.DEPTH,
        from_mm=None,
        to_mm=None,
        overlap=None,
        assumed=(),
        why="the side panel must open with what is fixed to its inside",
        source=COMMON_PRACTICE,
        advice=(
            f"{spoken(body.name)} moves {need_mm:.1f} mm along depth as the side panel "
            f"opens, and {free_mm:.1f} are free before {spoken(other.name)}: take "
            f"{thinner} on the panel"
        ),
        along=along,
    )
