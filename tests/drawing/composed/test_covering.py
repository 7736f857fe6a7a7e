"""A detail shows the two faces of its gap, whatever lies before them."""

from __future__ import annotations

from layout.build.placed import Build
from layout.drawing.composed.compose import scene
from layout.drawing.paper.boxes import texts
from layout.drawing.paper.scene import Area
from layout.parts.form.form import Role
from tests.drawing.samples import case_bodies, check_of, part, placed

_FOOT_MM = 60.0
"""The views of these builds end above it."""

_NEEDED = (("left", "right", 8.0, 0.5),)


def _build(*, lid: bool) -> Build:
    bodies = [
        *case_bodies(),
        placed("left", Role.BLOCK, ((100, 200), (100, 200), (20, 60))),
        placed("right", Role.BLOCK, ((206, 300), (100, 200), (20, 60))),
    ]
    if lid:  # over the gap in both views
        bodies.append(placed("lid", Role.BLOCK, ((150, 250), (50, 300), (70, 90))))
        bodies.append(placed("roof", Role.BLOCK, ((150, 250), (301, 320), (0, 90))))
    return Build(
        name="two blocks",
        parts=tuple(part(key, "block", "") for key in ("left", "right")),
        bodies=tuple(bodies),
        case_name="quiet tower",
        case_size_mm=(430.0, 460.0, 210.0),
    )


def _detail(*, lid: bool) -> tuple[set[str], set[str]]:
    """Return the parts that the detail at the foot fills, and what the sheet says."""
    build = _build(lid=lid)
    drawn = scene(build, check_of(build, _NEEDED))
    fills = {
        each.ref
        for each in drawn.items
        if isinstance(each, Area) and each.ref and each.fill is not None
        if max(y for _, y in each.outer) < _FOOT_MM
    }
    return fills, {each.text for each in texts(drawn)}


def test_what_lies_before_a_gap_is_taken_out_of_its_detail_and_named() -> None:
    filled, said = _detail(lid=True)
    assert filled == {"left", "right"}
    assert {"1:2", "without lid"} <= said


def test_a_detail_that_nothing_hides_is_left_whole() -> None:
    filled, said = _detail(lid=False)
    assert filled == {"left", "right"}
    assert "1:2" in said
    assert not any(each.startswith("without ") for each in said)
