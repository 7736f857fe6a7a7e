"""Draw a scene with matplotlib: the one file that knows it.

The same scene gives the same bytes from run to run: no clock, no ids of the process.
All lines, fills and letters go to the renderer from one artist, as paths that hold
every line of one pen: an artist for each shape takes several times as long.
"""

from __future__ import annotations

import io
import warnings
from collections.abc import Iterable, Iterator, Sequence
from contextlib import contextmanager
from functools import cache
from itertools import groupby
from typing import Any, Final

import matplotlib as mpl
import numpy as np
from matplotlib.artist import Artist
from matplotlib.backend_bases import FigureCanvasBase, RendererBase
from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.backends.backend_svg import FigureCanvasSVG
from matplotlib.figure import Figure
from matplotlib.font_manager import FontProperties
from matplotlib.path import Path
from matplotlib.text import Text as Lettering
from matplotlib.transforms import Affine2D
from matplotlib.typing import RcKeyType

from layout.drawing.ink.glyphs import FAMILY, SHIFT, is_outlined, outlines
from layout.drawing.ink.strokes import Fill, Group, Paint, Stroke, groups
from layout.drawing.ink.told import metadata, with_tooltips
from layout.drawing.paper.lettering import EM_PER_HEIGHT
from layout.drawing.paper.scene import Align, Ink, Pen, Point, Scene, Text
from layout.drawing.paper.style import STYLE

__all__ = ["PNG_DPI", "render", "render_pages", "render_sheets"]

PNG_DPI: Final = 150

_POINTS_PER_MM: Final = 72 / 25.4
_PACKED: Final[dict[str, Any]] = {"png": {"pil_kwargs": {"compress_level": 1}}}
"""How a file is packed: lines on paper pack as well at this level, in half the time."""

_SETTINGS: Final[dict[RcKeyType, Any]] = {
    "svg.hashsalt": "case-layout",
    "svg.fonttype": "none",
    "pdf.fonttype": 42,
    "text.parse_math": False,
    "text.hinting": "none",
    "font.family": [FAMILY],
    "path.simplify": False,
}


def render(scene: Scene, kind: str, *, sheet: tuple[int, int] = (1, 1)) -> bytes:
    """Return the scene as a file's bytes.

    Parameters
    ----------
    scene : Scene
    kind : str
        ``svg``, ``png`` or ``pdf``.
    sheet : (int, int)
        Which sheet of how many, which SVG and PNG say of themselves.
    """
    with _our_settings():
        out = io.BytesIO()
        drawn = groups(scene)
        canvas = _canvas(kind)(_figure(scene, drawn))
        dpi = PNG_DPI if kind == "png" else 72
        canvas.print_figure(
            out,
            dpi=dpi,
            format=kind,
            metadata=metadata(scene, kind, sheet),
            **_PACKED.get(kind, {}),
        )
        made = out.getvalue()
    return with_tooltips(made, drawn) if kind == "svg" else made


def render_sheets(scenes: Sequence[Scene], kind: str) -> tuple[bytes, ...]:
    """Return a drawing's files: a PDF holds all sheets, the others one each."""
    if kind == "pdf":
        return (render_pages(scenes),)
    of = len(scenes)
    return tuple(render(each, kind, sheet=(n + 1, of)) for n, each in enumerate(scenes))


def render_pages(scenes: Sequence[Scene]) -> bytes:
    """Return scenes as the pages of one PDF, each at its own size; titled as the first.

    Parameters
    ----------
    scenes : sequence of Scene
        At least one.
    """
    from matplotlib.backends.backend_pdf import FigureCanvasPdf, PdfPages  # noqa: PLC0415

    with _our_settings():
        out = io.BytesIO()
        with PdfPages(out, metadata=metadata(scenes[0], "pdf")) as pages:
            for scene in scenes:
                figure = _figure(scene, groups(scene))
                FigureCanvasPdf(figure)
                pages.savefig(figure)
        return out.getvalue()


def _canvas(kind: str) -> type[FigureCanvasBase]:
    """Return what draws a kind of file; that of a PDF takes long to import."""
    if kind == "pdf":
        from matplotlib.backends.backend_pdf import FigureCanvasPdf  # noqa: PLC0415

        return FigureCanvasPdf
    return {"svg": FigureCanvasSVG, "png": FigureCanvasAgg}[kind]


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


