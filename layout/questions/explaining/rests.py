"""What closes a chain: the places that no figure of it tells."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from typing import Final

from layout.parts.form.form import Link
from layout.questions.findings.explanation import Contribution, Step
from layout.questions.findings.tolerance import ALLOWED_MM
from layout.standards.figure import practice

__all__ = ["REST", "rests"]

REST: Final = "where it is drawn, beyond these figures"
"""What is said of a step's remainder."""


def rests(
    chain: Sequence[Contribution], a_steps: Sequence[Step], b_steps: Sequence[Step]
) -> Iterator[Contribution]:
    """Yield what the steps have beyond the figures, without tolerance; often nothing.

    So that the signed figures add up to the gap.  It is told of the part whose steps
    have it: a seat may lie where the figures of two parts put it together.
    """
    left: dict[str, float] = {}
    for steps, sign in ((a_steps, -1.0), (b_steps, 1.0)):
        for step in steps:
            long_mm = sign * (step.to_mm - step.from_mm)
            left[step.owner] = left.get(step.owner, 0.0) + long_mm
    for each in chain:
        left[each.owner] = left.get(each.owner, 0.0) - each.mm
    rest_mm = math.fsum(left.values())
    if abs(rest_mm) <= ALLOWED_MM:
        return
    owner = min(left, key=lambda each: abs(left[each] - rest_mm))
    yield _rest(owner, rest_mm, towards_b=owner in {each.owner for each in b_steps})


def _rest(owner: str, mm: float, *, towards_b: bool) -> Contribution:
    return Contribution(
        owner=owner,
        link=Link(
            label=REST,
            plus_minus_mm=(0.0, 0.0, 0.0),
            figure=practice(mm, 0.0),
        ),
        mm=mm,
        plus_minus_mm=0.0,
        share=0.0,
        towards_b=towards_b,
    )
