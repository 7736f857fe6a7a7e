"""What a group of questions without distances answers: findings, notes, orders."""

from __future__ import annotations

from typing import TYPE_CHECKING

from layout.questions.findings.finding import Finding, Group, ToOrder, Verdict
from layout.standards.figure import COMMON_PRACTICE
from layout.values import dataclass

if TYPE_CHECKING:
    from layout.questions.findings.passages import Passages

__all__ = ["Answered", "finding_of", "joined", "listed"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Answered:
    """Answers to the questions of one group.

    Parameters
    ----------
    findings : tuple of Finding
    notes : tuple of str
        What was taken for granted where the file says nothing.
    to_order : tuple of ToOrder
        Parts that are missing.
    space : Passages or None
        The space that leads run in, with the ways through it, where they were asked.
    """

    findings: tuple[Finding, ...] = ()
    notes: tuple[str, ...] = ()
    to_order: tuple[ToOrder, ...] = ()
    space: Passages | None = None


def finding_of(
    rule: str,
    group: Group,
    names: tuple[str, str | None],
    *,
    verdict: Verdict,
    why: str,
    advice: str = "",
    assumed: tuple[str, ...] = (),
    source: str = COMMON_PRACTICE,
) -> Finding:
    """Return a finding that has no distance.

    Parameters
    ----------
    names : (str, str or None)
        What is asked about, and what it was matched with; None where that is missing.
    """
    a, b = names
    return Finding(
        id=":".join(filter(None, (rule, a, b))),
        rule=rule,
        group=group,
        a=a,
        b=b,
        gap_mm=None,
        need_mm=None,
        tolerance_mm=None,
        margin_mm=None,
        verdict=verdict,
        axis=None,
        from_mm=None,
        to_mm=None,
        overlap=None,
        assumed=assumed,
        why=why,
        source=source,
        advice=advice,
    )


def joined(answers: list[Answered]) -> Answered:
    """Return several answers as one."""
    return Answered(
        findings=tuple(each for one in answers for each in one.findings),
        notes=tuple(each for one in answers for each in one.notes),
        to_order=tuple(each for one in answers for each in one.to_order),
        space=next((one.space for one in answers if one.space), None),
    )


def listed(words: list[str]) -> str:
    """Return words as a sentence lists them.

    Examples
    --------
    >>> listed(["A"]), listed(["A", "G", "K"])
    ('A', 'A, G and K')
    """
    *first, last = words
    return f"{', '.join(first)} and {last}" if first else last
