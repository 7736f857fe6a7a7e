from __future__ import annotations

import json
from dataclasses import replace

from layout.drawing.paper.scene import Ink, Line, Mark, Pen, Scene, Text, as_json


def _scene(*items: Line | Text) -> Scene:
    return Scene(
        title="a title",
        description="",
        width_mm=420.0,
        height_mm=297.0,
        scale=(1, 2),
        items=items,
    )


def test_json_tells_every_item_and_field() -> None:
    line = Line(points=((0.0, 1.5), (2.0, 3.0)), pen=Pen.WIDE, ink=Ink.FAIL)
    told = json.loads(as_json(_scene(line)))
    assert told["scale"] == [1, 2]
    assert told["items"] == [
        {
            "is": "line",
            "points": [[0.0, 1.5], [2.0, 3.0]],
            "pen": Pen.WIDE.value,
            "ink": Ink.FAIL.value,
            "ref": "",
        }
    ]


def test_json_keys_are_sorted() -> None:
    keys = list(json.loads(as_json(_scene())))
    assert keys == sorted(keys)


def test_json_is_blind_to_less_than_a_millionth() -> None:
    text = Text(at=(-1e-9, 2.0), text="x", height_mm=2.5)
    same = replace(text, at=(0.0, 2.0 + 1e-8))
    other = replace(text, at=(0.0, 2.00001))
    assert as_json(_scene(text)) == as_json(_scene(same))
    assert as_json(_scene(text)) != as_json(_scene(other))


def test_each_verdict_could_have_a_mark_of_its_own() -> None:
    assert len({each.value for each in Mark}) == 5
