"""A check for readers: a JSON object for programs, rows and lines for people."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterable
from typing import Any, Final

from layout.geometry.relations.relation import Overlap, Relation, State
from layout.geometry.space import Vector
from layout.parts.form.link import said_mm
from layout.questions.findings.finding import Check, Finding, Verdict
from layout.questions.findings.measure import Measurement, shortest
from layout.questions.findings.shown import places_of, shown
from layout.values import dataclass

__all__ = [
    "BETWEEN",
    "Row",
    "advice",
    "as_json",
    "closing",
    "notes",
    "orders",
    "readings",
    "rows",
]

SCHEMA: Final = 1
"""Raised when a program that reads the JSON would have to change."""

Json = dict[str, Any]


def as_json(check: Check) -> Json:
    """Return the object that ``check --json`` prints."""
    whole: Json = {
        "schema": SCHEMA,
        "build": check.build,
        "units": "mm",
        "verdict": check.verdict.value,
        "findings": [_finding(each) for each in check.findings],
    }
    if check.to_order:
        whole["order_parts"] = [
            {"count": each.count, "what": each.what, "for": each.owner}
            for each in check.to_order
        ]
    if measure := shortest(check.findings):
        whole["measure"] = [_measurement(each) for each in measure]
    if check.pairs is not None:
        whole["pairs"] = [_pair(each) for each in check.pairs]
    return whole


def _finding(finding: Finding) -> Json:
    return {
        "id": finding.id,
        "rule": finding.rule,
        "group": finding.group.value,
        "a": finding.a,
        "b": finding.b,
        "gap_mm": _number(finding.gap_mm),
        "need_mm": _number(finding.need_mm),
        "tolerance_mm": _number(finding.tolerance_mm),
        "margin_mm": _number(finding.margin_mm),
        "verdict": finding.verdict.value,
        "axis": finding.axis.value if finding.axis else None,
        "from_mm": _point(finding.from_mm),
        "to_mm": _point(finding.to_mm),
        "overlap": _overlap(finding.overlap),
        "assumed": list(finding.assumed),
        "why": _why(finding),
        "source": finding.source,
    }


def _measurement(measurement: Measurement) -> Json:
    return {
        "part": measurement.part,
        "figure": measurement.figure,
        "tape": measurement.tape,
        "field": measurement.entry or None,
        "assumed_mm": _number(measurement.assumed_mm),
        "plus_minus_mm": _number(measurement.plus_minus_mm),
        "findings": list(measurement.settles),
    }


def _why(finding: Finding) -> str:
    """Return the reason, and what the figures behind it are measured from."""
    told = "; ".join(finding.readings)
    return f"{finding.why} (measured from: {told})" if told else finding.why


def _pair(pair: Relation) -> Json:
    witness = pair.witness if pair.state is not State.INTERFERING else None
    return {
        "a": pair.a,
        "b": pair.b,
        "state": pair.state.value,
        "gap_mm": _number(pair.gap_mm),
        "from_mm": _point(witness.from_mm if witness else None),
        "to_mm": _point(witness.to_mm if witness else None),
        "overlap": _overlap(pair.overlap),
    }


def _number(mm: float | None) -> float | None:
    """Return a plain number: no minus before a zero, nothing of numpy's."""
    return None if mm is None else float(mm) + 0.0


def _point(point: Vector | None) -> list[float | None] | None:
    return None if point is None else [_number(each) for each in point]


def _overlap(overlap: Overlap | None) -> Json | None:
    if overlap is None:
        return None
    return {
        "axis": overlap.axis.value,
        "mm": _number(overlap.mm),
        "sign": overlap.sign,
    }


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """One line of the table, as text; lengths in mm to one place."""

    number: str
    between: str
    gap: str
    need: str
    margin: str
    verdict: str
    where: str


BETWEEN: Final = " \N{EN DASH} "
"""Stands between the two names of a row."""


