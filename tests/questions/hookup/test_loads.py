"""Fans shared out over splitters, against every way to share them out."""

from __future__ import annotations

from itertools import product

from hypothesis import given
from hypothesis import strategies as st

from layout.questions.hookup.loads import (
    HEADER_MA,
    USUAL_FAN_MA,
    Bank,
    Fan,
    Load,
    loads,
)


def fans(*draws_ma: int | None) -> list[Fan]:
    return [Fan(part="fans", draws_ma=each) for each in draws_ma]


def bank(bears_ma: int | None, outlets: int = 3, usual_ma: int | None = None) -> Bank:
    return Bank(part="splitter", outlets=outlets, bears_ma=bears_ma, usual_ma=usual_ma)


def test_a_splitter_that_bears_its_fans_is_not_told() -> None:
    assert loads(fans(300, 300, 300), 0, [bank(900)]) == ()


def test_one_that_does_not_is() -> None:
    (load,) = loads(fans(300, 300, 301), 0, [bank(900)])
    assert load == Load(part="splitter", fans=3, draws_ma=901, bears_ma=900, sure=True)


def test_the_boards_own_headers_take_the_strongest() -> None:
    assert loads(fans(900, 200, 200, 200), 1, [bank(600)]) == ()
    assert loads(fans(900, 200, 200, 300), 1, [bank(600)])[0].sure


def test_two_splitters_share() -> None:
    # Only 500 + 100 and 300 + 300 go: the first that fits is not always the right one.
    assert loads(fans(500, 300, 300, 100), 0, [bank(600, 2), bank(600, 2)]) == ()


def test_usual_figures_are_never_sure() -> None:
    (load,) = loads(fans(None, None, None, None), 0, [bank(None, 4, HEADER_MA)])
    assert (load.draws_ma, load.bears_ma) == (4 * USUAL_FAN_MA, HEADER_MA)
    assert not load.sure
    assert loads(fans(None, None, None), 0, [bank(None, 3, HEADER_MA)]) == ()


def test_what_is_told_can_be_too_much_without_the_rest() -> None:
    (load,) = loads(fans(500, 500, None), 0, [bank(900)])
    assert (load.draws_ma, load.sure) == (1000, True)


def test_a_hub_that_nobody_states_a_limit_of_bears_all() -> None:
    assert loads(fans(*[900] * 6), 0, [bank(None, 6)]) == ()


@given(
    draws_ma=st.lists(st.integers(1, 9), max_size=5),
    headers=st.integers(0, 2),
    banks=st.lists(st.tuples(st.integers(1, 12), st.integers(1, 3)), max_size=3),
)
def test_something_is_told_where_no_way_to_share_is_left(
    draws_ma: list[int], headers: int, banks: list[tuple[int, int]]
) -> None:
    places = [(10**6, 1)] * headers + banks
    room = sum(outlets for _, outlets in places)
    draws_ma = draws_ma[:room]  # those beyond it found no socket
    shared = any(
        all(
            sum(d for d, at in zip(draws_ma, way, strict=True) if at == i) <= bears
            and way.count(i) <= outlets
            for i, (bears, outlets) in enumerate(places)
        )
        for way in product(range(len(places)), repeat=len(draws_ma))
    )
    told = loads(
        fans(*draws_ma), headers, [bank(bears, outlets) for bears, outlets in banks]
    )
    assert (told == ()) is shared
