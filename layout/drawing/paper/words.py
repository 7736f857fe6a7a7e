"""What a drawing says, in a customer's words: numbers, names, outcomes."""

from __future__ import annotations

from functools import lru_cache

from layout.drawing.paper.lettering import plain
from layout.questions.findings.advice import is_hole, spoken
from layout.questions.findings.finding import Check, Finding, Group, Verdict
from layout.questions.findings.shown import shown

__all__ = [
    "about",
    "doubtful",
    "is_open",
    "length",
    "lettered",
    "named",
    "outcome",
    "shown_gap",
    "signed",
    "summary",
]


def length(mm: float) -> str:
    """Return a length as it is lettered: to 0.1 mm, finer where that would be 0.

    Examples
    --------
    >>> length(12.0), length(8.46), length(0.04), length(0.0)
    ('12', '8.5', '0.04', '0')
    >>> length(-8.0) == "\N{MINUS SIGN}8"
    True
    """
    fine = 5e-5 <= abs(mm) < 0.05
    text = f"{mm:.1g}" if fine else f"{mm:.1f}".removesuffix(".0")
    return "0" if text == "-0" else lettered(text)


def signed(mm: float) -> str:
    """Return what is left, or wanting, as it is lettered: to 0.1 mm with its sign.

    Examples
    --------
    >>> signed(6.0), signed(0.0), signed(-8.0) == "\N{MINUS SIGN}8.0"
    ('+6.0', '0.0', True)
    """
    return lettered(shown(mm, signed=True))


def lettered(text: str) -> str:
    """Return figures with the minus sign that drawings have."""
    return text.replace("-", "\N{MINUS SIGN}")


@lru_cache(maxsize=4096)
def named(name: str) -> str:
    """Return a body's name as a table shows it.

    Examples
    --------
    >>> named("case/side panel"), named("cooler/fan 1"), named("radiator/radiator")
    ('side panel', 'cooler, fan 1', 'radiator')
    """
    part, _, piece = plain(name).partition("/")
    if not piece or piece == part:
        return part
    piece = piece.replace(" usb", " USB")
    return piece if part == "case" else f"{part}, {piece}"


def shown_gap(finding: Finding) -> float | None:
    """Return the gap that a customer is shown in mm, never one below 0.

    Parts in one another have none, and a lead that does not reach has none left.
    """
    gap_mm = finding.gap_mm
    if gap_mm is None or finding.verdict is Verdict.CLASH:
        return None
    return gap_mm if gap_mm >= 0.0 else None


def doubtful(finding: Finding) -> bool:
    """Tell whether a want is so far under its tolerance that only a tape tells."""
    return finding.doubtful


def is_open(finding: Finding) -> bool:
    """Tell whether no figure of the file is wrong, but something must be looked up."""
    clear = finding.verdict is Verdict.CLEAR and finding.margin_mm is None
    return clear and finding.group is Group.HOOKUP and bool(finding.advice)


def outcome(finding: Finding) -> str:
    """Return what a finding means, in plain words."""
    margin_mm = finding.margin_mm if finding.margin_mm is not None else 0.0
    match finding.verdict:
        case Verdict.MISSING | Verdict.CLEAR if finding.margin_mm is None:
            return _without_length(finding)
        case Verdict.CLASH if finding.overlap is not None:
            meets = "covered" if is_hole(finding.b or "") else "into one another"
            into = f"{length(finding.overlap.mm)} mm {meets}"
            return f"{into} along {finding.overlap.axis.value}"
        case Verdict.CLASH:
            return "into one another"
        case Verdict.SHORT:
            return _lacking(finding, -margin_mm)
        case Verdict.TIGHT:
            return f"{_spare(finding, margin_mm)}, {_off(finding)}"
        case _:
            return _spare(finding, margin_mm)


def _without_length(finding: Finding) -> str:
    """Return what lacks, what is to be looked up, or that it is there."""
    if finding.verdict is Verdict.MISSING:
        return plain(finding.why)
    return "to be confirmed" if is_open(finding) else "has what it needs"


def _off(finding: Finding) -> str:
    return f"sizes may be off by {length(finding.tolerance_mm or 0.0)} mm"


def _spare(finding: Finding, margin_mm: float) -> str:
    """Return what is left, of room or of a lead or hose."""
    of_it = f" of {finding.lead}" if finding.group is Group.REACH else ""
    return f"{length(margin_mm)} mm{of_it} to spare"


def _lacking(finding: Finding, short_mm: float) -> str:
    """Return by how much there is too little, between two or under a stated limit."""
    short, doubt = length(short_mm), doubtful(finding)
    if finding.b is None:
        said = f"{short} mm over the case's stated limit"
    elif finding.group is Group.REACH:
        said = f"{short} mm of {finding.lead} are wanting"
    else:
        said = f"{short} mm too little" if doubt else f"too close by {short} mm"
    return f"measure first: {said}, {_off(finding)}" if doubt else said


def about(finding: Finding) -> str:
    """Return what a finding is of, and what it comes to, in plain words."""
    between = " \N{EN DASH} ".join(named(e) for e in (finding.a, finding.b) if e)
    return f"{between}: {outcome(finding)}"


def summary(check: Check) -> str:
    """Return the build's verdict as one sentence."""
    if not check.findings:
        return "No two parts meet, and nothing was asked about the room between them."
    worst = check.findings[0]
    failing = sum(each.verdict.fails for each in check.findings)
    between = " and ".join(spoken(plain(each)) for each in (worst.a, worst.b) if each)
    if check.verdict is Verdict.CLEAR:
        return f"Everything goes together. Least room: {between}, {outcome(worst)}."
    if check.verdict is Verdict.TIGHT:
        return (
            "Goes together if every size holds: measure before ordering. "
            f"Least room: {between}, {outcome(worst)}."
        )
    if all(doubtful(each) for each in check.findings if each.verdict.fails):
        places = "1 place" if failing == 1 else f"{failing} places"
        return (
            f"Not known to go together: measure {places} first. "
            f"Least room: {between}, {outcome(worst)}."
        )
    places = "1 place needs" if failing == 1 else f"{failing} places need"
    return (
        f"Does not go together: {places} a change. Worst: {between}, {outcome(worst)}."
    )