def rows(check: Check) -> tuple[Row, ...]:
    """Return the table, worst first, numbered as on the drawing."""
    names = Counter((each.a, each.b) for each in check.findings)
    return tuple(
        Row(
            number=str(number),
            between=f"{each.a}{BETWEEN}{each.b}" if each.b else each.a,
            gap=shown(each.gap_mm, places=places_of(each.margin_mm)),
            need=shown(each.need_mm, places=places_of(each.margin_mm)),
            margin=shown(each.margin_mm, signed=True),
            verdict=each.verdict.value,
            where=_where(each, alone=names[each.a, each.b] == 1),
        )
        for number, each in enumerate(check.findings, start=1)
    )


_FINEST_MM: Final = 0.005
"""Less room, or want of it, is none; more is shown to two places where one shows 0."""


def _where(finding: Finding, *, alone: bool) -> str:
    """Return along which axis, and why it matters where there is too little room.

    What is clear says the reason's first words where another row has its two names.
    """
    along = f"along {finding.axis.value}" if finding.axis else ""
    why = finding.why
    if finding.verdict is Verdict.CLEAR and finding.gap_mm is not None:
        why = "" if alone else _FIRST_WORDS.split(why)[0]
    return ": ".join(filter(None, (finding.lead, along, why)))


_FIRST_WORDS: Final = re.compile("[:;,]")


def advice(check: Check) -> tuple[tuple[str, str], ...]:
    """Return number and sentence of every finding that has something to say."""
    return tuple(
        (str(number), each.advice)
        for number, each in enumerate(check.findings, start=1)
        if each.advice
    )


def readings(check: Check) -> tuple[str, ...]:
    """Return each figure with its reading, and the numbers of what rests on it."""
    rests: dict[str, list[str]] = {}
    for number, each in enumerate(check.findings, start=1):
        for told in each.readings:
            rests.setdefault(told, []).append(str(number))
    return tuple(f"{told} ({_rows(numbers)})" for told, numbers in rests.items())


def measurements(check: Check) -> tuple[str, ...]:
    """Return the shortest list of measurements, each with the rows that ask for it."""
    numbers = {each.id: str(n) for n, each in enumerate(check.findings, start=1)}
    return tuple(
        f"{each.part}: {each.tape} ({_assumed(each)}); "
        f"{_rows([numbers[name] for name in each.settles])}{_entry(each)}"
        for each in shortest(check.findings)
    )


def _assumed(measurement: Measurement) -> str:
    mm = measurement.assumed_mm
    figure = "" if mm is None else f"{mm:.4g} "
    return f"{figure}± {said_mm(measurement.plus_minus_mm)} assumed"


def _entry(measurement: Measurement) -> str:
    entry = measurement.entry
    if not entry:
        return "; no field takes it: measure the room itself"
    return f"; write it as '{entry}' of {measurement.part}"


def _rows(numbers: list[str]) -> str:
    return f"{'row' if len(numbers) == 1 else 'rows'} {', '.join(numbers)}"


def orders(check: Check) -> tuple[str, ...]:
    """Return what is missing as parts to order."""
    return tuple(
        f"{each.count} x {each.what} (for {each.owner})" for each in check.to_order
    )


def notes(check: Check) -> tuple[str, ...]:
    """Return what was derived, assumed or is unverified, each once."""
    return tuple(dict.fromkeys(check.notes))


def closing(check: Check) -> str:
    """Return the verdict on the whole build in one line.

    Examples
    --------
    >>> closing(Check(build="b", verdict=Verdict.CLEAR, findings=(), notes=()))
    'b: clear (nothing was asked that could fail)'
    """
    counts = _counts(each.verdict for each in check.findings)
    told = ", ".join(f"{count} {word}" for word, count in counts)
    told = told or "nothing was asked that could fail"
    return f"{check.build}: {check.verdict.value} ({told})"


def _counts(verdicts: Iterable[Verdict]) -> list[tuple[str, int]]:
    """Return how many of each verdict, worst first, without those that are none."""
    every = list(verdicts)
    worst_first = reversed(Verdict)
    return [(v.value, every.count(v)) for v in worst_first if v in every]
