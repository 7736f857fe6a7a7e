"""What the page for a quote says: the findings that matter, in a customer's words."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import replace
from typing import Final

from layout.build.placed import Build, PlacedPart
from layout.drawing.paper.lettering import plain
from layout.drawing.paper.words import doubtful, length
from layout.drawing.sheets.title_block import Title
from layout.page.sentences import begun, sentence
from layout.parts.form.form import Role
from layout.questions.findings.advice import remedy_of
from layout.questions.findings.finding import Check, Finding, Verdict
from layout.questions.findings.measure import shortest
from layout.standards.cautions import CAUTIONS, LEAKS
from layout.values import dataclass

__all__ = ["DEFER", "Page", "PartLine", "Quote", "Row", "page"]

_ASSUMED: Final = (
    "A line with a star rests on a size that no data sheet states and nobody has "
    "measured. "
)
_DECIDES: Final = "These could change the answer:"
_HOLDS: Final = "None of them could change the answer."

DEFER: Final = (
    "Leave mains wiring to licensed practice and the local electrical code; where "
    "they say otherwise, they hold."
)

_MOST_CLEAR: Final = 4
"""Findings with room enough that a customer is shown, the closest ones."""

_MOST: Final = 12
"""Findings on the page, so that it stays one: the worst ones."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Quote:
    """What the page says of itself; each may be left empty.

    ``dated`` is text that the user gives, never the clock's.
    """

    customer: str = ""
    number: str = ""
    dated: str = ""
    workshop: str = ""

    @property
    def title(self) -> Title:
        """Return what fits the drawing's title block; the page itself says the rest."""
        title = Title(owner=self.workshop, number=self.number, date=self.dated)
        return replace(title, **{field: "" for field, _, _ in title.too_long()})


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """A finding as a customer reads it, numbered as on the drawing."""

    number: int
    ref: str
    verdict: Verdict
    text: str
    to_do: str
    assumed: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class PartLine:
    """A part with its governing size."""

    name: str
    kind: str
    size: str

    @property
    def told(self) -> str:
        """Return kind and size; the kind where the name does not say it already."""
        kind = "" if self.name == self.kind else self.kind
        return ", ".join(filter(None, (kind, self.size)))


@dataclass(frozen=True, slots=True, kw_only=True)
class Page:
    """Everything the page says, in its order.

    Parameters
    ----------
    headline : str
        The verdict on the whole build as one sentence.
    rest : str
        What is to be said of the findings that are not listed; may be empty.
    more : tuple of Row
        The findings that are not listed, for a reader who asks for them.
    measure : tuple of str
        From where to where a tape settles what no data sheet states.
    assumed : str
        What the star at a line means; empty where there is none.
    """

    title: str
    case: str
    verdict: Verdict
    headline: str
    quote: Quote
    rows: tuple[Row, ...]
    rest: str
    more: tuple[Row, ...]
    measure: tuple[str, ...]
    assumed: str
    parts: tuple[PartLine, ...]
    cautions: tuple[str, ...]


def page(build: Build, check: Check, quote: Quote) -> Page:
    """Return the page of a build.

    Parameters
    ----------
    build : Build
    check : Check
        The findings of this very build, worst first.
    quote : Quote
    """
    measurements = shortest(check.findings)
    in_doubt = {name for each in measurements for name in each.settles}
    shown, rest = _shown(check.findings, in_doubt)
    return Page(
        title=plain(build.name),
        case=_case(build),
        verdict=check.verdict,
        headline=_headline(check, doubt=bool(measurements)),
        quote=quote,
        rows=_rows(shown),
        rest=_rest([finding for _, finding in rest]),
        more=_rows(rest),
        measure=tuple(plain(f"{each.part}: {each.tape}") for each in measurements),
        assumed=_assumed(check, doubt=bool(measurements)),
        parts=tuple(
            PartLine(name=plain(each.key), kind=each.kind, size=_size(each))
            for each in build.parts
        ),
        cautions=_cautions(build),
    )


