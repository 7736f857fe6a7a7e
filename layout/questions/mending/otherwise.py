"""Whether another reading of a figure explains why two bodies lack room.

A figure measured from somewhere else is off by what lies between its readings.  Where
just that is wanting, the data sheet is worth a second look before a part is changed.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from typing import Any, Final

from layout.parts.form.reading import MEASURED_FROM, Reading, of
from layout.parts.kinds.kinds import Spec
from layout.questions.case.stated import STATED_LIMIT
from layout.questions.clearances.asked import CASE
from layout.questions.findings.advice import whose
from layout.questions.findings.finding import Finding
from layout.questions.mending.trials import Trials
from layout.standards.figure import Figure

__all__ = ["other_reading"]

_AGREE_MM: Final = 3.0
"""Up to which difference two figures agree, as where a case states a limit."""


def other_reading(trials: Trials, finding: Finding) -> str:
    """Return what reading of a figure would explain a finding; empty: none does.

    A finding on a stated limit tells its own.
    """
    wanting_mm = -(finding.margin_mm or 0.0)
    if finding.rule == STATED_LIMIT or wanting_mm <= 0.0:
        return ""
    for key in sorted(finding.parts - {CASE}):
        spec = trials.remaker.plan.spec(key)
        for word, name, other in _read_otherwise(spec, wanting_mm):
            if trials.explains(finding, ((key, other),)):
                return (
                    f"; were {whose(key)} {word} told in the reading '{name}', there "
                    "would be room: look at its data sheet"
                )
    return ""


def _read_otherwise(
    spec: Spec | None, wanting_mm: float
) -> Iterator[tuple[str, str, Spec]]:
    """Yield a part with each of its figures in a reading that is about as far off."""
    if spec is None:
        return
    declared: Any = spec
    told = dict(getattr(spec, MEASURED_FROM, ()))
    for word, readings in of(spec).items():
        figure = getattr(spec, word.replace(" ", "_"))
        if not isinstance(figure, Figure):
            continue
        now = readings.other(told.get(word, ""))
        for name in readings.names:
            off_mm = abs(_over(readings.other(name)) - _over(now))
            if name == (now.name if now else readings.usual):
                continue
            if abs(off_mm - wanting_mm) <= _AGREE_MM:
                read = tuple({**told, word: name}.items())
                yield word, name, replace(declared, **{MEASURED_FROM: read})


def _over(reading: Reading | None) -> float:
    """Return how far a reading's figure lies over the usual one's."""
    if reading is None or reading.step is None:
        return 0.0
    return -reading.sign * reading.step.mm
