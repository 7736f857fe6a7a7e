"""A board's plugs against the board's own parts: what figures of the file say."""

from __future__ import annotations

import pytest

from layout.build.placed import Build
from layout.parts.board.board import Board, BoardShape
from layout.parts.board.board_headers import HeaderPlace
from layout.parts.form.connector import ConnectorKind as Kind
from layout.questions.bends.bends import bends
from layout.questions.checking.check import check
from layout.questions.clearances.asked import pairs_of_parts, pairs_on_boards
from layout.questions.explaining.explain import explained
from layout.questions.explaining.rests import REST
from layout.questions.findings.explanation import Explanation
from layout.questions.findings.finding import Finding, Verdict
from layout.standards import processors
from tests.build.machines import built, mm, tower, tower_case


def _at(kind: Kind, from_rear_mm: float, from_top_mm: float) -> HeaderPlace:
    return HeaderPlace(kind=kind, from_rear=mm(from_rear_mm), from_top=mm(from_top_mm))


def _build(board: Board) -> Build:
    return built(tower_case(), {**tower(), "board": board})


def _own(build: Build) -> list[Finding]:
    return [f for f in check(build).findings if f.id == "no-interference:board:board"]


@pytest.mark.parametrize("form", [e for e in BoardShape if e is not BoardShape.FREE])
def test_what_is_usual_on_a_board_never_meets_what_is_usual_there(
    form: BoardShape,
) -> None:
    for socket in processors.SOCKETS:
        board = Board(form=form, socket=socket)
        assert pairs_on_boards(built(tower_case(), {"board": board})) == []


@pytest.mark.parametrize(
    ("places", "between"),
    [
        ((_at(Kind.FAN_4, 100, 5), _at(Kind.FAN_4, 105, 5)), ("fan header 2", 5.1)),
        ((_at(Kind.USB_20, 60, 165),), ("slot 1", 6.7)),
    ],
)
def test_a_plug_that_a_file_places_in_another_or_in_a_slot_meets_it(
    places: tuple[HeaderPlace, ...], between: tuple[str, float]
) -> None:
    build = _build(Board(socket="AM5", header_places=places))
    (found,) = _own(build)
    name, deep_mm = between
    assert found.verdict is Verdict.CLASH
    assert found.b is not None
    assert found.b.endswith(name)
    assert found.overlap is not None
    assert found.overlap.mm == pytest.approx(deep_mm, abs=0.06)
    assert "correct the file" in found.advice
    told = explained(build, 1, found)
    assert isinstance(told, Explanation)
    assert all(each.link.label != REST for each in told.chain)
    # Pairs inside one part are not listed.
    assert not {frozenset(e) for e in pairs_on_boards(build)} & {
        frozenset(e) for e in pairs_of_parts(build)
    }


def test_what_is_only_assumed_to_be_there_gives_way_to_a_place_that_is_told() -> None:
    # A fan header at the top edge, where the heatsink is usually drawn.
    board = Board(socket="AM5", header_places=(_at(Kind.FAN_4, 100, 5),))
    build = _build(board)
    assert _own(build) == []
    assert [
        e for e in bends(build) if e.rule == "header-bend" and e.verdict.fails
    ] == []


def test_a_told_header_in_the_row_at_the_lower_edge_is_one_of_the_row() -> None:
    places = (_at(Kind.AUDIO, 30, 240), _at(Kind.USB_9, 60, 240))
    assert _own(_build(Board(socket="AM5", header_places=places))) == []
