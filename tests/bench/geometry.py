"""How much faster the kernel is than what one would write without it.

Run as ``python -m tests.bench.geometry``: every ratio is taken in this one run, and
no ratio is printed before states and gaps are seen to be equal.
"""

from __future__ import annotations

import math
import time
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from itertools import combinations
from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray

from layout.geometry.bodies.answers import answers
from layout.geometry.bodies.body import Body, shapes
from layout.geometry.bodies.crowd import Crowd
from layout.geometry.relations.query import Clearances, clearances
from tests.bench import plain, scenes
from tests.bench.shares import shares
from tests.geometry import reference

__all__ = [
    "Comparison",
    "UnequalError",
    "check",
    "crowd",
    "main",
    "report",
    "slide",
    "whole_solids",
]

Answers: TypeAlias = list[tuple[bool | None, float]]
"""Interfering or not (None: the baseline cannot say), and the gap in mm."""

_EQUAL_MM = 1e-6


class UnequalError(AssertionError):
    """The two ways give different answers, so their speeds mean nothing."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Comparison:
    """Two ways to one set of answers.

    Parameters
    ----------
    pairs : array of shape (n, 2)
        Which bodies are asked about.
    ours : callable
        Asks the kernel which of the pairs matter, and how those stand.
    theirs : callable
        The baseline, for all pairs; its input is made beforehand and not counted.
    target : float
        How many times faster ours has to be.
    limit_mm : float
        Pairs farther apart matter to no finding, so ours may leave them out.
    """

    title: str
    pairs: NDArray[np.intp]
    ours: Callable[[], Clearances]
    theirs: Callable[[], Answers]
    target: float
    limit_mm: float = math.inf


def crowd(
    count: int = 40, *, corners: range = scenes.FINE, ready: bool = True
) -> Comparison:
    """Return (a): all pairs of prisms that can matter to a finding.

    Made ready, both have everything in place beforehand: the loop its outlines, ours
    its boxes and cells besides.  Not ``ready``, both start from outlines at their
    origins, and putting them in place counts.
    """
    bodies = scenes.prisms(count, corners)
    others = [plain.prism(body) for body in bodies]

    def theirs() -> Answers:
        placed = others if ready else [plain.prism(body) for body in bodies]
        return [*plain.loop(combinations(placed, 2))]

    pairs = _every_pair(count)
    made = _made_ready(bodies, pairs)
    told = f"stars of {corners.start} to {corners.stop - 1} corners"
    how = "made ready" if ready else "not made ready"
    return Comparison(
        title=f"(a) {count} prisms, {told}, {how}: a loop",
        pairs=pairs,
        ours=lambda: _relevant(made if ready else Crowd.of(bodies), pairs),
        theirs=theirs,
        target=20,
        limit_mm=scenes.NEED_MM,
    )


def _made_ready(bodies: Sequence[Body], pairs: NDArray[np.intp]) -> Crowd:
    """Return bodies with boxes, outlines in place and cells all made."""
    made = Crowd.of(bodies)
    len(made.cells)
    clearances(made, pairs)
    return made


def _every_pair(count: int) -> NDArray[np.intp]:
    return np.column_stack(np.triu_indices(count, 1))


def _relevant(bodies: Crowd, pairs: NDArray[np.intp]) -> Clearances:
    """Return how the pairs stand whose boxes are near enough to matter."""
    return clearances(bodies, pairs, limit_mm=scenes.NEED_MM)


def whole_solids(count: int = 40) -> Comparison:
    """Return (b): every gap of two-outline solids, cutting included."""
    solids = scenes.two_outlines(count)
    meshes = [reference.manifold(body) for body in _cut(solids)]
    pairs = _every_pair(count)

    def theirs() -> Answers:
        return [(None, reference.gap_mm(a, b)) for a, b in combinations(meshes, 2)]

    return Comparison(
        title=f"(b) {count} two-outline bodies, every gap, cutting included: min_gap",
        pairs=pairs,
        ours=lambda: _every_witness(_cut(solids), pairs),
        theirs=theirs,
        target=20,
    )


def _every_witness(bodies: Sequence[Body], pairs: NDArray[np.intp]) -> Clearances:
    """Return states and gaps of the pairs, nearest points found too."""
    found = answers(Crowd.of(bodies), np.ascontiguousarray(pairs.T), points=True)
    return Clearances(pairs, found.interfering, found.gap)


def _cut(solids: Sequence[scenes.Placed]) -> list[Body]:
    cut = shapes([(solid,) for solid, _ in solids])
    return [
        Body(name=str(i), shape=shape, at_mm=at)
        for i, (shape, (_, at)) in enumerate(zip(cut, solids, strict=True))
    ]


def slide(
    places: int = 200, others: int = 39, *, whole_depth: bool = False
) -> Comparison:
    """Return (c): one body at many places against all others."""
    scene = scenes.sliding(places, others, whole_depth=whole_depth)
    where = "over the whole depth" if whole_depth else "on a rail"
    body, rest = plain.prism(scene.body), [plain.prism(each) for each in scene.others]
    moved, still = np.arange(places), np.arange(places, places + others)
    pairs = np.column_stack([np.repeat(moved, others), np.tile(still, places)])

    def ours() -> Clearances:
        return _relevant(Crowd.of_places(scene.body, scene.moves, scene.others), pairs)

    return Comparison(
        title=f"(c) {places} places {where} against {others}: the same loop",
        pairs=pairs,
        ours=ours,
        theirs=lambda: [*plain.slide(body, scene.moves, rest)],
        target=30,
        limit_mm=scenes.NEED_MM,
    )


def check(comparison: Comparison) -> Clearances:
    """Return the kernel's answers, or raise unless the baseline gives the same."""
    found = comparison.ours()
    left = dict(zip(_keys(comparison.pairs), comparison.theirs(), strict=True))
    ours = zip(
        _keys(found.pairs), found.interfering.tolist(), found.gap_mm, strict=True
    )
    for key, met, ours_mm in ours:
        interfering, gap_mm = left.pop(key)
        if abs(ours_mm - gap_mm) > _EQUAL_MM or interfering not in {met, None}:
            raise UnequalError(
                f"{key}: {met}, {ours_mm} mm, but the baseline: {interfering}, "
                f"{gap_mm} mm"
            )
    missed = [gap_mm for _, gap_mm in left.values() if gap_mm <= comparison.limit_mm]
    if missed:
        raise UnequalError(f"left out pairs {missed} mm apart")
    return found


