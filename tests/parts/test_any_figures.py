"""Every kind with any figures inside its bounds: a part, or a refusal that says why."""

from __future__ import annotations

import pytest

from layout.geometry.bodies.body import Shape
from layout.geometry.space import Axis, Direction
from layout.parts.case.case import Case
from layout.parts.form.errors import PartError
from layout.parts.form.form import FanRow, Form, Seat, SeatSort
from layout.parts.form.reading import restated
from layout.parts.form.wish import Wish
from layout.parts.kinds.block import Block
from layout.parts.kinds.kinds import KINDS, Spec
from layout.parts.wiring.splitter import Splitter
from layout.standards.figure import given
from tests.parts.any_spec import any_spec, seeded

TRIES = 60
SEATED: list[type[Spec]] = [
    kind for kind in KINDS.values() if kind not in {Block, Splitter}
]


@pytest.mark.parametrize("kind", SEATED, ids=lambda kind: kind.kind)
def test_a_part_is_made_or_refused(kind: type[Spec]) -> None:
    made = 0
    for seed in range(TRIES):
        try:
            spec = any_spec(kind, seeded(seed))
            assert not isinstance(spec, Block)
            forms = [
                restated(spec, _seat(wish)).made_for(wish, _seat(wish))
                for wish in spec.wishes()
            ]
        except PartError:
            continue
        made += 1
        for form in forms:
            _check(form)
    assert made > TRIES / 20


def test_a_case_is_made_or_refused() -> None:
    made = 0
    for seed in range(20 * TRIES):
        try:
            case = any_spec(Case, seeded(seed))
        except PartError:
            continue
        made += 1
        _check(case.form())
    assert made > TRIES / 6


def _seat(wish: Wish) -> Seat:
    """Return a seat of the wish's sort, with all that a part may ask of it."""
    size_mm = wish.places.size_mm if wish.places else 120
    row = FanRow(size_mm=size_mm, count=6, along=Axis.HEIGHT, start_mm=10.0)
    return Seat(
        name="seat",
        sort=wish.sort,
        at_mm=(0.0, 0.0, 7.0),
        approach=Direction.FRONT if wish.sort is SeatSort.FANS else Direction.TRAY,
        room_mm=(86.0, 150.0),
        rows=(row,),
        figure=given(7.5),
    )


def _check(form: Form) -> None:
    """Check that every body has a name of its own and encloses something."""
    names = [each.name for each in form.pieces]
    assert len(names) == len(set(names))
    for piece in form.pieces:
        assert len(Shape(piece.solids).cells)
        for solid in piece.solids:
            low, high = solid.bounds.low, solid.bounds.high
            assert all(a < b for a, b in zip(low, high, strict=True)), piece.name
