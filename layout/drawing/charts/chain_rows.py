"""The rows of a dimension chain: steps and figures, end to end, and their shares."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import groupby
from typing import Final, TypeAlias

from layout.drawing.findings.marks import LINES
from layout.drawing.paper.boxes import Frame, text_box, texts_of
from layout.drawing.paper.dimensions import level
from layout.drawing.paper.lettering import NO_BREAK, plain, width_mm, wrapped
from layout.drawing.paper.scene import Align, Area, Ink, Item, Line, Pen, Text
from layout.drawing.paper.style import STYLE
from layout.drawing.paper.words import length, lettered
from layout.parts.form.link import said_mm
from layout.questions.findings.advice import percent
from layout.questions.findings.explanation import Contribution, Explanation, Step
from layout.questions.findings.shown import trimmed
from layout.values import dataclass

__all__ = ["Field", "high_mm", "rows", "that_matter", "ways"]

_ROW_MM: Final = 5.6
_STEP_MM: Final = 9.0
_LEFT: Final = 0.42
"""Share of the width that the words take; the steps and the shares take the rest."""
_SHARE_MM: Final = 46.0
_GUTTER_MM: Final = 6.0
_INDENT_MM: Final = 4.0
_LINE_MM: Final = STYLE.line_step * STYLE.small_mm
_LEAST_MM: Final = 0.05
"""Shorter steps are not drawn."""
_LEAST_SHARE: Final = 0.005
"""Of a lead's way, figures with less of the variance are not drawn."""
_OFF_MM: Final = 0.8
"""How far a joint's line keeps off a text."""
_SMALL: Final = STYLE.small_mm
_BAR_MM: Final = _SHARE_MM - 2.0 - width_mm(percent(0.999), _SMALL)
"""Length of the bar of a share of all; the longest label stands beside it."""


@dataclass(frozen=True, slots=True)
class Field:
    """Where words, steps and shares stand, and how places along the gap lie there."""

    frame: Frame
    least_mm: float
    most_mm: float

    @property
    def left(self) -> float:
        """Return where the words begin."""
        return self.frame[0]

    @property
    def steps(self) -> tuple[float, float]:
        """Return where the steps begin and end."""
        left, _, right, _ = self.frame
        start = left + _LEFT * (right - left)
        return start + _GUTTER_MM, right - _SHARE_MM - 2 * _GUTTER_MM

    @property
    def shares(self) -> float:
        """Return where the bars of the shares begin."""
        return self.frame[2] - _SHARE_MM

    def x(self, place_mm: float) -> float:
        """Return where a place lies on paper."""
        start, end = self.steps
        part = (place_mm - self.least_mm) / (self.most_mm - self.least_mm)
        return start + part * (end - start)


def ways(told: Explanation) -> tuple[tuple[Step, ...], tuple[Step, ...]]:
    """Return the steps that are drawn: figure by figure where the figures add up."""
    return told.by_figure if told.closes else (told.a_steps, told.b_steps)


def high_mm(told: Explanation) -> float:
    """Return about how high the rows are together."""
    if told.closes:
        return (len(told.chain) + len(_owners(told)) + 1) * _STEP_MM
    steps = len(told.a_steps) + len(told.b_steps) + 1
    return steps * _STEP_MM + len(that_matter(told)) * _ROW_MM


def that_matter(told: Explanation) -> list[Contribution]:
    """Return what moves a lead's way enough to be drawn; the table lists every figure.

    A way turns on the places of a dozen things, most of which hardly move it.
    """
    return [e for e in told.chain if e.mm or e.share >= _LEAST_SHARE]


def _owners(told: Explanation) -> list[str]:
    """Return whose figures follow one another."""
    pairs = (pair for way in _figures(told) for pair in way)
    return [owner for owner, _ in groupby(pairs, key=lambda pair: pair[0].owner)]


def rows(told: Explanation, field: Field) -> tuple[Item, ...]:
    """Return a row for each step, its figures under it, and the gap between both ways.

    The way to b is drawn backwards, so that the chain closes in the gap.
    """
    y = field.frame[3]
    out: list[Item] = []
    a_way, b_way = ways(told)
    if told.closes:
        pairs = _figures(told)
        y = _by_figure(out, pairs[0], y=y, field=field)
        y = _gap(out, told, y=y, field=field)
        y = _by_figure(out, pairs[1][::-1], y=y, field=field)
    else:
        matter = that_matter(told)
        for step in a_way:
            own = [e for e in matter if e.owner == step.owner and not e.towards_b]
            y = _step(out, step, own, y=y, field=field)
        y = _gap(out, told, y=y, field=field)
        for step in reversed(b_way):
            own = [e for e in matter if e.owner == step.owner and e.towards_b]
            y = _step(out, step, own, y=y, field=field)
    joints = {0.0, *_ends(told)} if told.closes else {a_way[0].from_mm, *_ends(told)}
    lettered = [text_box(each) for each in texts_of(out)]
    lines = [
        Line(points=((x, high), (x, low)), pen=Pen.CENTRE, ink=Ink.FAINT)
        for x in sorted({field.x(place) for place in joints})
        for high, low in _between(x, (field.frame[3], y + 2.0), lettered)
    ]
    return (*lines, *out)


def _ends(told: Explanation) -> tuple[float, float]:
    """Return where both ways end: at the faces of the gap."""
    a_way, b_way = ways(told)
    return a_way[-1].to_mm if a_way else 0.0, b_way[-1].to_mm if b_way else 0.0


_Pair: TypeAlias = tuple[Step, Contribution]


def _figures(told: Explanation) -> tuple[list[_Pair], list[_Pair]]:
    """Return the figures of both ways, each with its step."""
    a_way, b_way = told.by_figure
    on_a = [each for each in told.chain if not each.towards_b]
    on_b = [each for each in told.chain if each.towards_b]
    return [*zip(a_way, on_a, strict=True)], [*zip(b_way, on_b, strict=True)]


