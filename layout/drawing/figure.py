"""Draw a scene with matplotlib: the one file that knows it.

The same scene gives the same bytes from run to run: no clock, no ids of the process.
"""

from __future__ import annotations

import io
import math
import warnings
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from typing import Any, Final

import matplotlib as mpl
import numpy as np
import shapely
from matplotlib.artist import Artist
from matplotlib.backend_bases import FigureCanvasBase
from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.backends.backend_pdf import FigureCanvasPdf, PdfPages
from matplotlib.backends.backend_svg import FigureCanvasSVG
from matplotlib.collections import LineCollection
from matplotlib.figure import Figure
from matplotlib.patches import Circle as Disc
from matplotlib.patches import PathPatch
from matplotlib.path import Path
from matplotlib.text import Text as Lettering
from matplotlib.transforms import Affine2D
from matplotlib.typing import RcKeyType
from shapely.geometry import Polygon
from shapely.geometry.base import BaseGeometry

from layout.drawing.balloons import number_text
from layout.drawing.boxes import text_box, texts
from layout.drawing.dimensions import arrows, dimension_lines
from layout.drawing.hatching import hatching
from layout.drawing.lettering import EM_PER_HEIGHT
from layout.drawing.scene import (
    Area,
    Balloon,
    Circle,
    Dimension,
    Hatch,
    Ink,
    Item,
    Line,
    Mark,
    Pen,
    Point,
    Scene,
    Text,
)
from layout.drawing.style import STYLE

__all__ = ["render", "render_pages"]

