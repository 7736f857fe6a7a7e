"""The page as one HTML file that needs nothing beside itself."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from html import escape
from importlib.resources import files
from string import Template
from typing import Final

from layout.drawing.scene import Balloon, Scene
from layout.drawing.style import STYLE
from layout.page.glow import glows
from layout.page.said import Page, PartLine, Row
from layout.page.sentences import unbroken
from layout.questions.finding import Verdict

__all__ = ["as_html"]

_MARKS: Final[Mapping[Verdict, str]] = {
    Verdict.CLEAR: '<circle r="8"/>',
    Verdict.TIGHT: '<circle r="9.5"/><circle r="7.5" class="inner"/>',
    Verdict.SHORT: '<path d="M0-11 11 0 0 11-11 0Z"/>',
    Verdict.CLASH: '<path d="M0-11 3-7.4 7.8-7.8 7.4-3 11 0 7.4 3 7.8 7.8 3 7.4 0 11'
    '-3 7.4-7.8 7.8-7.4 3-11 0-7.4-3-7.8-7.8-3-7.4Z"/>',
    Verdict.MISSING: '<path d="M-8-8H8V8H-8Z"/>',
}
"""The forms of the drawing's balloons, so that a row and its gap look alike."""


_NAMES: Final = re.compile(r'(\sid="|url\(#|href="#)')
"""Before every name that a sheet gives to something, or calls it by."""

_OTHERS: Final = "The other places that were looked at."
_UNPRINTED: Final = (
    '<p class="unprinted">Further sheets of the drawing, on places with room enough, '
    "are in the PDF file and on the screen.</p>"
)


def as_html(page: Page, drawn: Sequence[tuple[Scene, bytes]]) -> str:
    """Return the page as text; the same page gives the same text.

    Parameters
    ----------
    page : Page
    drawn : sequence of (Scene, bytes)
        Every sheet of the drawing, which says where each finding shows, and the same
        sheet as an SVG file.
    """
    room = files(__package__)
    return Template((room / "page.html").read_text("utf-8")).substitute(
        style=(room / "page.css").read_text("utf-8"),
        script=(room / "page.js").read_text("utf-8"),
        inks=_inks(),
        title=escape(page.title),
        case=escape(page.case),
        quote=_quote(page),
        good="no" if page.verdict.fails else "yes",
        headline=escape(unbroken(page.headline)),
        rows="\n".join(map(_row, page.rows)),
        rest=_rest(page),
        measure=_measure(page.measure),
        parts="\n".join(map(_part, page.parts)),
        cautions="\n".join(f"<li>{escape(each)}</li>" for each in page.cautions),
        unprinted="" if all(_printed(page, drawn)) else _UNPRINTED,
        drawings="\n".join(_drawings(page, drawn)),
    )


def _inks() -> str:
    """Return the drawing's colours as the style sheet names them."""
    return " ".join(
        f"--{ink.name.lower()}: {colour};" for ink, colour in STYLE.colours.items()
    )


def _quote(page: Page) -> str:
    """Return who the page is for, as far as it is said."""
    quote = page.quote
    said = {
        "for": quote.customer,
        "quote": quote.number,
        "date": quote.dated,
        "from": quote.workshop,
    }
    cells = [
        f"<dt>{label}</dt><dd>{escape(value)}</dd>"
        for label, value in said.items()
        if value
    ]
    return f"<dl>{''.join(cells)}</dl>" if cells else ""


def _rest(page: Page) -> str:
    """Return what is to be said of the other findings, and they when it is opened."""
    if not page.more:
        return ""
    rows = "\n".join(map(_row, page.more))
    return (
        f"<details><summary>{escape(page.rest or _OTHERS)}</summary>"
        f'<table class="findings"><tbody>\n{rows}\n</tbody></table></details>'
    )


def _row(row: Row) -> str:
    """Return a finding as a line that can be pointed at and reached by keyboard."""
    said = escape(unbroken(row.text))
    star = '&nbsp;<b class="star" title="rests on a size nobody has stated">*</b>'
    to_do = f'<div class="todo">{escape(row.to_do)}</div>' if row.to_do else ""
    return (
        f'<tr data-gap="{row.number}" tabindex="0" class="{row.verdict.value}">'
        f"<td>{_mark(row)}</td>"
        f"<td>{said}{star if row.assumed else ''}{to_do}</td></tr>"
    )


def _mark(row: Row) -> str:
    return (
        f'<svg class="mark {row.verdict.value}" viewBox="-12 -12 24 24" '
        f'role="img" aria-label="number {row.number}">{_MARKS[row.verdict]}'
        f'<text y="3.4">{row.number}</text></svg>'
    )


def _measure(measure: Iterable[str]) -> str:
    """Return what is only assumed, marked as such."""
    lines = "\n".join(f"<li>{escape(each)}</li>" for each in measure)
    if not lines:
        return ""
    return (
        '<section class="measure"><h2>* Measure first</h2><p>No data sheet states '
        "these, and nobody has measured them; the lines with a star hang on them.</p>"
        f"<ul>{lines}</ul></section>"
    )


def _part(part: PartLine) -> str:
    return f"<li><b>{escape(part.name)}</b> {escape(part.told)}</li>"


def _printed(page: Page, drawn: Sequence[tuple[Scene, bytes]]) -> list[bool]:
    """Return which sheets paper shows: the first, and those with what is urgent."""
    rows = (*page.rows, *page.more)
    urgent = {row.ref for row in rows if row.verdict is not Verdict.CLEAR}
    shown = (
        {each.ref for each in scene.items if isinstance(each, Balloon)}
        for scene, _ in drawn
    )
    return [
        not place or not urgent.isdisjoint(each) for place, each in enumerate(shown)
    ]


def _drawings(page: Page, drawn: Sequence[tuple[Scene, bytes]]) -> Iterator[str]:
    """Yield the sheets with what lights up over them."""
    printed = _printed(page, drawn)
    for number, (scene, svg) in enumerate(drawn, start=1):
        told = f"Sheet {number} of {len(drawn)}" if len(drawn) > 1 else ""
        caption = f"<figcaption>{told}</figcaption>" if told else ""
        kind = "drawing" if printed[number - 1] else "drawing calm"
        inside = _drawing(page, scene, _own_ids(svg.decode(), number))
        yield f'<figure class="{kind}">{caption}\n{inside}\n</figure>'


def _own_ids(svg: str, number: int) -> str:
    """Return a sheet's SVG with ids that no other sheet on the page has."""
    return _NAMES.sub(rf"\1sheet-{number}-", svg)


def _drawing(page: Page, scene: Scene, svg: str) -> str:
    """Return the drawing with what lights up over it, without its file header."""
    inside = svg[svg.index("<svg") :]
    head, end = inside[: inside.rindex("</svg>")], "</svg>"
    return head + glows(page, scene) + end
