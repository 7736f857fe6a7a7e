"""The page as one HTML file that needs nothing beside itself."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from html import escape
from importlib.resources import files
from string import Template
from typing import Final

from layout.drawing.paper.boxes import Frame
from layout.drawing.paper.lettering import unbroken
from layout.drawing.paper.scene import Balloon, Scene
from layout.drawing.paper.style import STYLE
from layout.drawing.sheets.frame import parted
from layout.page.glow import POINTS_PER_MM, glows
from layout.page.said import Page, PartLine, Row
from layout.questions.findings.finding import Verdict

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
    "Further sheets of the drawing, on places with room enough, are in the PDF file "
    "and on the screen."
)
_REDUCED: Final = (
    "On A4 the drawing is smaller than its scale: to lay a tape on it, print the PDF "
    "file at full size."
)
_BESIDE: Final = "Table, legend and title block of this sheet"

_A4_MM: Final = 297.0
_READ_PX_PER_MM: Final = 2.75
"""At less the lettering of a sheet is hard to read on a screen."""

_WORDS_PX: Final = 410
"""Least width of the words beside the drawing, with what is free around both."""

_AROUND_MM: Final = 0.4
"""What is shown around a part of a sheet, so that its border shows."""


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
    wide, high = _size(_seen(drawn[0][0])[0])
    return Template((room / "page.html").read_text("utf-8")).substitute(
        style=Template((room / "page.css").read_text("utf-8")).substitute(
            narrow=round(_WORDS_PX + _READ_PX_PER_MM * wide),
            wide=f"{wide:.1f}",
            high=f"{high:.1f}",
            least=round(_READ_PX_PER_MM * wide),
        ),
        script=(room / "page.js").read_text("utf-8"),
        inks=_inks(),
        title=escape(page.title),
        case=escape(page.case),
        quote=_quote(page),
        good="no" if page.verdict.fails else "yes",
        headline=escape(unbroken(page.headline)),
        rows="\n".join(map(_row, page.rows)),
        rest=_rest(page),
        measure=_measure(page),
        parts="\n".join(map(_part, page.parts)),
        cautions="\n".join(f"<li>{escape(each)}</li>" for each in page.cautions),
        paper="".join(
            f'<p class="paper">{each}</p>' for each in _on_paper(page, drawn)
        ),
        stands=" upright" if _stands(drawn[0][0]) else "",
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


def _measure(page: Page) -> str:
    """Return what is only assumed, marked as such."""
    if not page.assumed:
        return ""
    head = "* Measure first" if page.measure else "* Assumed"
    lines = "\n".join(f"<li>{escape(each)}</li>" for each in page.measure)
    told = f"<ul>{lines}</ul>" if lines else ""
    return (
        f'<section class="measure"><h2>{head}</h2><p>{escape(page.assumed)}</p>'
        f"{told}</section>"
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


def _on_paper(page: Page, drawn: Sequence[tuple[Scene, bytes]]) -> Iterator[str]:
    """Yield what a reader of the printed page is to know of the drawing."""
    sheet = drawn[0][0]
    if max(sheet.width_mm, sheet.height_mm) > _A4_MM:
        yield _REDUCED
    if not all(_printed(page, drawn)):
        yield _UNPRINTED


def _stands(sheet: Scene) -> bool:
    return sheet.height_mm > sheet.width_mm


def _drawings(page: Page, drawn: Sequence[tuple[Scene, bytes]]) -> Iterator[str]:
    """Yield the sheets with what lights up over them."""
    printed = _printed(page, drawn)
    for number, (scene, svg) in enumerate(drawn, start=1):
        told = f"Sheet {number} of {len(drawn)}" if len(drawn) > 1 else ""
        caption = f"<figcaption>{told}</figcaption>" if told else ""
        kind = "drawing" if printed[number - 1] else "drawing calm"
        inside = _drawing(page, scene, _own_ids(svg.decode(), number))
        views = f'<div class="views" style="{_window(scene)}">{inside}</div>'
        words = _beside(scene, number)
        yield f'<figure class="{kind}">{caption}\n{views}\n{words}\n</figure>'


def _seen(sheet: Scene) -> tuple[Frame, Frame]:
    """Return views and text of a sheet as a screen shows them, one by one."""
    views, words = (
        (
            left - _AROUND_MM,
            bottom - _AROUND_MM,
            right + _AROUND_MM,
            top + _AROUND_MM,
        )
        for left, bottom, right, top in parted(sheet)
    )
    return views, words


def _size(frame: Frame) -> tuple[float, float]:
    left, bottom, right, top = frame
    return right - left, top - bottom


def _window(sheet: Scene) -> str:
    """Return what of a sheet a screen shows at its head, in shares of that width."""
    views, _ = _seen(sheet)
    wide, high = _size(views)
    down = sheet.height_mm - views[3]
    return (
        f"--high: {high / wide:.4f}; --sheet: {sheet.width_mm / wide:.4f}; "
        f"--left: {views[0] / wide:.4f}; --down: {down / wide:.4f}"
    )


def _beside(sheet: Scene, number: int) -> str:
    """Return the text of a sheet, for a reader at a screen who asks for it."""
    _, words = _seen(sheet)
    wide, high = _size(words)
    corner = words[0], sheet.height_mm - words[3]
    box = " ".join(f"{POINTS_PER_MM * each:.2f}" for each in (*corner, wide, high))
    return (
        f'<details class="beside"><summary>{_BESIDE}</summary><svg viewBox="{box}">'
        f'<use href="#sheet-{number}-figure_1"/></svg></details>'
    )


def _own_ids(svg: str, number: int) -> str:
    """Return a sheet's SVG with ids that no other sheet on the page has."""
    return _NAMES.sub(rf"\1sheet-{number}-", svg)


def _drawing(page: Page, scene: Scene, svg: str) -> str:
    """Return the drawing with what lights up over it, without its file header."""
    inside = svg[svg.index("<svg") :]
    head, end = inside[: inside.rindex("</svg>")], "</svg>"
    return head + glows(page, scene) + end
