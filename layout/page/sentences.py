"""Findings as sentences for a customer."""

from __future__ import annotations

from layout.drawing.paper.lettering import plain
from layout.drawing.paper.words import doubtful, is_open, length, shown_gap
from layout.questions.clearances.plug_rules import BEND_RULES
from layout.questions.findings.advice import is_hole, spoken
from layout.questions.findings.finding import Finding, Group, Verdict

__all__ = ["begun", "sentence"]


def sentence(finding: Finding) -> str:
    """Return a finding as a sentence for a customer, never as a code word."""
    if finding.b is None and finding.gap_mm is not None:
        return _stated(finding)
    if finding.group is Group.REACH:
        return _led(finding)
    return _between(finding)


def _led(finding: Finding) -> str:
    """Return whether a lead or a hose reaches."""
    what, (whose, _, _) = f"The {finding.lead}", finding.a.partition("/")
    if len(finding.parts) == 1:  # a hose, from one end of its cooler to the other
        whose = finding.a
    owner, plug = (spoken(plain(each)) for each in (whose, finding.b or ""))
    if finding.verdict.fails:
        wanting = length(-(finding.margin_mm or 0.0))
        told = f"{what} from {owner} to {plug} lacks {wanting} mm with its slack"
        return f"Measure first: {told}." if doubtful(finding) else f"{told}."
    left, need = (length(each or 0.0) for each in (shown_gap(finding), finding.need_mm))
    told = f"{what} from {owner} to {plug} has {left} mm left, {need} mm needed"
    if finding.verdict is Verdict.TIGHT:
        return f"{told}; it may be off by {length(finding.tolerance_mm or 0.0)} mm."
    return f"{told}."


def _stated(finding: Finding) -> str:
    """Return a part's size beside the limit that the case states for it."""
    limit, size = (length(each or 0.0) for each in (finding.gap_mm, finding.need_mm))
    a = spoken(plain(finding.a))
    return begun(f"{a}: {size} mm where the case is stated to take {limit} mm.")


def _between(finding: Finding) -> str:
    """Return how two bodies stand, or what one lacks."""
    a = spoken(plain(finding.a))
    b = spoken(plain(finding.b)) if finding.b else ""
    gap = length(finding.gap_mm or 0.0)
    match finding.verdict:
        case Verdict.CLEAR if finding.margin_mm is None:
            has = ", to be confirmed" if is_open(finding) else " has what it needs"
            return begun(f"{a}{has}: {plain(finding.why)}.")
        case Verdict.MISSING:
            return begun(f"{a} lacks what it needs: {plain(finding.why)}.")
        case Verdict.CLASH:
            deep = finding.overlap.mm if finding.overlap else 0.0
            hole = is_hole(finding.b or "")
            met = f"cover {length(deep)} mm of" if hole else _inside(deep)
            return begun(f"{a} would {met} {b}.")
        case Verdict.SHORT:
            return _close(finding, f"{gap} mm between {a} and {b}{_needed(finding)}")
        case Verdict.TIGHT:
            return _about(finding, f"{gap} mm between {a} and {b}{_needed(finding)}")
        case _:
            return f"{gap} mm between {a} and {b}{_needed(finding)}."


def _needed(finding: Finding) -> str:
    """Return how much room is needed, and for what where another row asks for less."""
    if not finding.need_mm:
        return ""
    bend = " for the cable to bend" if finding.rule in BEND_RULES else ""
    return f", {length(finding.need_mm)} mm needed{bend}"


def _close(finding: Finding, told: str) -> str:
    """Return by how much two bodies are too close, or that this is to be measured."""
    if doubtful(finding):
        return _about(finding, f"Measure first: {told}")
    return f"Too close by {length(-(finding.margin_mm or 0.0))} mm: {told}."


def _about(finding: Finding, told: str) -> str:
    """Return what is told of a gap, with how far it may be off."""
    return f"{told}; the sizes may be off by {length(finding.tolerance_mm or 0.0)} mm."


def _inside(deep_mm: float) -> str:
    return f"stand {length(deep_mm)} mm inside"


def begun(text: str) -> str:
    """Return a sentence with its first letter a capital, as far as it is a letter."""
    return text[:1].upper() + text[1:]
