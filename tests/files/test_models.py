from __future__ import annotations

from dataclasses import dataclass
from enum import Enum
from pathlib import Path
from typing import ClassVar

import pytest

from layout.files.errors import InputError
from layout.files.models import spec
from layout.files.place import Place
from layout.files.tree import parse
from layout.geometry.space import ORIGIN, Box, Vector
from layout.parts.form import field
from layout.parts.form.errors import PartError
from layout.parts.kinds.block import Block
from layout.standards.figure import Figure, given


class Side(Enum):
    FRONT = "front"
    REAR = "rear side"


@dataclass(frozen=True, slots=True, kw_only=True)
class Fin:
    width: Figure = field.length("how wide a fin is", least_mm=1, most_mm=50)


@dataclass(frozen=True, slots=True, kw_only=True)
class Sink:
    """One field of every sort that parts declare."""

    kind: ClassVar[str] = "sink"

    height: Figure = field.length("over the base", least_mm=20, most_mm=400)
    room_over_memory: Figure | None = field.length(
        "free height", None, least_mm=0, most_mm=100
    )
    fans: int = field.count("how many", 1, least=1, most=3)
    side: Side = field.choice("where the fan is", Side.FRONT)
    quiet: bool = field.flag("slow fans", default=True)
    maker: str | None = field.word("free text", None)
    fin: Fin | None = field.nested("the outer fin", None)
    fins: tuple[Fin, ...] = field.nested("every fin", ())
    named: tuple[tuple[str, Fin], ...] = field.nested("fins by name", ())
    steps: tuple[Figure, ...] = field.length("steps", (), least_mm=1, most_mm=9)
    words: tuple[str, ...] = field.nested("words", ())
    at_mm: Vector = field.nested("place", ORIGIN)

    def __post_init__(self) -> None:
        if self.room_over_memory and self.room_over_memory.mm > self.height.mm:
            raise PartError(
                field="room over memory", found="more than the height", right="less"
            )


EVERY_FIELD = (
    *("height", "room over memory", "fans", "side", "quiet", "maker"),
    *("fin", "fins", "named", "steps", "words", "at"),
)


def read(text: str, kind: type = Sink) -> object:
    path = Path("b.yaml")
    return spec(kind, Place(path, parse(text, path)))


def refused(
    text: str, kind: type = Sink
) -> list[tuple[int | None, str | None, str, str]]:
    with pytest.raises(InputError, match=r"^b\.yaml") as caught:
        read(text, kind)
    return [
        (each.line, each.field, each.found, each.right) for each in caught.value.each
    ]


def test_every_sort_of_field() -> None:
    text = """
height: 158
room over memory: 40 +- 0.5
fans: 2
side: rear side
quiet: no
maker: no
fin: {width: 2}
fins: [{width: 3}, {width: 4}]
named: {first fin: {width: 5}}
steps: [1, 2]
words: [yes, "010"]
at: [1, -2, 3.5]
"""
    assert read(text) == Sink(
        height=given(158.0),
        room_over_memory=given(40.0, 0.5),
        fans=2,
        side=Side.REAR,
        quiet=False,
        maker="no",
        fin=Fin(width=given(2.0)),
        fins=(Fin(width=given(3.0)), Fin(width=given(4.0))),
        named=(("first fin", Fin(width=given(5.0))),),
        steps=(given(1.0), given(2.0)),
        words=("yes", "010"),
        at_mm=(1.0, -2.0, 3.5),
    )


def test_a_misspelt_key_is_told_once_and_a_missing_one_still() -> None:
    size = "a length from 20 to 400 mm (over the base)"
    assert refused("heigth: 158") == [(1, "heigth", "an unknown key", "height")]
    assert refused("colour: 158")[0][1:3] == ("height", "nothing")
    assert refused("fin: {wdith: 2}") == [
        (1, "height", "nothing", size),
        (1, "fin.wdith", "an unknown key", "width"),
    ]


