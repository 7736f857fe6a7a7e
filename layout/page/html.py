"""The page as one HTML file that needs nothing beside itself."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from html import escape
from importlib.resources import files
from string import Template
from typing import Final

from layout.drawing.scene import Scene
from layout.drawing.style import STYLE
from layout.page.glow import glows
from layout.page.said import Page, PartLine, Row
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


def as_html(page: Page, scene: Scene, svg: bytes) -> str:
    """Return the page as text; the same page gives the same text.

    Parameters
    ----------
    page : Page
    scene : Scene
        The drawing, which says where each finding shows.
    svg : bytes
        The same drawing as an SVG file.
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
        headline=escape(page.headline),
        rows="\n".join(map(_row, page.rows)),
        rest=_paragraph(page.rest),
        measure=_measure(page.measure),
        parts="\n".join(map(_part, page.parts)),
        cautions="\n".join(f"<li>{escape(each)}</li>" for each in page.cautions),
        drawing=_drawing(page, scene, svg),
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


def _paragraph(text: str) -> str:
    return f"<p>{escape(text)}</p>" if text else ""


def _row(row: Row) -> str:
    """Return a finding as a line that can be pointed at and reached by keyboard."""
    star = ' <b class="star" title="rests on a size nobody has stated">*</b>'
    to_do = f'<div class="todo">{escape(row.to_do)}</div>' if row.to_do else ""
    return (
        f'<tr data-gap="{row.number}" tabindex="0" class="{row.verdict.value}">'
        f"<td>{_mark(row)}</td>"
        f"<td>{escape(row.text)}{star if row.assumed else ''}{to_do}</td></tr>"
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


def _drawing(page: Page, scene: Scene, svg: bytes) -> str:
    """Return the drawing with what lights up over it, without its file header."""
    text = svg.decode("utf-8")
    inside = text[text.index("<svg") :]
    head, end = inside[: inside.rindex("</svg>")], "</svg>"
    return head + glows(page, scene) + end