def _keys(pairs: NDArray[np.intp]) -> list[tuple[int, int]]:
    return [(i, j) for i, j in pairs.tolist()]


def best_seconds(comparison: Comparison, rounds: int) -> tuple[float, float]:
    """Return the best times of ours and of theirs, taken in turns."""
    ours, theirs = [], []
    for _ in range(rounds):
        ours += [_seconds(comparison.ours) for _ in range(5)]
        theirs.append(_seconds(comparison.theirs))
    return min(ours), min(theirs)


def _seconds(call: Callable[[], object]) -> float:
    """Return the processor time of a call: others may use the machine meanwhile."""
    start = time.process_time()
    call()
    return time.process_time() - start


def report(comparison: Comparison, rounds: int = 6) -> list[str]:
    """Return ratio and shares in words, once the answers are seen to be equal."""
    found = check(comparison)
    ours, theirs = best_seconds(comparison, rounds)
    met = int(found.interfering.sum())
    asked, parts = len(comparison.pairs), shares(comparison.ours).items()
    return [
        comparison.title,
        f"  {asked} pairs, {len(found.gap_mm)} matter, {met} interfere; all equal",
        f"  {1e3 * theirs:.1f} ms / {1e3 * ours:.2f} ms",
        f"  {theirs / ours:.1f} times as fast (target {comparison.target:g})",
        "  of ours: " + ", ".join(f"{name} {part:.0%}" for name, part in parts),
    ]


def main() -> None:
    """Compare, and print ratios and shares."""
    for comparison in (
        crowd(),
        crowd(ready=False),
        crowd(corners=scenes.COARSE),
        crowd(corners=scenes.COARSE, ready=False),
        whole_solids(),
        slide(),
        slide(whole_depth=True),
    ):
        print(*report(comparison), sep="\n")


if __name__ == "__main__":
    main()
