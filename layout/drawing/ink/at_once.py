"""Builds drawn at once: each from its plan to its files, several beside each other.

Every drawing is made from values and ends as bytes, so that which process makes it, and
which of them is done first, changes nothing.
"""

from __future__ import annotations

import gc
from collections.abc import Iterator, Sequence
from concurrent.futures import ProcessPoolExecutor
from concurrent.futures.process import BrokenProcessPool
from multiprocessing import get_context

from layout.build.remade import Remaker
from layout.drawing.composed.compose import scenes
from layout.drawing.ink.ahead import START, load_ahead
from layout.drawing.sheets.layers import Layer
from layout.drawing.sheets.sheet import Sheet
from layout.drawing.sheets.title_block import Title
from layout.drawing.views.compared import Before
from layout.drawing.views.extremes import ends_of_travel
from layout.errors import LayoutError
from layout.questions.checking.check import check
from layout.questions.findings.finding import Check
from layout.questions.mending.mending import mended
from layout.questions.moving.moves import rail_mm
from layout.values import dataclass

__all__ = ["CutOffError", "Drawn", "Wanted", "drawn", "drawn_at_once"]


class CutOffError(LayoutError):
    """A process that drew was ended from outside."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Wanted:
    """What is wanted of every drawing.

    Parameters
    ----------
    kinds : tuple of str
        Of ``svg``, ``png`` and ``pdf``.
    before : Before, optional
        An earlier build, which a drawing is compared with.
    """

    kinds: tuple[str, ...]
    sheets: tuple[Sheet, ...]
    title: Title
    layers: tuple[Layer, ...] = ()
    before: Before | None = None


@dataclass(frozen=True, slots=True)
class Drawn:
    """What was found out about a build, and for each kind the files of its sheets."""

    answer: Check
    files: tuple[tuple[bytes, ...], ...]


def drawn(made: Remaker, wanted: Wanted) -> Drawn:
    """Return the drawing of a build, with advice that was tried where it fails."""
    # who hands builds out to others draws none
    from layout.drawing.ink.figure import render_sheets  # noqa: PLC0415

    build = made.build
    answer = mended(made, check(build))
    sheets = scenes(
        build,
        answer,
        sheets=wanted.sheets,
        title=wanted.title,
        before=wanted.before,
        layers=wanted.layers,
        extremes=ends_of_travel(build, rail_mm(made.plan)),
    )
    return Drawn(answer, tuple(render_sheets(sheets, kind) for kind in wanted.kinds))


def drawn_at_once(
    builds: Sequence[Remaker], wanted: Wanted, *, cores: int
) -> Iterator[Drawn]:
    """Yield the drawings of builds in their order, on as many cores as there are.

    One build alone, or one core, needs no other process.

    Raises
    ------
    CutOffError
        If a process is ended from outside before it is done.
    """
    processes = min(len(builds), cores)
    if processes < 2:
        yield from (drawn(each, wanted) for each in builds)
        return
    load_ahead()
    settings = gc.set_threshold, gc.get_threshold()
    pool = ProcessPoolExecutor(processes, get_context(START), *settings)
    # the dearest first: a dear one at the end would be waited for alone
    dearest = sorted(range(len(builds)), key=lambda n: -len(builds[n].build.bodies))
    try:
        begun = {n: pool.submit(drawn, builds[n], wanted) for n in dearest}
        yield from (begun[n].result() for n in range(len(builds)))
    except BrokenProcessPool as error:
        raise CutOffError(
            f"drawing {len(builds)} builds, {processes} at once: one was ended from "
            "outside, as for want of memory; fewer builds would be right"
        ) from error
    finally:
        pool.shutdown(cancel_futures=True)
