"""Files say what a figure is measured from; what does not go is told with its line."""

from __future__ import annotations

from pathlib import Path

import pytest

from layout.files.build_file import read_build
from layout.files.errors import InputError
from tests.files.builds import written

FELT = Path(__file__).parents[2] / "cases" / "felt-tower.yaml"
SEATED = f"""\
case: {FELT}
parts:
  board: {{kind: board, form: ATX, socket: LGA1155}}
"""
COOLER = "kind: tower cooler, height: 155, width: 120, depth: 50"
LOWER = "kind: tower cooler, height: 125, width: 120, depth: 50"
CARD = "kind: card, length: 250, height: 111"


def refused(path: Path) -> list[tuple[int | None, str | None, str, str]]:
    with pytest.raises(InputError, match="would be right") as caught:
        read_build(path)
    return [(e.line, e.field, e.found, e.right) for e in caught.value.each]


@pytest.mark.parametrize(
    ("part", "field", "found", "right"),
    [
        (
            f"{COOLER}, measured from: {{height: bord surface}}",
            ".measured from.height",
            "bord surface",
            "one of contact face, board surface",
        ),
        (
            f"{COOLER}, measured from: {{width: board surface}}",
            ".measured from",
            "a reading of width",
            "one of height, depth, room over memory",
        ),
        (
            f"{COOLER}, fans: 0, measured from: {{depth: with its fans}}",
            ".measured from.depth",
            "a depth with the fans in it, and no fan before or behind the fins",
            "'fans' beside it, or fins alone",
        ),
        (f"{COOLER}, measured from: height", ".measured from", "height", "a mapping"),
        (
            f"{CARD}, measured from: {{length: with the power connector}}",
            ".measured from.length",
            "a length with the power connector, and 'plug: none'",
            "'plug: far end' beside it, or slot plane",
        ),
        # Bounds are those of the reading: 40 to 190 from the fingers.
        (
            "kind: card, length: 250, height: 90, measured from: {height: bracket top}",
            ".height",
            "90 mm",
            "a length from 0 to 85.14 mm in the reading 'bracket top'",
        ),
        # From the board's surface the fan still fits, over this processor it does not.
        (
            f"{LOWER}, measured from: {{height: board surface}}",
            ".fan size",
            "120 on a cooler 117.219 mm high",
            "at most 117.219, or the height over the fan",
        ),
    ],
)
def test_readings_that_do_not_go_are_told_with_their_place(
    tmp_path: Path, part: str, *, field: str, found: str, right: str
) -> None:
    path = written(tmp_path, f"{SEATED}  odd: {{{part}}}\n")
    ((line, where, was, should),) = refused(path)
    assert (line, where, was) == (4, f"parts.odd{field}", found)
    assert right in should


def test_a_card_over_its_bracket_is_read_within_the_bounds_of_that(
    tmp_path: Path,
) -> None:
    part = "kind: card, length: 250, height: 6, measured from: {height: bracket top}"
    build = read_build(written(tmp_path, f"{SEATED}  odd: {{{part}}}\n"))
    (card,) = (each for each in build.bodies if each.name == "odd")
    depth, height, width = (
        b - a for a, b in zip(card.body.bounds.low, card.body.bounds.high, strict=True)
    )
    assert (depth, width) == pytest.approx((250, 6 + 104.86))
    assert height > 0


def test_a_case_says_how_its_limits_are_measured(tmp_path: Path) -> None:
    text = FELT.read_text(encoding="utf-8")
    odd = text + "measured from: {tallest cooler: floor}\n"
    written(tmp_path, odd, "odd.yaml")
    build = written(tmp_path, SEATED.replace(str(FELT), "odd.yaml"))
    ((line, where, was, right),) = refused(build)
    assert (line, where) == (text.count("\n") + 1, "measured from.tallest cooler")
    assert (was, right) == ("floor", "one of heat spreader, board surface")
