"""Draw a scene with matplotlib: the one file that knows it.

The same scene gives the same bytes from run to run: no clock, no ids of the process.
All lines, fills and letters go to the renderer from one artist, as paths that hold
every line of one pen: an artist for each shape takes several times as long.
"""

from __future__ import annotations

import html
import io
import warnings
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from functools import cache
from typing import Any, Final

import matplotlib as mpl
import numpy as np
from matplotlib.artist import Artist
from matplotlib.backend_bases import FigureCanvasBase, RendererBase
from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.backends.backend_pdf import FigureCanvasPdf, PdfPages
from matplotlib.backends.backend_svg import FigureCanvasSVG
from matplotlib.figure import Figure
from matplotlib.font_manager import FontProperties
from matplotlib.path import Path
from matplotlib.text import Text as Lettering
from matplotlib.transforms import Affine2D
from matplotlib.typing import RcKeyType

from layout.drawing.lettering import EM_PER_HEIGHT
from layout.drawing.scene import Align, Pen, Point, Scene, Text
from layout.drawing.strokes import Fill, Group, Stroke, groups
from layout.drawing.style import STYLE

__all__ = ["PNG_DPI", "render", "render_pages", "render_sheets"]

PNG_DPI: Final = 150

_POINTS_PER_MM: Final = 72 / 25.4
_FAMILY: Final = "DejaVu Sans"
_PACKED: Final[dict[str, Any]] = {"png": {"pil_kwargs": {"compress_level": 2}}}
"""How a file is packed: lines on paper pack as well at this level, in half the time."""

_SETTINGS: Final[dict[RcKeyType, Any]] = {
    "svg.hashsalt": "case-layout",
    "svg.fonttype": "none",
    "pdf.fonttype": 42,
    "text.parse_math": False,
    "text.hinting": "none",
    "font.family": [_FAMILY],
    "path.simplify": False,
}
_CANVAS: Final[dict[str, type[FigureCanvasBase]]] = {
    "svg": FigureCanvasSVG,
    "png": FigureCanvasAgg,
    "pdf": FigureCanvasPdf,
}


def render(scene: Scene, kind: str) -> bytes:
    """Return the scene as a file's bytes.

    Parameters
    ----------
    scene : Scene
    kind : str
        ``svg``, ``png`` or ``pdf``.
    """
    with _our_settings():
        out = io.BytesIO()
        drawn = groups(scene)
        canvas = _CANVAS[kind](_figure(scene, drawn))
        dpi = PNG_DPI if kind == "png" else 72
        canvas.print_figure(
            out,
            dpi=dpi,
            format=kind,
            metadata=_metadata(scene, kind),
            **_PACKED.get(kind, {}),
        )
        made = out.getvalue()
    return _told(made, drawn) if kind == "svg" else made


def render_sheets(scenes: Sequence[Scene], kind: str) -> tuple[bytes, ...]:
    """Return a drawing's files: a PDF holds all sheets, the others one each."""
    if kind == "pdf":
        return (render_pages(scenes),)
    return tuple(render(each, kind) for each in scenes)


def render_pages(scenes: Sequence[Scene]) -> bytes:
    """Return scenes as the pages of one PDF, each at its own size; titled as the first.

    Parameters
    ----------
    scenes : sequence of Scene
        At least one.
    """
    with _our_settings():
        out = io.BytesIO()
        with PdfPages(out, metadata=_metadata(scenes[0], "pdf")) as pages:
            for scene in scenes:
                figure = _figure(scene, groups(scene))
                FigureCanvasPdf(figure)
                pages.savefig(figure)
        return out.getvalue()


@contextmanager
def _our_settings() -> Iterator[None]:
    """Set what a drawing's bytes depend on, whatever the user's own settings are."""
    with mpl.rc_context(_defaults()), warnings.catch_warnings():
        # a name may hold letters that the font lacks: they are drawn as boxes
        warnings.filterwarnings("ignore", message=".*missing from")
        yield


def _defaults() -> dict[RcKeyType, Any]:
    """Return matplotlib's own settings and ours over them, whatever a user's file says.

    The backend is left alone: asking for it would choose one.
    """
    kept = {key: mpl.rcParamsDefault[key] for key in mpl.rcParamsDefault}
    return {**{k: v for k, v in kept.items() if "backend" not in k}, **_SETTINGS}


def _metadata(scene: Scene, kind: str) -> dict[str, str | None]:
    """Return what a file says of itself: no date, no program."""
    match kind:
        case "svg":
            told = {"Title": scene.title, "Description": scene.description}
            return {**told, "Date": None, "Creator": None}
        case "pdf":
            told = {"Title": scene.title, "Subject": scene.description}
            return {**told, "CreationDate": None, "Creator": None, "Producer": None}
        case _:
            return {"Title": scene.title, "Software": None}


def _figure(scene: Scene, drawn: Sequence[Group]) -> Figure:
    figure = Figure(figsize=(scene.width_mm / 25.4, scene.height_mm / 25.4))
    figure.add_artist(_Sheet(drawn))
    return figure


