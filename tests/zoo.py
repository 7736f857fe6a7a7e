"""A named shape of every kind, degenerate ones included, each around the origin."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from shapely.geometry import Polygon, box

from layout.geometry.bodies.body import Body, Shape
from layout.geometry.solids.round import disc_outline, hole_outline, rod_along_depth
from layout.geometry.solids.solid import Solid, block, rectangle

__all__ = ["ZOO", "animal"]

_X = (0.0, 60.0)
_L = Polygon([(0, 0), (60, 0), (60, 10), (20, 10), (20, 40), (0, 40)])
_C = Polygon([(0, 0), (60, 0), (60, 8), (12, 8), (12, 32), (60, 32), (60, 40), (0, 40)])
_WEDGE = Polygon([(0, 0), (60, 0), (60, 25)])
_TEETH = zip(
    (60, 50, 50, 35, 35, 25, 25, 10, 10, 0),
    (40, 40, 10, 10, 40, 40, 10, 10, 40, 40),
    strict=True,
)
_COMB = Polygon([(0, 0), (60, 0), *_TEETH])
_FRAME = Polygon(
    box(0, 0, 60, 40).exterior,
    [Polygon([(10, 8), (50, 8), (50, 32), (10, 32)]).exterior],
)
_SLANTED_FRAME = Polygon(
    [(0, 20), (30, 0), (60, 20), (30, 40)], [[(15, 20), (30, 10), (45, 20), (30, 30)]]
)
_TWO_HOLES = Polygon(
    box(0, 0, 60, 40).exterior,
    [box(5, 5, 25, 35).exterior, box(35, 10, 55, 30).exterior],
)
_PINCHED = Polygon(
    [(0, 0), (30, 0), (60, 0), (60, 40), (0, 40)], [[(30, 0), (40, 20), (20, 20)]]
)
"""A hole that touches its outline in one point: valid, and cut there in two slabs."""
_NEEDLE = Polygon([(0, 0), (60, 0), (60, 1e-3)])
_STEEP = Polygon([(0, 0), (60, 0), (60, 50), (1e-4, 50)])
"""A rear face 89.9999 degrees steep."""
_IDLE = Polygon(
    [(0, 0), (15, 0), (30, 0), (30, 0), (60, 0), (60, 20), (45, 20), (0, 20)]
)
"""Corners on straight edges, and one given twice."""
_STEPS = Polygon([(0, 0), (60, 0), (60, 40), (30, 40), (30, 20), (0, 20)])
_STEPS_BACK = Polygon([(0, 0), (60, 0), (60, 20), (30, 20), (30, 40), (0, 40)])
"""With ``_STEPS``: at x = 30 both are tall, over no depth, so no face is there."""

_FLAT = rectangle(_X, (0, 30))

_SOLIDS: dict[str, tuple[Solid, ...]] = {
    "box": (block(_X, (0, 40), (0, 30)),),
    "cube": (block((0, 10), (0, 10), (0, 10)),),
    "plate": (block((0, 0.8), (0, 200), (0, 200)),),
    "film": (block(_X, (0, 1e-3), (0, 30)),),
    "speck": (block((0, 1e-3), (0, 1e-3), (0, 1e-3)),),
    "beam": (block((0, 10_000), (0, 1), (0, 1)),),
    "wedge across": (Solid(_WEDGE, _FLAT),),
    "upright wedge": (Solid(_FLAT, _WEDGE),),
    "letter L": (Solid(_L, _FLAT),),
    "letter C": (Solid(_C, _FLAT),),
    "upright C": (Solid(_FLAT, _C),),
    "comb": (Solid(_COMB, _FLAT),),
    "frame": (Solid(_FRAME, _FLAT),),
    "upright slanted frame": (Solid(_FLAT, _SLANTED_FRAME),),
    "two holes": (Solid(_TWO_HOLES, _FLAT),),
    "disc across": (Solid(disc_outline((30, 30), 60), rectangle((0, 60), (0, 25))),),
    "ring": (
        Solid(
            Polygon(
                disc_outline((30, 30), 60).exterior,
                [hole_outline((30, 30), 40).exterior],
            ),
            rectangle((0, 60), (0, 25)),
        ),
    ),
    "rod along depth": rod_along_depth(_X, (20, 20), 16),
    "C and comb": (Solid(_C, _COMB),),
    "frame and frame": (Solid(_FRAME, _SLANTED_FRAME),),
    "wedge and wedge": (Solid(_WEDGE, _WEDGE),),
    "pyramid": (Solid(_WEDGE, Polygon([(0, 12), (60, 0), (60, 25)])),),
    "pinched": (Solid(_PINCHED, _FLAT),),
    "needle": (Solid(_NEEDLE, _NEEDLE),),
    "steep face": (Solid(_STEEP, _FLAT),),
    "idle corners": (Solid(_IDLE, _FLAT),),
    "face of no thickness": (Solid(_STEPS, _STEPS_BACK),),
    "ranges a little off": (
        Solid(rectangle((0, 60), (0, 40)), rectangle((5e-7, 60 - 5e-7), (0, 30))),
    ),
    "two boxes apart": (
        block((0, 10), (0, 10), (0, 10)),
        block((30, 40), (0, 10), (0, 10)),
    ),
    "boxes face to face": (
        block((0, 10), (0, 10), (0, 10)),
        block((10, 20), (0, 10), (0, 10)),
    ),
    "box within a box": (
        block((0, 40), (0, 40), (0, 40)),
        block((10, 20), (10, 20), (10, 20)),
    ),
    "the same box twice": (block(_X, (0, 40), (0, 30)),) * 2,
}

ZOO: Mapping[str, Shape] = MappingProxyType(
    {name: Shape(solids) for name, solids in _SOLIDS.items()}
)


def animal(name: str) -> Body:
    """Return the body of that name, standing at the origin."""
    return Body(name=name, shape=ZOO[name])
