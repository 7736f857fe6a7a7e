"""An explanation for readers: the chain of figures under one finding."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any, Final

from layout.answers.grid import Column, grid, paragraph
from layout.questions.findings.advice import percent, spoken
from layout.questions.findings.explanation import (
    NOTHING_OFF,
    Account,
    Contribution,
    Explanation,
    Fact,
    Step,
)
from layout.questions.findings.finding import Finding
from layout.questions.findings.shown import shown
from layout.questions.findings.tolerance import STATED_SIGMA
from layout.standards.figure import Figure

__all__ = ["NORMAL", "as_json", "as_table", "stacked"]

NORMAL = (
    "every figure scatters normally about its value, independent of the others, its "
    f"plus-minus at {STATED_SIGMA:g} standard deviations"
)
"""What the probability rests on."""


def as_json(told: Explanation | Account) -> dict[str, Any]:
    """Return the object that ``explain --json`` prints."""
    finding = told.finding
    head = {
        "schema": 1,
        "build": told.build,
        "units": "mm",
        "number": told.number or None,
        "number_on_drawings": told.drawn_number or told.number or None,
        "id": finding.id,
        "a": finding.a,
        "b": finding.b,
        "gap_mm": finding.gap_mm,
        "need_mm": finding.need_mm,
        "margin_mm": finding.margin_mm,
        "tolerance_mm": finding.tolerance_mm,
        "verdict": finding.verdict.value,
    }
    ends = {"why": finding.why, "source": finding.source}
    if isinstance(told, Account):
        return {**head, "facts": [_fact(each) for each in told.facts], **ends}
    along = None if told.along is None else [each + 0.0 for each in told.along]
    return {
        **head,
        "along": along,
        "chain": [_figure(each) for each in told.chain],
        "steps": {"a": _steps(told.a_steps), "b": _steps(told.b_steps)},
        "root_sum_square_mm": told.rss_mm,
        "worst_case_mm": told.worst_mm,
        "stacked_mm": told.stacked_mm,
        "probability_under_need": told.chance,
        "assuming": NORMAL,
        **ends,
    }


def _steps(steps: Sequence[Step]) -> list[dict[str, Any]]:
    return [
        {"name": each.owner, "from_mm": each.from_mm, "to_mm": each.to_mm}
        for each in steps
    ]


def _fact(fact: Fact) -> dict[str, Any]:
    return {
        "part": fact.owner,
        "what": fact.what,
        "source": fact.source,
        "assumed": fact.assumed,
    }


def _figure(each: Contribution) -> dict[str, Any]:
    figure = each.link.figure
    return {
        "part": each.owner,
        "figure": each.link.label,
        "mm": figure.mm,
        "adds_mm": each.mm,
        "measured_from": figure.restated.reading if figure.restated else None,
        "plus_minus_mm": each.plus_minus_mm,
        "share_of_variance": each.share,
        "standing": figure.standing.value,
        "source": figure.source,
        "assumed": figure.assumed,
    }


_COLUMNS = (
    Column("part"),
    Column("figure"),
    Column("mm", number=True),
    Column("adds", number=True),
    Column("±", number=True),
    Column("share", number=True),
    Column("standing and source"),
)


def as_table(
    told: Explanation | Account, *, width: int = 80, in_colour: bool = False
) -> str:
    """Return the chain with the sums under it; without a length what is there."""
    if isinstance(told, Account):
        return _account(told, width=width, in_colour=in_colour)
    blocks = [paragraph(_head(told), width)]
    if told.heading:
        pieces = [_piece(each) for each in (*told.a_steps, *told.b_steps)]
        rows = [each for each in pieces if each[1]]
        blocks.append(grid(_PIECES, rows, width=width, in_colour=in_colour))
    if told.finding.readings:
        blocks.append(paragraph(_measured(told.finding), width))
    if told.chain:
        lines = [_line(each) for each in told.chain]
        blocks.append(grid(_COLUMNS, lines, width=width, in_colour=in_colour))
    blocks += [paragraph(each, width) for each in stacked(told)]
    return "\n\n".join(blocks)


_PIECES = (Column("step"), Column("mm", number=True))


def _piece(step: Step) -> tuple[str, str]:
    long_mm = step.to_mm - step.from_mm
    return step.owner, f"{long_mm:.1f}" if abs(long_mm) >= _LEAST_MM else ""


_ADDS_MM: Final = 0.005
"""Less adds nothing: the figure only tells how far the rest may be off."""
_LEAST_MM: Final = 0.05
"""Shorter steps only say whose a figure is."""


def _measured(finding: Finding) -> str:
    return f"Measured from: {'; '.join(finding.readings)}."


def _head(told: Explanation) -> str:
    finding = told.finding
    number = _numbered(told)
    between = f"{spoken(finding.a)} and {spoken(finding.b or '')}"
    if finding.overlap is not None:
        have = f"{finding.overlap.mm:.2f} mm into one another"
    else:
        have = f"{finding.gap_mm:.2f} mm apart"
    axis = f" along {finding.axis.value}" if finding.axis else ""
    margin = shown(finding.margin_mm, signed=True, places=2)
    what = told.heading or f"{between}: {have}{axis}"
    limit = finding.b is None
    need_mm = round(finding.need_mm or 0.0, 2)
    needed = "" if limit else f", {need_mm:g} needed"
    return (
        f"{number}{what}{needed} ({finding.why}; {finding.source}); margin {margin}: "
        f"{finding.verdict.value}"
    )


def _numbered(told: Explanation | Account) -> str:
    """Return the number before the text, with that on drawings where it is another."""
    if told.drawn_number:
        return f"{told.number} (on drawings {told.drawn_number}). "
    return f"{told.number}. " if told.number else ""


_FACTS = (Column("part"), Column("what"), Column("who says so"))
_NO_LENGTH: Final = (
    "This finding has no length: there is no gap to stack figures along and no chain "
    "to draw. It rests on what is needed and what is there."
)


def _account(told: Account, *, width: int, in_colour: bool) -> str:
    """Return what is needed and what is there, and what to do about it."""
    finding = told.finding
    number = _numbered(told)
    said = f"{finding.why}; {finding.source}"
    blocks = [
        f"{number}{spoken(finding.a)}: {finding.verdict.value} ({said})",
        _NO_LENGTH,
    ]
    blocks = [paragraph(each, width) for each in blocks]
    if told.facts:
        lines = [(each.owner, each.what, each.source) for each in told.facts]
        blocks.append(grid(_FACTS, lines, width=width, in_colour=in_colour))
    if finding.advice:
        blocks.append(paragraph(f"What to do: {finding.advice}", width))
    return "\n\n".join(blocks)


def _line(each: Contribution) -> list[str]:
    figure = each.link.figure
    standing, source = figure.standing.value, figure.source
    told = standing if source in {standing, ""} else f"{standing}: {source}"
    assumed = "assumed; " if figure.assumed else ""
    return [
        each.owner,
        name_of(figure, each.link.label),
        f"{figure.mm:.5g}",
        f"{each.mm:+.2f}" if abs(each.mm) >= _ADDS_MM else "",
        f"{each.plus_minus_mm:.3g}" if each.plus_minus_mm else "",
        percent(each.share) if each.share else "",
        f"{assumed}{told}",
    ]


def name_of(figure: Figure, label: str) -> str:
    """Return a figure's name, with what it was measured from where that is unusual."""
    return f"{label}, {figure.restated.reading}" if figure.restated else label


