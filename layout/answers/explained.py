"""An explanation for readers: the chain of figures under one finding."""

from __future__ import annotations

from typing import Any

from layout.answers.grid import Column, grid, paragraph, shown
from layout.questions.advice import percent, spoken
from layout.questions.explain import Contribution, Explanation
from layout.questions.tolerance import STATED_SIGMA

__all__ = ["NORMAL", "as_json", "as_table", "stacked"]

NORMAL = (
    "every figure scatters normally about its value, independent of the others, its "
    f"plus-minus at {STATED_SIGMA:g} standard deviations"
)
"""What the probability rests on."""


def as_json(told: Explanation) -> dict[str, Any]:
    """Return the object that ``explain --json`` prints."""
    finding = told.finding
    return {
        "schema": 1,
        "build": told.build,
        "units": "mm",
        "number": told.number or None,
        "id": finding.id,
        "a": finding.a,
        "b": finding.b,
        "gap_mm": finding.gap_mm,
        "need_mm": finding.need_mm,
        "margin_mm": finding.margin_mm,
        "tolerance_mm": finding.tolerance_mm,
        "verdict": finding.verdict.value,
        "along": [each + 0.0 for each in told.along],
        "chain": [_figure(each) for each in told.chain],
        "root_sum_square_mm": told.rss_mm,
        "worst_case_mm": told.worst_mm,
        "stacked_mm": told.stacked_mm,
        "probability_under_need": told.chance,
        "assuming": NORMAL,
        "why": finding.why,
        "source": finding.source,
    }


def _figure(each: Contribution) -> dict[str, Any]:
    figure = each.link.figure
    return {
        "part": each.owner,
        "figure": each.link.label,
        "mm": figure.mm,
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
    Column("±", number=True),
    Column("share", number=True),
    Column("standing and source"),
)


def as_table(told: Explanation, *, width: int = 80, in_colour: bool = False) -> str:
    """Return the chain with the sums under it."""
    blocks = [paragraph(_head(told), width)]
    if told.chain:
        lines = [_line(each) for each in told.chain]
        blocks.append(grid(_COLUMNS, lines, width=width, in_colour=in_colour))
    blocks += [paragraph(each, width) for each in stacked(told)]
    return "\n\n".join(blocks)


def _head(told: Explanation) -> str:
    finding = told.finding
    between = f"{spoken(finding.a)} and {spoken(finding.b or '')}"
    number = f"{told.number}. " if told.number else ""
    if finding.overlap is not None:
        have = f"{finding.overlap.mm:.2f} mm into one another"
    else:
        have = f"{finding.gap_mm:.2f} mm apart"
    axis = f" along {finding.axis.value}" if finding.axis else ""
    margin = shown(finding.margin_mm, signed=True, places=2)
    return (
        f"{number}{between}: {have}{axis}, {finding.need_mm:g} needed "
        f"({finding.why}; {finding.source}); margin {margin}: {finding.verdict.value}"
    )


def _line(each: Contribution) -> list[str]:
    figure = each.link.figure
    standing, source = figure.standing.value, figure.source
    told = standing if source in {standing, ""} else f"{standing}: {source}"
    assumed = "assumed; " if figure.assumed else ""
    return [
        each.owner,
        each.link.label,
        f"{figure.mm:.4g}" if figure.mm else "",
        f"{each.plus_minus_mm:.3g}",
        percent(each.share),
        f"{assumed}{told}",
    ]


def stacked(told: Explanation) -> tuple[str, ...]:
    """Return the sums in words: root sum of squares, worst case, probability."""
    if not told.chain:
        return ("No figure between the two may be off along this gap.",)
    sums = (
        f"Stacked: ± {told.rss_mm:.3g} by root sum of squares, "
        f"± {told.worst_mm:.3g} if every figure is off at once."
    )
    if told.stacking.sigma != STATED_SIGMA and not told.stacking.worst_case:
        sums += f" At {told.stacking.sigma:g} sigma: ± {told.stacked_mm:.3g}."
    chance = f"Probability of less than the need: {percent(told.chance)}, if {NORMAL}."
    quiet = (
        ("A pair that no rule names counts without tolerance.",)
        if told.finding.rule == "no-interference"
        else ()
    )
    return (sums, chance, *quiet)