def _figure(scene: Scene, drawn: Sequence[Group]) -> Figure:
    figure = Figure(figsize=(scene.width_mm / 25.4, scene.height_mm / 25.4))
    figure.add_artist(_Sheet(drawn))
    return figure


class _Sheet(Artist):
    """Everything on a sheet, as one artist."""

    def __init__(self, drawn: Sequence[Group]) -> None:
        super().__init__()
        self._drawn = drawn
        self._anchor = cache(_anchor)  # one each way: making one takes its time

    def draw(self, renderer: RendererBase) -> None:
        """Draw every group in turn, as a group of the file where files have them."""
        figure = self.get_figure(root=True)
        if figure is None:
            raise ValueError("a sheet is drawn on a figure")
        pixels = isinstance(figure.canvas, FigureCanvasAgg)
        for group in self._drawn:
            if group.id:
                renderer.open_group("g", gid=group.id)
            if pixels:
                self._at_once(renderer, group.paint, figure)
            else:
                self._each(renderer, group.paint, figure)
            if group.id:
                renderer.close_group("g")

    def _at_once(
        self,
        renderer: RendererBase,
        paint: Iterable[Paint],
        figure: Figure,
    ) -> None:
        """Draw what is painted, texts of one ink that follow one another together."""
        for ink, several in groupby(paint, key=_outlined_ink):
            if ink is None:
                self._each(renderer, several, figure)
                continue
            texts = [each for each in several if isinstance(each, Text)]
            _fill(renderer, outlines(texts), ink, on_paper=_on(figure), snap=False)

    def _each(
        self,
        renderer: RendererBase,
        paint: Iterable[Paint],
        figure: Figure,
    ) -> None:
        on_paper = _on(figure)
        for each in paint:
            match each:
                case Text():
                    self._letter(renderer, each, figure)
                case Fill():
                    _fill(renderer, _path(each), each.ink, on_paper=on_paper)
                case Stroke():
                    _stroke(renderer, each, on_paper)

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
            anchor = self._anchor(item.align, turned=item.turned)
            anchor.set_position(start)
        elif item.align is not Align.LEFT:
            back = SHIFT[item.align]
            back *= renderer.get_text_width_height_descent(
                item.text, font, ismath=False
            )[0]
            start = (x, y - back) if item.turned else (x - back, y)
        left, base = start
        if renderer.flipy():
            base = renderer.get_canvas_width_height()[1] - base
        renderer.draw_text(gc, left, base, item.text, font, angle, mtext=anchor)
        gc.restore()


def _on(figure: Figure) -> Affine2D:
    """Return what turns mm on paper into a figure's own units."""
    return Affine2D().scale(figure.dpi / 25.4)


@cache
def _font(height_mm: float, *, bold: bool) -> FontProperties:
    return FontProperties(
        family=FAMILY,
        size=height_mm * EM_PER_HEIGHT * _POINTS_PER_MM,
        weight="bold" if bold else "normal",
    )


def _anchor(align: Align, *, turned: bool) -> Lettering:
    """Return what tells an SVG which point of a text stands at its place."""
    return Lettering(
        horizontalalignment=align.value,
        verticalalignment="baseline",
        rotation=90.0 if turned else 0.0,
        rotation_mode="anchor",
    )


def _outlined_ink(each: Paint) -> Ink | None:
    """Return the ink of a text that can be filled together with others, or None."""
    return each.ink if isinstance(each, Text) and is_outlined(each) else None


def _fill(
    renderer: RendererBase,
    path: Path,
    ink: Ink,
    *,
    on_paper: Affine2D,
    snap: bool | None = None,
) -> None:
    gc = renderer.new_gc()
    gc.set_linewidth(0.0)
    gc.set_snap(snap)
    renderer.draw_path(gc, path, on_paper, mpl.colors.to_rgb(STYLE.colours[ink]))
    gc.restore()


def _stroke(renderer: RendererBase, each: Stroke, on_paper: Affine2D) -> None:
    gc = renderer.new_gc()
    stroke = STYLE.strokes[each.pen]
    gc.set_foreground(STYLE.colours[each.ink])
    gc.set_linewidth(stroke.width_mm * _POINTS_PER_MM)
    dashes = [mm * _POINTS_PER_MM for mm in stroke.dashes_mm]
    gc.set_dashes(0.0, dashes or None)
    gc.set_capstyle("butt" if dashes else "round")
    gc.set_joinstyle("miter" if each.pen is Pen.HEAVY else "round")
    renderer.draw_path(gc, _path(each), on_paper, None)
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