def stacked(told: Explanation) -> tuple[str, ...]:
    """Return the sums in words: root sum of squares, worst case, probability."""
    if not told.chain:
        return (NOTHING_OFF,)
    sums = (
        f"{_added(told)} Stacked: ± {told.rss_mm:.3g} by root sum of squares, "
        f"± {told.worst_mm:.3g} if every figure is off at once."
    )
    if told.stacking.sigma != STATED_SIGMA and not told.stacking.worst_case:
        sums += f" At {told.stacking.sigma:g} sigma: ± {told.stacked_mm:.3g}."
    if told.stacking.worst_case:
        sums += " Judged by the latter."
    chance = f"Probability of less than the need: {percent(told.chance)}, if {NORMAL}."
    quiet = (
        ("A pair that no rule names counts without tolerance.",)
        if told.finding.rule == "no-interference"
        else ()
    )
    return (sums, chance, *quiet)


_NO_CHAIN: Final = (
    "This is no chain along one line between two bodies: the steps add up, the figures "
    "only tell how far they may be off."
)


def _added(told: Explanation) -> str:
    """Return what the signed figures add up to, or that they are no chain."""
    if not told.closes:
        return _NO_CHAIN
    sum_mm = sum(each.mm for each in told.chain)
    slant = "" if told.straight else ", each counted by its share along the slant"
    return f"The figures add up to {sum_mm:.2f}{slant}: the {told.closing}."
