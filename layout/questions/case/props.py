"""Whether a post under a card can be set as high as the room it stands in."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from layout.build.placed import Build, PlacedPart
from layout.geometry.space import Axis, Direction
from layout.parts.card.card_support import REACHES, ROOM_UNDER, CardSupport
from layout.questions.findings.advice import spoken
from layout.questions.findings.answered import Answered
from layout.questions.findings.finding import Finding, Group, Verdict
from layout.questions.findings.tolerance import ALLOWED_MM
from layout.standards.figure import COMMON_PRACTICE

__all__ = ["posts_reach"]

_RULE: Final = "support-reaches"


def posts_reach(build: Build, *, every: bool) -> Answered:
    """Return a finding for each post that is too short; ``every`` adds the others."""
    posts = [each for each in build.parts if dict(each.stated).get(REACHES)]
    found = [_finding(build, each) for each in posts]
    return Answered(
        findings=tuple(e for e in found if every or e.verdict is not Verdict.CLEAR),
        notes=tuple(_idle(build)),
    )


def _idle(build: Build) -> Iterator[str]:
    """Yield a note for each support on the side to which its card does not sag."""
    for part in build.parts:
        if part.kind != CardSupport.kind:
            continue
        own = [each for each in build.bodies if each.part == part.key]
        if own[0].turn.direction(Direction.DOWN) is not build.stands.up.opposite:
            yield (
                f"{part.key}: as this case stands its card does not sag onto it; it "
                "bears nothing"
            )


def _finding(build: Build, part: PlacedPart) -> Finding:
    stated = dict(part.stated)
    high_mm, room_mm = stated[REACHES].mm, stated[ROOM_UNDER].mm
    lacks_mm = room_mm - high_mm
    reaches = lacks_mm <= ALLOWED_MM
    host = part.hosts[0]
    slots = [e.seat for e in build.parts if e.key == host and e.seat.startswith("slot")]
    bracket = ", or a bracket" if slots else ""
    return Finding(
        id=f"{_RULE}:{part.key}",
        rule=_RULE,
        group=Group.DISTANCE,
        a=part.key,
        b=host,
        gap_mm=high_mm,
        need_mm=room_mm,
        tolerance_mm=0.0,
        margin_mm=-lacks_mm,
        verdict=Verdict.CLEAR if reaches else Verdict.SHORT,
        axis=Axis.HEIGHT,
        from_mm=None,
        to_mm=None,
        overlap=None,
        assumed=(),
        why="a post must reach from what it stands on up to the card",
        source=COMMON_PRACTICE,
        advice=""
        if reaches
        else (
            f"{spoken(part.key)} is {high_mm:.1f} mm high at most and {room_mm:.1f} "
            f"lie under {spoken(host)}: take one {lacks_mm:.1f} mm longer{bracket}"
        ),
    )
