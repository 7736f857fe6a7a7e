"""Whatever assumed figure moves a gap is in its chain, as often as it moves it."""

from __future__ import annotations

from pathlib import Path

import pytest

from layout.files.build_file import read_plan
from layout.questions.checking.check import check
from tests.build.any_machine import machine
from tests.questions.moved_figures import BY_MM, assumed_figures, bent, chains, moved

CASES = Path(__file__).parents[2] / "cases"
SAMPLED = [
    (name, of)
    for name in ("reporter-build", "mapping-build", "archive-build")
    for of in range(3)
]


@pytest.mark.parametrize(("name", "of"), SAMPLED)
def test_what_moves_a_gap_is_in_its_chain(name: str, of: int) -> None:
    plan, build = read_plan(CASES / f"{name}.yaml")
    told = chains(build, check(build))
    figures = sorted(assumed_figures(build).items(), key=lambda each: each[1])
    for key, figure in figures[of :: len(figures) // 2]:
        for id_, by_mm, said_mm in moved(plan.build, key, build=build, told=told):
            assert by_mm == pytest.approx(said_mm, abs=BY_MM / 100), (figure, id_)


def test_what_moves_an_overlap_or_a_gap_askew_is_in_its_chain() -> None:
    plan, build = read_plan(CASES / "survey-build.yaml")
    told = chains(build, check(build))
    askew = {
        id_
        for id_, (finding, _) in told.items()
        if finding.overlap or (finding.axis is None and finding.along is None)
    }
    seen = set()
    for key, figure in list(assumed_figures(build).items())[::6]:
        for id_, by_mm, said_mm in moved(plan.build, key, build=build, told=told):
            assert by_mm == pytest.approx(said_mm, abs=BY_MM / 100), (figure, id_)
            seen |= {id_} if by_mm else set()
    assert seen & askew


BENDS = {
    "board: socket centre from the board's rear edge": "card-plug-bend:card",
    "supply: plugs at the supply": "supply-lead-bend:supply",
}


def test_what_moves_the_room_behind_a_plug_is_in_its_chain() -> None:
    """A bend is a polygon round its arc: its gaps move by steps about the chain's."""
    plan, build = read_plan(CASES / "mapping-build.yaml")
    told = chains(build, check(build))
    keys = {name: key for key, name in assumed_figures(build).items()}
    for figure, id_ in BENDS.items():
        by = {i: e for i, *e in bent(plan.build, keys[figure], told=told)}
        by_mm, said_mm = by[id_]
        assert abs(by_mm) > BY_MM / 2
        assert by_mm == pytest.approx(said_mm, abs=BY_MM * 0.15), figure


def test_a_figure_that_moves_a_gap_is_found_to_do_so() -> None:
    plan, build = read_plan(CASES / "archive-build.yaml")
    (width,) = (k for k, n in assumed_figures(build).items() if n == "cage: cage depth")
    told = chains(build, check(build))
    by = {
        id_: by_mm for id_, by_mm, _ in moved(plan.build, width, build=build, told=told)
    }
    assert by["cage-to-front-fans:cage:front fans"] == pytest.approx(-BY_MM)


def test_a_support_is_off_by_half_its_width_and_back_from_the_cards_end() -> None:
    made = machine("flat", 0).build
    told = chains(made, check(made))
    names = {"support's width", "support from the card's end"}
    figures = {
        name.partition(": ")[2]: key
        for key, name in assumed_figures(made).items()
        if name.partition(": ")[2] in names
    }
    assert {*figures} == names
    for key in figures.values():
        for id_, by_mm, said_mm in moved(
            lambda: machine.__wrapped__("flat", 0).build, key, build=made, told=told
        ):
            assert by_mm == pytest.approx(said_mm, abs=BY_MM / 100), id_
