"""Compare drawing with an empty page of the same size, and ten drawings with ten runs.

Run as ``python -m tests.bench.drawing``: for each format the ratio of a whole drawing
(scene and file) and of the file alone to an empty matplotlib figure, and how many times
faster ten drawings are in one run than in ten: by the clock, on the cores there are,
and in processor time, on one core, where none is drawn beside another.  The aim is 2.5,
by the clock.
"""

from __future__ import annotations

import io
import os
import subprocess
import sys
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Final

from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.backends.backend_pdf import FigureCanvasPdf
from matplotlib.backends.backend_svg import FigureCanvasSVG
from matplotlib.figure import Figure

from layout.build.placed import Build
from layout.drawing.composed.compose import scene
from layout.drawing.ink.figure import PNG_DPI, render
from layout.drawing.paper.scene import Scene
from layout.files.build_file import read_build
from layout.questions.checking.check import check
from layout.questions.findings.finding import Check

__all__ = ["TARGET", "against_empty", "in_one_run"]

TARGET: Final = 2.5

_ROOT: Final = Path(__file__).parents[2]
_CANVAS: Final = {
    "svg": FigureCanvasSVG,
    "png": FigureCanvasAgg,
    "pdf": FigureCanvasPdf,
}


def against_empty(
    build: Build, found: Check, kind: str, *, rounds: int
) -> tuple[float, float]:
    """Return the ratios of a whole drawing and of its file alone to an empty page."""
    drawn = scene(build, found)
    whole_s = _least(lambda: render(scene(build, found), kind), rounds)
    file_s = _least(lambda: render(drawn, kind), rounds)
    empty_s = _least(lambda: _empty(drawn, kind), rounds)
    return whole_s / empty_s, file_s / empty_s


def _empty(drawn: Scene, kind: str) -> bytes:
    """Return an empty page of the scene's size."""
    figure = Figure(figsize=(drawn.width_mm / 25.4, drawn.height_mm / 25.4))
    out = io.BytesIO()
    canvas = _CANVAS[kind](figure)
    canvas.print_figure(out, dpi=PNG_DPI if kind == "png" else 72, format=kind)
    return out.getvalue()


def _least(work: Callable[[], object], rounds: int) -> float:
    least_s = float("inf")
    for _ in range(rounds):
        begin = time.perf_counter()
        work()
        least_s = min(least_s, time.perf_counter() - begin)
    return least_s


def in_one_run(builds: list[Path], kind: str) -> tuple[float, float]:
    """Return how many times faster builds are drawn in one run than in one run each.

    The first by the clock, on all cores; the second in processor time, on one core.
    """
    with TemporaryDirectory() as folder:
        _draw(builds[:1], kind, folder)  # what is compiled once is compiled now
        apart = [_draw([each], kind, folder) for each in builds]
        beside_s, _ = _draw(builds, kind, folder)
        with _one_core():
            _, after_s = _draw(builds, kind, folder)
    clock_s, processor_s = map(sum, zip(*apart, strict=True))
    return clock_s / beside_s, processor_s / after_s


@contextmanager
def _one_core() -> Iterator[None]:
    """Let runs use one core alone, where the platform can."""
    if sys.platform != "linux":
        yield
        return
    every = os.sched_getaffinity(0)
    os.sched_setaffinity(0, {min(every)})
    try:
        yield
    finally:
        os.sched_setaffinity(0, every)


def _draw(builds: list[Path], kind: str, folder: str) -> tuple[float, float]:
    """Return what a run took by the clock, and its processor time without helpers'."""
    begin_s, before = time.perf_counter(), os.times()
    words = [*map(str, builds), "--format", kind, "-o", folder]
    done = subprocess.run(
        [sys.executable, "-m", "layout", "draw", *words],
        capture_output=True,
        check=False,
        cwd=_ROOT,
        env={**os.environ, "PYTHONPATH": str(_ROOT)},
        text=True,
    )
    clock_s, after = time.perf_counter() - begin_s, os.times()
    if done.returncode not in {0, 1} or done.stderr:
        raise RuntimeError(done.stderr)
    user_s = after.children_user - before.children_user
    return clock_s, user_s + after.children_system - before.children_system


def main() -> None:
    """Print the ratios: one example against an empty page, ten against one run each."""
    builds = sorted((_ROOT / "cases").glob("*-build.yaml"))[:10]
    build = read_build(builds[0])
    found = check(build)
    for kind in _CANVAS:
        whole, file = against_empty(build, found, kind, rounds=5)
        print(f"{kind}: {whole:.1f} times an empty page, the file alone {file:.1f}")
        clock, processor = in_one_run(builds, kind)
        print(
            f"  {len(builds)} in one run: {clock:.1f} times as fast by the clock, "
            f"{os.cpu_count()} cores (aim {TARGET}); "
            f"{processor:.1f} times in processor time, one core"
        )


if __name__ == "__main__":
    main()