def _by_figure(
    out: list[Item], pairs: Sequence[_Pair], *, y: float, field: Field
) -> float:
    """Add each part's figures, every one dimensioned; return where they end."""
    for owner, own in groupby(pairs, key=lambda pair: pair[0].owner):
        y -= _STEP_MM
        title = Text(at=(field.left, y), text=plain(owner), height_mm=_SMALL, bold=True)
        out.append(title)
        for number, (step, each) in enumerate(own):
            y -= _STEP_MM if number else _ROW_MM
            made, more_mm = _figure(each, y, field)
            out.extend(made)
            _dimension(out, step, y=y, field=field)
            y -= max(0.0, more_mm + _ROW_MM - _STEP_MM)
    return y


def _dimension(out: list[Item], step: Step, *, y: float, field: Field) -> None:
    ends = sorted((field.x(step.from_mm), field.x(step.to_mm)))
    if ends[1] - ends[0] > _LEAST_MM:
        paper = ((ends[0], y), (ends[1], y))
        size_mm = abs(step.to_mm - step.from_mm)
        out.append(level(paper, y, size_mm, style=STYLE))


def _between(
    x: float, ends: tuple[float, float], lettered: Sequence[Frame]
) -> Iterator[tuple[float, float]]:
    """Yield the stretches of an upright line, from the top, that no text stands on."""
    high, low = ends
    over = [
        (bottom - _OFF_MM, top + _OFF_MM)
        for left, bottom, right, top in lettered
        if left - _OFF_MM < x < right + _OFF_MM
    ]
    for bottom, top in sorted(over, reverse=True):
        if high - top > _OFF_MM:
            yield high, top
        high = min(high, bottom)
    if high - low > _OFF_MM:
        yield high, low


def _step(
    out: list[Item],
    step: Step,
    figures: list[Contribution],
    *,
    y: float,
    field: Field,
) -> float:
    """Add a step and its figures, where it has any; return where it ends."""
    ends = sorted((field.x(step.from_mm), field.x(step.to_mm)))
    if not figures and ends[1] - ends[0] <= _LEAST_MM:
        return y
    y -= _STEP_MM
    out.append(
        Text(at=(field.left, y), text=plain(step.owner), height_mm=_SMALL, bold=True)
    )
    _dimension(out, step, y=y, field=field)
    for each in figures:
        y -= _ROW_MM
        made, more_mm = _figure(each, y, field)
        out.extend(made)
        y -= more_mm
    return y


def _figure(
    each: Contribution, y: float, field: Field
) -> tuple[tuple[Item, ...], float]:
    """Return a figure, how far it may be off, and its share of the variance.

    Also how much higher it is than one line.
    """
    figure = each.link.figure
    size = f" {_as_given(figure.mm)}" if figure.mm else ""
    part = abs(abs(each.mm) - abs(figure.mm)) > _LEAST_MM
    of_it = f", of it {length(abs(each.mm))}" if part and each.mm else ""
    off = f" ± {said_mm(each.plus_minus_mm)}" if each.plus_minus_mm else ""
    assumed = ", assumed" if figure.assumed else ""
    numbers = f"{size}{of_it}{off}{assumed}".strip().replace(" ", NO_BREAK)
    room_mm = field.steps[0] - field.left - _GUTTER_MM - _INDENT_MM
    lines = wrapped(f"{plain(each.link.label)} {numbers}", _SMALL, room_mm)
    start, wide = field.shares, _BAR_MM * each.share
    bar = ((start, y), (start + wide, y), (start + wide, y + 2.4), (start, y + 2.4))
    share: tuple[Item, ...] = _percent(each, y, field)
    if wide > 0.1:
        fill = Ink.TIGHT if figure.assumed else Ink.COOLER
        share = (Area(outer=(*bar, bar[0]), fill=fill, pen=Pen.NARROW), *share)
    said = [
        Text(
            at=(field.left + _INDENT_MM, y - row * _LINE_MM),
            text=line,
            height_mm=_SMALL,
            ink=Ink.SOFT,
        )
        for row, line in enumerate(lines)
    ]
    return (*said, *share), (len(lines) - 1) * _LINE_MM


def _as_given(mm: float) -> str:
    """Return a figure as a data sheet gives it: a standoff of 6.35 is no 6.3."""
    return lettered(trimmed(mm))


def _percent(each: Contribution, y: float, field: Field) -> tuple[Item, ...]:
    """Return a figure's share in words; an exact one has none."""
    if not each.share:
        return ()
    at, text = (field.frame[2], y), percent(each.share)
    return (Text(at=at, text=text, height_mm=_SMALL, align=Align.RIGHT),)


def _gap(out: list[Item], told: Explanation, *, y: float, field: Field) -> float:
    """Add the gap, or the overlap, in its lines' colour; return where it ends."""
    y -= _STEP_MM
    finding = told.finding
    ink = LINES[finding.verdict]
    off = f" ± {said_mm(told.stacked_mm)}" if told.chain else ""
    said = f"{told.closing} {length(told.room_mm)}{off}"
    out.append(
        Text(at=(field.left, y), text=said, height_mm=_SMALL, bold=True, ink=ink)
    )
    ends = sorted(map(field.x, _ends(told)))
    if ends[1] - ends[0] > _LEAST_MM:
        low, high = y - 1.6, y + 4.4
        corners = ((ends[0], low), (ends[1], low), (ends[1], high), (ends[0], high))
        out.append(
            Area(outer=(*corners, corners[0]), fill=Ink.WHITE, pen=Pen.WIDE, edge=ink)
        )
    return y