_POINTS_PER_MM: Final = 72 / 25.4
_PNG_DPI: Final = 150
_SETTINGS: Final[dict[RcKeyType, Any]] = {
    "svg.hashsalt": "case-layout",
    "svg.fonttype": "none",
    "pdf.fonttype": 42,
    "text.parse_math": False,
    "text.hinting": "none",
    "font.family": ["DejaVu Sans"],
    "path.simplify": False,
}
_CANVAS: Final[dict[str, type[FigureCanvasBase]]] = {
    "svg": FigureCanvasSVG,
    "png": FigureCanvasAgg,
    "pdf": FigureCanvasPdf,
}
_MARK_INKS: Final = {
    Mark.RING: Ink.CLEAR,
    Mark.DOUBLE_RING: Ink.TIGHT,
    Mark.DIAMOND: Ink.FAIL,
    Mark.STAR: Ink.FAIL,
    Mark.SQUARE: Ink.BLACK,
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
        canvas = _CANVAS[kind](_figure(scene))
        dpi = _PNG_DPI if kind == "png" else 72
        canvas.print_figure(out, dpi=dpi, format=kind, metadata=_metadata(scene, kind))
        return out.getvalue()


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
                figure = _figure(scene)
                FigureCanvasPdf(figure)
                pages.savefig(figure)
        return out.getvalue()


@contextmanager
def _our_settings() -> Iterator[None]:
    """Set what a drawing's bytes depend on, whatever the user's own settings are."""
    with mpl.rc_context(), warnings.catch_warnings():
        mpl.rcdefaults()
        mpl.rcParams.update(_SETTINGS)
        # a name may hold letters that the font lacks: they are drawn as boxes
        warnings.filterwarnings("ignore", message=".*missing from")
        yield


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


def _figure(scene: Scene) -> Figure:
    figure = Figure(figsize=(scene.width_mm / 25.4, scene.height_mm / 25.4))
    on_paper = Affine2D().scale(1 / 25.4) + figure.dpi_scale_trans
    lettering = [*texts(scene), *_numbers(scene)]
    room = shapely.union_all([shapely.box(*text_box(each)) for each in lettering])
    for depth, artist in enumerate(_artists(scene.items, room)):
        artist.set_transform(on_paper)
        artist.set_zorder(depth)
        figure.add_artist(artist)
    return figure


def _numbers(scene: Scene) -> list[Text]:
    return [number_text(each) for each in scene.items if isinstance(each, Balloon)]


def _artists(items: Sequence[Item], lettered: BaseGeometry) -> Iterator[Artist]:
    """Yield what matplotlib draws, in the scene's order."""
    for item in items:
        match item:
            case Area():
                yield from _area(item, lettered)
            case Line():
                yield _lines([item.points], item.pen, item.ink)
            case Circle():
                yield _disc(item)
            case Text():
                yield from _text(item)
            case Dimension():
                yield from _dimension(item)
            case Balloon():
                yield from _balloon(item)


def _area(item: Area, lettered: BaseGeometry) -> Iterator[Artist]:
    """Yield fill, hatch and edge; the hatch leaves lettering free (ISO 128)."""
    if item.fill is not None:
        yield _filled([item.outer, *item.holes], item.fill)
    if item.hatch is not None:
        shape = Polygon(item.outer, item.holes).difference(lettered)
        lines = hatching(shape, STYLE.patterns[item.hatch])
        clash = item.hatch is Hatch.CLASH
        pen, ink = (Pen.NARROW, item.edge) if clash else (Pen.FINE, Ink.HATCH)
        if lines:
            yield _lines(lines, pen, ink)
    if item.pen is not None:
        yield _lines([item.outer, *item.holes], item.pen, item.edge)


def _filled(rings: Sequence[Sequence[Point]], ink: Ink) -> PathPatch:
    paths = [Path(np.array(each), closed=True) for each in rings]
    return PathPatch(
        Path.make_compound_path(*paths),
        facecolor=STYLE.colours[ink],
        edgecolor="none",
        linewidth=0.0,
    )


def _lines(lines: Sequence[Sequence[Point]], pen: Pen, ink: Ink) -> LineCollection:
    stroke = STYLE.strokes[pen]
    # matplotlib counts dashes in line widths
    dashes = tuple(each / stroke.width_mm for each in stroke.dashes_mm)
    return LineCollection(
        [np.array(each) for each in lines],
        colors=STYLE.colours[ink],
        linewidths=stroke.width_mm * _POINTS_PER_MM,
        linestyles=[(0.0, dashes)] if dashes else "solid",
        capstyle="butt" if dashes else "round",
        joinstyle="miter" if pen is Pen.HEAVY else "round",
    )


def _disc(item: Circle) -> Disc:
    return Disc(
        item.centre,
        item.radius_mm,
        facecolor="none" if item.fill is None else STYLE.colours[item.fill],
        edgecolor=STYLE.colours[item.edge],
        linewidth=STYLE.strokes[item.pen].width_mm * _POINTS_PER_MM,
    )


def _text(item: Text) -> Iterator[Artist]:
    if item.backed:
        left, bottom, right, top = text_box(item)
        corners = ((left, bottom), (right, bottom), (right, top), (left, top))
        yield _filled([(*corners, corners[0])], Ink.WHITE)
    yield Lettering(
        *item.at,
        item.text,
        fontsize=item.height_mm * EM_PER_HEIGHT * _POINTS_PER_MM,
        color=STYLE.colours[item.ink],
        fontweight="bold" if item.bold else "normal",
        horizontalalignment=item.align.value,
        verticalalignment="baseline",
        rotation=90.0 if item.turned else 0.0,
        rotation_mode="anchor",
    )


def _dimension(item: Dimension) -> Iterator[Artist]:
    yield _lines(dimension_lines(item, STYLE), item.pen, item.ink)
    yield _filled([(*each, each[0]) for each in arrows(item, STYLE)], item.ink)
    if item.text is not None:
        yield from _text(item.text)


def _balloon(item: Balloon) -> Iterator[Artist]:
    ink = _MARK_INKS[item.mark]
    if item.leader:
        yield _lines([item.leader], Pen.FINE, ink)
        yield _disc(Circle(centre=item.leader[-1], radius_mm=0.45, fill=ink, edge=ink))
    yield from _mark(item, ink)
    if item.number:
        yield from _text(number_text(item))
    if item.value is not None:
        yield from _text(item.value)


def _mark(item: Balloon, ink: Ink) -> Iterator[Artist]:
    """Yield a balloon's form; each verdict has another."""
    radius, at = item.radius_mm, item.centre
    match item.mark:
        case Mark.RING:
            yield _ring(at, radius, pen=Pen.NARROW, ink=ink)
        case Mark.DOUBLE_RING:
            yield _ring(at, radius * 1.2, pen=Pen.NARROW, ink=ink)
            yield _ring(at, radius * 0.97, pen=Pen.WIDE, ink=ink)
        case Mark.DIAMOND:
            yield _filled([_corners(at, [radius * 1.35] * 4)], ink)
        case Mark.STAR:
            yield _filled([_corners(at, [radius * 1.35, radius * 0.95] * 8)], ink)
        case Mark.SQUARE:
            yield _filled([_corners(at, [radius * 1.25] * 4, 45.0)], ink)


def _ring(centre: Point, radius_mm: float, *, pen: Pen, ink: Ink) -> Disc:
    return _disc(
        Circle(centre=centre, radius_mm=radius_mm, fill=Ink.WHITE, pen=pen, edge=ink)
    )


def _corners(
    centre: Point, radii: Sequence[float], first_deg: float = 0.0
) -> list[Point]:
    """Return an outline with its corners at these distances, all around."""
    step, first = 2 * math.pi / len(radii), math.radians(first_deg)
    corners = [
        (
            centre[0] + each * math.cos(first + i * step),
            centre[1] + each * math.sin(first + i * step),
        )
        for i, each in enumerate(radii)
    ]
    return [*corners, corners[0]]
