"""Builds of raw outlines, from the file to the JSON, against an outside 3D library.

Reference: manifold3d (package registry), whole concave solids as closed meshes.
"""

from __future__ import annotations

import json
import math
from itertools import combinations
from pathlib import Path
from typing import Any, TypeAlias

import numpy as np
import pytest
import shapely
import yaml
from shapely.geometry import Polygon
from typer.testing import CliRunner

from layout.cli import app
from layout.geometry.bodies.body import Body
from layout.geometry.solids.solid import Solid
from tests.geometry import reference
from tests.geometry.random_bodies import KINDS, random_body

Json: TypeAlias = dict[str, Any]

NEAR_TOUCHING_MM = 1e-5


def _outline(outline: Polygon) -> dict[str, Any]:
    rings = [shapely.get_coordinates(ring) for ring in outline.interiors]
    return {
        "outer": shapely.get_coordinates(outline.exterior).tolist(),
        "holes": [ring.tolist() for ring in rings],
    }


def _solid(solid: Solid) -> dict[str, Any]:
    return {"side": _outline(solid.side), "top": _outline(solid.top)}


@pytest.fixture(scope="module")
def bodies() -> list[Body]:
    rng = np.random.default_rng(11)
    kinds = list(KINDS)
    made = [random_body(rng, f"b{k}", kinds[k % len(kinds)]) for k in range(24)]
    return [body.moved((*rng.uniform(-90, 90, 3).tolist(),)) for body in made]


@pytest.fixture(scope="module")
def told(bodies: list[Body], tmp_path_factory: pytest.TempPathFactory) -> Json:
    parts = {
        body.name: {
            "kind": "block",
            "at": list(body.at_mm),
            "solids": [_solid(solid) for solid in body.shape.solids],
        }
        for body in bodies
    }
    build: Path = tmp_path_factory.mktemp("blocks") / "blocks.yaml"
    build.write_text(yaml.safe_dump({"parts": parts}, sort_keys=False))
    done = CliRunner().invoke(app, ["check", str(build), "--json", "--pairs"])
    assert done.exit_code == 1, done.output
    answer: Json = json.loads(done.output)
    return answer


def test_every_pair_is_told_once_in_the_order_of_the_file(
    bodies: list[Body], told: Json
) -> None:
    names = [(a.name, b.name) for a, b in combinations(bodies, 2)]
    assert [(pair["a"], pair["b"]) for pair in told["pairs"]] == names


def test_states_and_gaps_are_those_of_the_outside_library(
    bodies: list[Body], told: Json
) -> None:
    meshes = [reference.manifold(body) for body in bodies]
    states = set()
    for (a, b), pair in zip(combinations(meshes, 2), told["pairs"], strict=True):
        states.add(pair["state"])
        if pair["state"] == "interfering":
            assert pair["gap_mm"] == 0
            assert reference.common_volume_mm3(a, b) > 0
            continue
        gap_mm = reference.gap_mm(a, b)
        assert pair["gap_mm"] == pytest.approx(gap_mm, abs=1e-6)
        assert gap_mm > NEAR_TOUCHING_MM
        assert math.dist(pair["from_mm"], pair["to_mm"]) == pytest.approx(
            pair["gap_mm"], abs=1e-9
        )
    assert states == {"apart", "interfering"}


def test_a_stated_overlap_frees_the_meshes(bodies: list[Body], told: Json) -> None:
    by_name = {body.name: reference.manifold(body) for body in bodies}
    axes = ("depth", "height", "width")
    hits = [pair for pair in told["pairs"] if pair["state"] == "interfering"]
    for pair in hits:
        overlap = pair["overlap"]
        shift = [0.0, 0.0, 0.0]
        shift[axes.index(overlap["axis"])] = overlap["sign"] * overlap["mm"]
        a, b = by_name[pair["a"]], by_name[pair["b"]].translate(shift)
        assert reference.common_volume_mm3(a, b) < 1e-4
    findings = [each for each in told["findings"] if each["verdict"] == "clash"]
    assert len(findings) == len(hits) > 10
