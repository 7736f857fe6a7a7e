"""Which fans stand on a face together: those of a build, and what else would fit."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from itertools import combinations

from layout.build.placed import Build, Fixing
from layout.parts.cooling.fan_face import Together, together, told
from layout.parts.form.form import Seat, SeatSort
from layout.questions.findings.advice import spoken
from layout.questions.findings.answered import Answered, finding_of
from layout.questions.findings.finding import Group, Verdict
from layout.values import dataclass

__all__ = ["Face", "faces", "shared_faces"]

_RULE = "fans-on-face"
_TOUCH_MM = 1e-6


@dataclass(frozen=True, slots=True, kw_only=True)
class Face:
    """A side of a mount's sheet, and every choice of fans that fills it."""

    name: str
    choices: tuple[Together, ...]

    @property
    def told(self) -> str:
        """Return the choices in words, the one with most fans first."""
        return ", or ".join(
            " and ".join(f"{count} of {size}" for size, count in each)
            for each in sorted(self.choices, key=_most_first)
        )


def _most_first(choice: Together) -> tuple[int, Together]:
    return -sum(size * count for size, count in choice), choice


def faces(seats: Iterable[Seat]) -> tuple[Face, ...]:
    """Return what stands together on each side of each mount among seats."""
    return tuple(
        Face(name=seat.name, choices=together(seat.rows))
        for seat in seats
        if seat.sort is SeatSort.FANS and seat.rows
    )


def shared_faces(build: Build, *, every: bool) -> Answered:
    """Return the parts that overlap on one side of a mount, and what would fit.

    ``every`` adds a clear finding for parts that share one and do not overlap.
    """
    on = [each for each in build.fixings if each.span_mm is not None]
    findings = []
    for one, other in combinations(on, 2):
        if (one.host, one.seat) != (other.host, other.seat):
            continue
        common_mm = _common_mm((one, other))
        if common_mm <= _TOUCH_MM:
            if every:
                findings.append(
                    finding_of(
                        _RULE,
                        Group.HOLES,
                        (other.part, one.part),
                        verdict=Verdict.CLEAR,
                        why=f"both have room beside one another on {one.seat}",
                    )
                )
            continue
        findings.append(
            finding_of(
                _RULE,
                Group.HOLES,
                (other.part, one.part),
                verdict=Verdict.MISSING,
                why=f"they share {common_mm:.1f} mm of the {one.seat} mount",
                advice=f"{spoken(other.part)} and {spoken(one.part)} overlap by "
                f"{common_mm:.1f} mm on the {one.seat} mount: what stands there "
                f"together is {told(one.rows)}; or use another mount for one of them",
            )
        )
    return Answered(findings=tuple(findings))


def _common_mm(pair: Sequence[Fixing]) -> float:
    """Return the length of a mount that two parts both take."""
    spans = [each.span_mm for each in pair if each.span_mm is not None]
    return min(end for _, end in spans) - max(start for start, _ in spans)
