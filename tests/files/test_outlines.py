from __future__ import annotations

import pytest
from shapely.geometry import Polygon

from layout.files.errors import FieldError
from layout.files.outlines import SolidForm, interval, outline, solid, vector
from layout.files.tree import Scalar
from layout.geometry.solids.solid import Solid, rectangle
from layout.geometry.space import Box

Point = tuple[object, ...]

SQUARE = [(0, 0), (60, 0), (60, 40), (0, 40)]


def scalars(value: object) -> object:
    if isinstance(value, list | tuple):
        return [scalars(each) for each in value]
    if isinstance(value, dict):
        return {key: scalars(each) for key, each in value.items()}
    return Scalar(str(value), quoted=False, line=1)


def read(value: object) -> Polygon:
    return outline(scalars(value))


def test_a_list_of_points_is_an_outline_closed_or_not() -> None:
    assert read(SQUARE).area == 2400.0
    assert read([*SQUARE, SQUARE[0]]).equals(read(SQUARE))


def test_holes_are_cut_out_and_may_touch_in_a_point() -> None:
    left = [(10, 10), (20, 10), (20, 20), (10, 20)]
    right = [(20, 20), (30, 20), (30, 30), (20, 30)]
    area = read({"outer": SQUARE, "holes": [left, right]})
    assert area.area == 2200.0
    assert len(area.interiors) == 2
    assert read({"outer": SQUARE}).area == 2400.0


def test_points_may_have_units() -> None:
    assert read([(0, 0), ("1 in", 0), ("1 in", "1 in")]).area == pytest.approx(322.58)


@pytest.mark.parametrize(
    ("value", "found", "at"),
    [
        ("text", "text", ()),
        ([], "fewer than three", ()),
        (SQUARE[:2], "fewer than three", ()),
        ([(0, 0), (1, 1), (0, 0)], "fewer than three", ()),
        ([(0, 0), (1, 1), (2, 2)], "points on one line", ()),
        ([(0, 0), (60, 40), (60, 0), (0, 40)], "crosses itself at (30, 20)", ()),
        ([(0, 0), (4, 0), (4, 4), (2, 0), (0, 4)], "touches itself at (2, 0)", ()),
        ([(0, 0), (9e-7, 0), (9e-7, 40)], "9e-07 mm thin", ()),
        ([(0, 0), (1, 1), (2, 2, 2)], "a list of 3", (2,)),
        ([(0, 0), (1, 1), 2], "2", (2,)),
        ([(0, 0), (1, ".nan"), (2, 2)], "no finite number", (1, 1)),
        ([(0, 0), (1, ".inf"), (2, 2)], "no finite number", (1, 1)),
        ([(0, 0), (1, "2e9"), (2, 2)], "2e9", (1, 1)),
        ([(n, n * n) for n in range(1001)], "1001 points", ()),
        ({"holes": []}, "nothing", ("outer",)),
        ({"outer": SQUARE, "hole": []}, "an unknown key", ("hole",)),
        ({"outer": SQUARE, "holes": 3}, "3", ("holes",)),
        (
            {"outer": SQUARE, "holes": [[(10, 10), (90, 10), (20, 20)]]},
            "leaves its outline at (90, 10)",
            ("holes", 0),
        ),
        (
            {"outer": SQUARE, "holes": [[(70, 10), (90, 10), (80, 20)]]},
            "leaves its outline",
            ("holes", 0),
        ),
        (
            {
                "outer": SQUARE,
                "holes": [
                    [(10, 10), (30, 10), (30, 30), (10, 30)],
                    [(20, 20), (40, 20), (40, 39), (20, 39)],
                ],
            },
            "crosses another",
            ("holes", 1),
        ),
        (
            {"outer": SQUARE, "holes": [[(0, 10), (30, 10), (30, 30), (0, 30)]]},
            "crosses itself",
            (),
        ),
        (
            {"outer": SQUARE, "holes": [[(0, 20), (30, 0), (60, 20), (30, 40)]]},
            "falls apart",
            (),
        ),
    ],
)
def test_what_is_no_outline(
    value: object, found: str, at: tuple[str | int, ...]
) -> None:
    with pytest.raises(FieldError, match="would be right") as caught:
        read(value)
    assert found in caught.value.found
    assert caught.value.at == at


def test_intervals_and_places() -> None:
    assert interval(scalars([0, 30])) == (0.0, 30.0)
    assert vector(scalars([120, -40, 0])) == (120.0, -40.0, 0.0)
    for backwards in ([30, 0], [5, 5]):
        with pytest.raises(FieldError, match="the lower end before the upper"):
            interval(scalars(backwards))
    with pytest.raises(FieldError, match="a thickness of 9e-07 mm; at least 1e-06"):
        interval(scalars([0, 9e-7]))
    with pytest.raises(FieldError, match=r"a list of 2; \[depth, height, width\]"):
        vector(scalars([120, 40]))


def test_the_three_forms_of_a_solid() -> None:
    area, span = rectangle((0, 60), (0, 40)), (0.0, 30.0)
    both = rectangle((0, 60), (0, 30))
    box = Box((0, 0, 0), (60, 40, 30))
    assert solid(SolidForm(side=area, z=span)).bounds == box
    assert solid(SolidForm(top=both, y=(0.0, 40.0))).bounds == box
    assert solid(SolidForm(side=area, top=both)) == Solid(area, both)


@pytest.mark.parametrize(
    ("form", "found"),
    [
        (SolidForm(), "found nothing"),
        (SolidForm(side=rectangle((0, 1), (0, 1))), "found side;"),
        (SolidForm(z=(0, 1)), "found z;"),
        (SolidForm(side=rectangle((0, 1), (0, 1)), y=(0, 1)), "found side and y;"),
        (
            SolidForm(
                side=rectangle((0, 1), (0, 1)), top=rectangle((0, 1), (0, 1)), z=(0, 1)
            ),
            "found side and top and z;",
        ),
    ],
)
def test_other_forms_are_refused(form: SolidForm, found: str) -> None:
    with pytest.raises(FieldError, match=found):
        solid(form)


def test_unequal_depths_of_the_outlines_are_both_told() -> None:
    side, top = rectangle((0, 60), (0, 40)), rectangle((0, 60.00001), (0, 30))
    with pytest.raises(
        FieldError, match=r"x 0 to 60\.00001 mm but side over x 0 to 60"
    ):
        solid(SolidForm(side=side, top=top))
    near = rectangle((0, 60.0000009), (0, 30))
    assert solid(SolidForm(side=side, top=near)).top.bounds[2] == 60.0000009
