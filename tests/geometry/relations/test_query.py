"""Which pairs are asked, in which order and how exactly they are answered."""

from __future__ import annotations

import numpy as np
import pytest

from layout.geometry.bodies.body import Body
from layout.geometry.errors import EmptyBodyError
from layout.geometry.pairs import runs
from layout.geometry.relations.query import clearances, meeting, relation, relations
from layout.geometry.relations.relation import Bound, State
from tests.geometry.random_bodies import KINDS, random_body
from tests.zoo import animal


@pytest.fixture(scope="module")
def crowd() -> list[Body]:
    """Return 40 bodies of every kind, spread over the inside of a large case."""
    rng = np.random.default_rng(17)
    kinds = list(KINDS)
    bodies = []
    for i in range(40):
        x, y, z = rng.uniform(-110, 110, 3).tolist()
        body = random_body(rng, f"body {i}", kinds[i % len(kinds)])
        bodies.append(body.moved((x, y, z)))
    return bodies


def test_every_unordered_pair_once_in_order(crowd: list[Body]) -> None:
    names = [body.name for body in crowd[:9]]
    found = relations(crowd[:9])
    expected = [(a, b) for i, a in enumerate(names) for b in names[i + 1 :]]
    assert [(each.a, each.b) for each in found] == expected


def test_which_meet_is_told_as_with_their_gaps(crowd: list[Body]) -> None:
    found = relations(crowd, overlaps=False)
    pairs = [(i, j) for i in range(len(crowd)) for j in range(i + 1, len(crowd))]
    meets = [each.state is State.INTERFERING for each in found]
    assert meeting(crowd, pairs).tolist() == meets
    assert any(meets)
    assert not meeting([], []).size


def test_the_pairs_asked_in_the_order_asked(crowd: list[Body]) -> None:
    asked = [(7, 2), (0, 1), (2, 7), (7, 2)]
    found = relations(crowd, asked)
    names = [(f"body {a}", f"body {b}") for a, b in asked]
    assert [(each.a, each.b) for each in found] == names
    assert found[0] == found[3]
    assert found[0].gap_mm == pytest.approx(found[2].gap_mm, abs=1e-12)


def test_one_batch_answers_like_one_call_a_pair(crowd: list[Body]) -> None:
    batch = relations(crowd[:15])
    singly = [
        relation(a, b) for i, a in enumerate(crowd[:15]) for b in crowd[i + 1 : 15]
    ]
    for one, other in zip(batch, singly, strict=True):
        assert (one.a, one.b, one.state) == (other.a, other.b, other.state)
        assert one.gap_mm == pytest.approx(other.gap_mm, abs=1e-9)
        assert one.overlap == other.overlap


def test_turns_answer_like_one_batch(
    crowd: list[Body], monkeypatch: pytest.MonkeyPatch
) -> None:
    whole = relations(crowd[:15])
    monkeypatch.setattr(runs, "MOST_CELL_PAIRS", 50)
    for one, other in zip(whole, relations(crowd[:15]), strict=True):
        assert (one.a, one.b, one.state) == (other.a, other.b, other.state)
        assert one.gap_mm == pytest.approx(other.gap_mm, abs=1e-9)


def test_no_bodies_or_one_have_no_pairs(crowd: list[Body]) -> None:
    assert relations([]) == ()
    assert relations(crowd[:1]) == ()
    assert relations(crowd, []) == ()


@pytest.mark.parametrize("limit_mm", [0.0, 5.0, 60.0, 1e6])
def test_a_limit_gives_lower_bounds_and_skips_no_pair_that_matters(
    crowd: list[Body], limit_mm: float
) -> None:
    for true, found in zip(
        relations(crowd), relations(crowd, limit_mm=limit_mm), strict=True
    ):
        if found.bound is Bound.LOWER:
            assert true.gap_mm > limit_mm
            assert limit_mm < found.gap_mm <= true.gap_mm + 1e-9
            assert found.state is State.APART
            assert found.witness is None
            assert found.overlap is None
        else:
            assert (found.a, found.b, found.state) == (true.a, true.b, true.state)
            assert found.gap_mm == pytest.approx(true.gap_mm, abs=1e-9)
            assert found.overlap == true.overlap


def test_a_limit_does_skip_pairs(crowd: list[Body]) -> None:
    bounds = [each.bound for each in relations(crowd, limit_mm=5.0)]
    assert bounds.count(Bound.LOWER) > 300
    assert bounds.count(Bound.EXACT) > 50
    assert {each.bound for each in relations(crowd)} == {Bound.EXACT}


def test_clearances_leave_out_no_pair_within_the_limit(crowd: list[Body]) -> None:
    kept = {(int(i), int(j)) for i, j in clearances(crowd, limit_mm=5.0).pairs}
    pairs = [(i, j) for i in range(40) for j in range(i + 1, 40)]
    within = {
        pair
        for pair, each in zip(pairs, relations(crowd), strict=True)
        if each.gap_mm <= 5.0
    }
    assert within <= kept
    assert len(kept) < 400


def test_clearances_are_those_of_the_relations_in_the_order_asked(
    crowd: list[Body],
) -> None:
    asked = [(7, 2), (0, 1), (2, 7), (3, 30)]
    found = clearances(crowd, asked)
    assert found.pairs.tolist() == [list(pair) for pair in asked]
    stand = relations(crowd, asked)
    assert found.interfering.tolist() == [
        each.state is State.INTERFERING for each in stand
    ]
    assert found.gap_mm == pytest.approx([each.gap_mm for each in stand], abs=1e-9)
    assert clearances(crowd, []).pairs.tolist() == []


def test_overlaps_only_where_asked() -> None:
    pair = [animal("box"), animal("box").moved((1, 2, 3))]
    (with_overlap,) = relations(pair)
    (without,) = relations(pair, overlaps=False)
    assert with_overlap.overlap is not None
    assert without.overlap is None
    assert without.state is with_overlap.state is State.INTERFERING


def test_interfering_bodies_have_gap_0_and_no_nearest_points() -> None:
    found = relation(animal("box"), animal("box within a box"))
    assert (found.gap_mm, found.witness) == (0.0, None)


def test_pairs_of_no_bodies_are_refused() -> None:
    with pytest.raises(EmptyBodyError, match="no bodies"):
        relations([], [(0, 1)])