def test_what_is_left_out_has_its_default() -> None:
    assert read("height: 158") == Sink(height=given(158.0))


def test_every_error_of_a_file_is_told_in_the_order_of_lines() -> None:
    text = """hieght: 158
fans: 4
side: Frnt
quiet: 3
fin: 5
fins:
- width: 99
- {}
named:
  first fin: {width: [2], wdith: 2}
steps: [1, 20]
room over memory:
maker: ""
kind: sink
"""
    fin = "a length from 1 to 50 mm"
    assert refused(text) == [
        (1, "hieght", "an unknown key", "height"),
        (2, "fans", "4", "a whole number from 1 to 3 (how many)"),
        (3, "side", "Frnt", "one of front, rear side"),
        (4, "quiet", "3", "yes or no"),
        (5, "fin", "5", "a mapping of 'key: value' lines (the outer fin)"),
        (7, "fins[0].width", "99 mm", fin),
        (8, "fins[1].width", "nothing", f"{fin} (how wide a fin is)"),
        (10, "named.first fin.width", "a list", fin),
        (10, "named.first fin.wdith", "an unknown key", "width"),
        (11, "steps[1]", "20 mm", "a length from 1 to 9 mm"),
        (12, "room over memory", "nothing", "a length from 0 to 100 mm"),
        (13, "maker", "''", "one line of text, at most 200 characters,"),
        (14, "kind", "an unknown key", f"one of {', '.join(EVERY_FIELD)}"),
    ]


@pytest.mark.parametrize("word", ["room_over_memory", "Room over memory"])
def test_a_key_in_another_style_is_met_with_the_right_one(word: str) -> None:
    (error,) = refused(f"height: 100\n{word}: 40")
    assert error == (2, word, "an unknown key", "room over memory")


def test_what_the_part_itself_refuses_has_its_line_too() -> None:
    (error,) = refused("height: 30\nroom over memory: 40")
    assert error == (2, "room over memory", "more than the height", "less")


def test_blocks() -> None:
    text = """
at: [120, 40, -0.5]
solids:
- {side: [[0, 0], [60, 0], [60, 25], [0, 40]], z: [0, 30]}
- {top: {outer: [[0, 0], [60, 0], [60, 30], [0, 30]]}, y: [0, 25]}
"""
    block = read(text, Block)
    assert isinstance(block, Block)
    assert block.at_mm == (120.0, 40.0, -0.5)
    assert [each.bounds for each in block.solids] == [
        Box((0, 0, 0), (60, 40, 30)),
        Box((0, 0, 0), (60, 25, 30)),
    ]


def test_errors_in_outlines_lead_to_their_point() -> None:
    text = """
at: 5
solids:
- side: [[0, 0], [60, 40], [60, 0], [0, 40]]
  z: [30, 0]
- side: [[0, 0], [60, 0], [60, 40]]
  top:
    - [0, 0]
    - [50, 0]
    - [50, 40]
- {sied: 3, z: [0, 1]}
-
- {top: [[0, 0], [1, .nan], [1, 1]], y: [0, 1]}
"""
    assert [each[:3] for each in refused(text, Block)] == [
        (2, "at", "5"),
        (4, "solids[0].side", "an outline that crosses itself at (30, 20)"),
        (5, "solids[0].z", "[30, 0]"),
        (7, "solids[1].top", "top over x 0 to 50 mm but side over x 0 to 60 mm"),
        (11, "solids[2].sied", "an unknown key"),
        (12, "solids[3]", "nothing"),
        (13, "solids[4].top[1][1]", ".nan, which is no finite number"),
    ]


def test_a_block_of_nothing_is_refused() -> None:
    assert refused("solids: []", Block) == [(1, "solids", "none", "one or more")]


def test_a_field_of_an_unknown_type_is_the_programmer_s_error() -> None:
    @dataclass(frozen=True, slots=True, kw_only=True)
    class Odd:
        what: complex = field.word("no file can say this")

    with pytest.raises(TypeError, match="no reading of"):
        read("what: 1", Odd)