class _Sheet(Artist):
    """Everything on a sheet, as one artist."""

    def __init__(self, drawn: Sequence[Group]) -> None:
        super().__init__()
        self._drawn = drawn

    def draw(self, renderer: RendererBase) -> None:
        """Draw every group in turn, as a group of the file where files have them."""
        figure = self.get_figure(root=True)
        if figure is None:
            raise ValueError("a sheet is drawn on a figure")
        on_paper = Affine2D().scale(figure.dpi / 25.4)
        for group in self._drawn:
            if group.id:
                renderer.open_group("g", gid=group.id)
            for each in group.paint:
                match each:
                    case Text():
                        self._letter(renderer, each, figure)
                    case _:
                        _paint(renderer, each, on_paper)
            if group.id:
                renderer.close_group("g")

    def _letter(self, renderer: RendererBase, item: Text, figure: Figure) -> None:
        """Draw letters where they stand: the library's layout would find it anew."""
        x, y = (each * figure.dpi / 25.4 for each in item.at)
        font = _font(item.height_mm, bold=item.bold)
        gc = renderer.new_gc()
        gc.set_foreground(STYLE.colours[item.ink])
        angle = 90.0 if item.turned else 0.0
        anchor, start = None, (x, y)
        if isinstance(
            figure.canvas, FigureCanvasSVG
        ):  # whoever reads it sets the letters
            anchor = _anchored(item, start, figure)
        elif item.align is not Align.LEFT:
            back = _SHIFT[item.align]
            back *= renderer.get_text_width_height_descent(
                item.text, font, ismath=False
            )[0]
            start = (x, y - back) if item.turned else (x - back, y)
        left, base = start
        if renderer.flipy():
            base = renderer.get_canvas_width_height()[1] - base
        renderer.draw_text(gc, left, base, item.text, font, angle, mtext=anchor)
        gc.restore()


_SHIFT: Final = {Align.LEFT: 0.0, Align.CENTRE: 0.5, Align.RIGHT: 1.0}


@cache
def _font(height_mm: float, *, bold: bool) -> FontProperties:
    return FontProperties(
        family=_FAMILY,
        size=height_mm * EM_PER_HEIGHT * _POINTS_PER_MM,
        weight="bold" if bold else "normal",
    )


def _anchored(item: Text, at: Point, figure: Figure) -> Lettering:
    """Return what tells an SVG which point of a text stands at its place."""
    lettering = Lettering(
        *at,
        item.text,
        horizontalalignment=item.align.value,
        verticalalignment="baseline",
        rotation=90.0 if item.turned else 0.0,
        rotation_mode="anchor",
    )
    lettering.set_figure(figure)
    return lettering


def _paint(renderer: RendererBase, each: Fill | Stroke, on_paper: Affine2D) -> None:
    gc = renderer.new_gc()
    face = None
    match each:
        case Fill():
            face = mpl.colors.to_rgb(STYLE.colours[each.ink])
            gc.set_linewidth(0.0)
        case Stroke():
            stroke = STYLE.strokes[each.pen]
            gc.set_foreground(STYLE.colours[each.ink])
            gc.set_linewidth(stroke.width_mm * _POINTS_PER_MM)
            dashes = [mm * _POINTS_PER_MM for mm in stroke.dashes_mm]
            gc.set_dashes(0.0, dashes or None)
            gc.set_capstyle("butt" if dashes else "round")
            gc.set_joinstyle("miter" if each.pen is Pen.HEAVY else "round")
    renderer.draw_path(gc, _path(each), on_paper, face)
    gc.restore()


def _path(each: Fill | Stroke) -> Path:
    """Return all lines as one path; what is filled is closed."""
    closed = not isinstance(each, Stroke)
    lines = [np.array(line, dtype=np.float64) for line in each.lines]
    codes = [_codes(line, closed=closed) for line in each.lines]
    return Path(np.concatenate(lines), np.concatenate(codes))


def _codes(line: Sequence[Point], *, closed: bool) -> Any:  # noqa: ANN401
    codes = np.full(len(line), Path.LINETO, dtype=Path.code_type)
    codes[0] = Path.MOVETO
    if closed or line[0] == line[-1]:
        codes[-1] = Path.CLOSEPOLY
    return codes


def _told(svg: bytes, drawn: Sequence[Group]) -> bytes:
    """Return the SVG with a tooltip in every group that stands for something."""
    text = svg.decode("utf-8")
    pieces: list[str] = []
    end = 0
    for before, tag, group in _opened(text, drawn):
        pieces += [before, tag[:-1], f' class="{group.subject}">']
        pieces.append(f"<title>{html.escape(group.told, quote=False)}</title>")
        end += len(before) + len(tag)
    return "".join([*pieces, text[end:]]).encode("utf-8")


def _opened(text: str, drawn: Sequence[Group]) -> Iterator[tuple[str, str, Group]]:
    at = 0
    for group in drawn:
        if group.id:
            tag = f'<g id="{group.id}">'
            found = text.index(tag, at)
            yield text[at:found], tag, group
            at = found + len(tag)
