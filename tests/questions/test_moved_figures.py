"""Whatever assumed figure moves a gap is in its chain, as often as it moves it."""

from __future__ import annotations

from pathlib import Path

import pytest

from layout.files.build_file import read_plan
from layout.questions.check import check
from tests.build.any_machine import machine
from tests.questions.moved_figures import BY_MM, assumed_figures, moved

CASES = Path(__file__).parents[2] / "cases"
SAMPLED = [
    (name, of)
    for name in ("reporter-build", "mapping-build", "archive-build")
    for of in range(3)
]


@pytest.mark.parametrize(("name", "of"), SAMPLED)
def test_what_moves_a_gap_is_in_its_chain(name: str, of: int) -> None:
    plan, build = read_plan(CASES / f"{name}.yaml")
    found = check(build)
    figures = sorted(assumed_figures(build).items(), key=lambda each: each[1])
    for key, figure in figures[of :: len(figures) // 2]:
        for id_, by_mm, said_mm in moved(plan.build, key, build=build, found=found):
            assert by_mm == pytest.approx(said_mm, abs=BY_MM / 100), (figure, id_)


def test_a_figure_that_moves_a_gap_is_found_to_do_so() -> None:
    plan, build = read_plan(CASES / "archive-build.yaml")
    (width,) = (k for k, n in assumed_figures(build).items() if n == "cage: cage depth")
    found = check(build)
    told = {
        id_: by_mm
        for id_, by_mm, _ in moved(plan.build, width, build=build, found=found)
    }
    assert told["cage-to-front-fans:cage:front fans"] == pytest.approx(-BY_MM)


def test_a_support_is_off_by_half_its_width_and_back_from_the_cards_end() -> None:
    made = machine("flat", 0).build
    found = check(made)
    names = {"support's width", "support from the card's end"}
    figures = {
        name.partition(": ")[2]: key
        for key, name in assumed_figures(made).items()
        if name.partition(": ")[2] in names
    }
    assert {*figures} == names
    for key in figures.values():
        for id_, by_mm, said_mm in moved(
            lambda: machine.__wrapped__("flat", 0).build, key, build=made, found=found
        ):
            assert by_mm == pytest.approx(said_mm, abs=BY_MM / 100), id_
