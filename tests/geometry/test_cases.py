"""Cases as data, which any implementation can run, each of them both ways round."""

from __future__ import annotations

from pathlib import Path
from typing import TypedDict

import pytest
import yaml
from shapely.geometry import Polygon

from layout.geometry.bodies.body import Body, Shape
from layout.geometry.relations.query import relation
from layout.geometry.relations.relation import Relation
from layout.geometry.solids.solid import Solid, rectangle
from layout.geometry.space import Vector

_Points = list[tuple[float, float]]


class _Ringed(TypedDict):
    outer: _Points
    holes: list[_Points]


_Outline = _Points | _Ringed


class _Solid(TypedDict, total=False):
    side: _Outline
    top: _Outline
    y: tuple[float, float]
    z: tuple[float, float]


class _Overlap(TypedDict):
    axis: str
    mm: float
    sign: int


class _Case(TypedDict, total=False):
    about: str
    a: list[_Solid]
    b: list[_Solid]
    at: Vector
    state: str
    gap: float
    overlap: _Overlap


def _cases() -> list[_Case]:
    files = sorted((Path(__file__).parent / "cases").glob("*.yaml"))
    return [case for file in files for case in yaml.safe_load(file.read_text("utf-8"))]


def _outline(given: _Outline) -> Polygon:
    if isinstance(given, dict):
        return Polygon(given["outer"], given["holes"])
    return Polygon(given)


def _solid(given: _Solid) -> Solid:
    if "side" in given and "top" in given:
        return Solid(_outline(given["side"]), _outline(given["top"]))
    drawn = _outline(given["side"] if "side" in given else given["top"])
    x = (drawn.bounds[0], drawn.bounds[2])
    if "side" in given:
        return Solid(drawn, rectangle(x, given["z"]))
    return Solid(rectangle(x, given["y"]), drawn)


def _body(name: str, solids: list[_Solid]) -> Body:
    return Body(name=name, shape=Shape(tuple(_solid(each) for each in solids)))


def _stands(found: Relation, case: _Case, sign: int) -> None:
    assert found.state.value == case["state"]
    assert found.gap_mm == pytest.approx(case["gap"], abs=1e-6)
    stated = case.get("overlap")
    assert (found.overlap is None) == (stated is None)
    if found.overlap is not None and stated is not None:
        assert found.overlap.axis.value == stated["axis"]
        assert found.overlap.mm == pytest.approx(stated["mm"], abs=5e-6)
        assert found.overlap.sign == sign * stated["sign"]


@pytest.mark.parametrize("case", _cases(), ids=lambda case: str(case["about"]))
def test_a_case_stands_both_ways_round(case: _Case) -> None:
    x, y, z = case["at"]
    a, b = _body("a", case["a"]), _body("b", case["b"]).moved((x, y, z))
    _stands(relation(a, b), case, 1)
    _stands(relation(b, a), case, -1)