def _size(part: PlacedPart) -> str:
    """Return a part's governing size; of one the build does not name, that too."""
    return f"{plain(part.size)}, assumed" if part.assumed else plain(part.size)


def _shown(
    findings: Sequence[Finding], in_doubt: Collection[str]
) -> tuple[list[tuple[int, Finding]], list[tuple[int, Finding]]]:
    """Return the findings for the page, and the rest, with their numbers.

    Shown are those that fail, are tight or rest on what must be measured, and the
    closest others.
    """
    shown: list[tuple[int, Finding]] = []
    rest: list[tuple[int, Finding]] = []
    calm = 0
    for number, each in enumerate(findings, start=1):
        urgent = each.verdict is not Verdict.CLEAR or each.id in in_doubt
        if len(shown) < _MOST and (urgent or calm < _MOST_CLEAR):
            shown.append((number, each))
            calm += not urgent
        else:
            rest.append((number, each))
    return shown, rest


def _case(build: Build) -> str:
    """Return the case's name and inside sizes, as far as there is a case."""
    said = [f"Case: {plain(build.case_name)}"] if build.case_name else []
    if build.case_size_mm is not None:
        depth, height, width = map(length, build.case_size_mm)
        said.append(f"inside {depth} mm deep, {height} high, {width} wide")
    return ", ".join(said)


def _cautions(build: Build) -> tuple[str, ...]:
    """Return the usual cautions, that about leaks where there is liquid."""
    wet = any(each.role is Role.RADIATOR for each in build.bodies)
    told = (*CAUTIONS, LEAKS) if wet else CAUTIONS
    return (*(each.text for each in told), DEFER)


def _assumed(check: Check, *, doubt: bool) -> str:
    """Return what a star means, and what hangs on it."""
    if not any(each.assumed for each in check.findings):
        return ""
    return _ASSUMED + (_DECIDES if doubt else _HOLDS)


def _rows(numbered: Sequence[tuple[int, Finding]]) -> tuple[Row, ...]:
    return tuple(
        Row(
            number=number,
            ref=finding.id,
            verdict=finding.verdict,
            text=sentence(finding),
            to_do=_to_do(finding),
            assumed=bool(finding.assumed),
        )
        for number, finding in numbered
    )


def _to_do(finding: Finding) -> str:
    """Return what to do where something must change, or may have to."""
    said = plain(remedy_of(finding)) if finding.verdict.fails else ""
    if said and doubtful(finding):
        return f"If a tape finds too little: {said}."
    return begun(f"{said}.") if said else ""


def _rest(findings: Sequence[Finding]) -> str:
    """Return one sentence on the findings that are not listed."""
    if not findings:
        return ""
    calm = [each for each in findings if each.verdict is Verdict.CLEAR]
    if len(calm) < len(findings):
        urgent = len(findings) - len(calm)
        return f"{urgent} more, none worse than these, are in the drawing's table."
    calm = [each for each in calm if each.margin_mm is not None]
    if not calm:
        return ""
    spare = length(min(each.margin_mm or 0.0 for each in calm))
    if len(calm) == 1:
        return f"One more place was looked at: it has {spare} mm to spare."
    return (
        f"{len(calm)} more places were looked at: each has {spare} mm or more to spare."
    )


def _headline(check: Check, *, doubt: bool) -> str:
    """Return the verdict on the whole build in a sentence or two.

    ``doubt`` is whether anything must be measured for it to be known.
    """
    failing = sum(each.verdict.fails for each in check.findings)
    match check.verdict:
        case Verdict.CLEAR if doubt:
            return "Everything goes together. Measure first what is listed below."
        case Verdict.CLEAR:
            return "Everything goes together."
        case Verdict.TIGHT:
            return (
                "Everything goes together if every size holds: measure before ordering."
            )
        case _ if all(doubtful(each) for each in check.findings if each.verdict.fails):
            places = "one place" if failing == 1 else f"{failing} places"
            return f"Not known to go together yet: measure {places} first."
        case _:
            places = "one place needs" if failing == 1 else f"{failing} places need"
            worst = sentence(check.findings[0])
            return f"Does not go together yet: {places} a change. {worst}"
