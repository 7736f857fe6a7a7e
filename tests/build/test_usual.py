"""A builder who types the data sheet's figures alone gets no alarm of defaults."""

from __future__ import annotations

from dataclasses import replace

import pytest

from layout.build.placed import Build
from layout.parts.board.board import Board, BoardShape
from layout.parts.board.m2_drive import M2Drive
from layout.parts.board.memory import Memory
from layout.parts.case.case import Case
from layout.parts.case.case_fields import SupplyBay
from layout.parts.case.case_supply import BayPlace
from layout.parts.cooling.low_cooler import LowCooler
from layout.parts.cooling.tower_cooler import FirstFan, TowerCooler
from layout.parts.cooling.twin_tower import TwinTower
from layout.parts.form.form import Role
from layout.parts.kinds.kinds import Spec
from layout.parts.supply.supply import Supply
from layout.questions.checking.check import check
from layout.questions.findings.finding import Finding, Verdict
from layout.standards.drives import M2_LENGTHS
from tests.build.machines import body, built, mm

COOLERS: dict[str, Spec] = {
    "158 with a fan of 140": TowerCooler(
        height=mm(158), width=mm(140), depth=mm(50), fan_size=140
    ),
    "158, fan of 140 behind": TowerCooler(
        height=mm(158),
        width=mm(140),
        depth=mm(50),
        fan_size=140,
        first_fan=FirstFan.BEHIND,
    ),
    "155 with two fans": TowerCooler(
        height=mm(155), width=mm(120), depth=mm(50), fans=2
    ),
    "twin of 160": TwinTower(
        height=mm(160), width=mm(140), depth=mm(120), fan_size=140
    ),
    "low of 20": LowCooler(height=mm(20), width=mm(120), depth=mm(120), fan_size=60),
    "low of 27": LowCooler(height=mm(27), width=mm(100), depth=mm(100), fan_size=60),
    "low of 30": LowCooler(height=mm(30), width=mm(95), depth=mm(95)),
    "low of 34": LowCooler(height=mm(34), width=mm(140), depth=mm(110)),
    "low of 37": LowCooler(height=mm(37), width=mm(95), depth=mm(95)),
    "low of 47": LowCooler(height=mm(47), width=mm(114), depth=mm(108)),
    "low of 66": LowCooler(height=mm(66), width=mm(114), depth=mm(123), fan_size=120),
    "low of 70": LowCooler(height=mm(70), width=mm(140), depth=mm(140), fan_size=140),
}


def machine(cooler: Spec, socket: str) -> Build:
    case = Case(depth=mm(420), height=mm(440), width=mm(190))
    parts = {"board": Board(socket=socket), "cooler": cooler}
    return built(case, parts)


def of_cooler(build: Build, verdict: Verdict) -> list[Finding]:
    found = check(build).findings
    return [e for e in found if e.verdict is verdict and e.a.startswith("cooler")]


@pytest.mark.parametrize("socket", ["LGA1155", "LGA1700", "AM4", "AM5"])
@pytest.mark.parametrize("cooler", COOLERS.values(), ids=COOLERS)
def test_what_is_usual_clears_what_is_usual(cooler: Spec, socket: str) -> None:
    build = machine(cooler, socket)
    assert body(build, "board/rear heatsink").role is Role.REGULATOR_HEATSINK
    for verdict in (Verdict.CLASH, Verdict.SHORT):
        assert of_cooler(build, verdict) == []


def test_a_heatsink_that_is_told_is_believed() -> None:
    case = Case(depth=mm(420), height=mm(440), width=mm(190))
    board = Board(socket="AM5", heatsink_height=mm(40))
    build = built(case, {"board": board, "cooler": COOLERS["158 with a fan of 140"]})
    assert of_cooler(build, Verdict.CLASH)


def test_the_fins_lower_edge_scatters_downwards_alone() -> None:
    build = machine(COOLERS["155 with two fans"], "AM5")
    found = {each.id: each for each in check(build).findings}
    panel = found["panel-over-cooler:cooler:case/side panel"]
    label = "cooler: fins' lower edge over the contact face"
    assert label not in panel.assumed
    low = machine(COOLERS["low of 47"], "AM5")
    (over,) = [e for e in check(low).findings if e.rule == "cooler-over-board-parts"]
    assert label in over.assumed


def test_memory_that_usual_modules_are_goes_under_a_usual_low_cooler() -> None:
    case = Case(depth=mm(420), height=mm(440), width=mm(190))
    parts: dict[str, Spec] = {
        "board": Board(socket="AM5"),
        "memory": Memory(),
        "cooler": COOLERS["low of 47"],
    }
    assert of_cooler(built(case, parts), Verdict.CLASH) == []


def test_a_supply_on_top_ends_as_far_over_the_floor_as_is_told() -> None:
    bay = SupplyBay(place=BayPlace.TOP_REAR, from_floor=mm(350))
    case = Case(depth=mm(420), height=mm(450), width=mm(190), supply_bay=bay)
    build = built(case, {"supply": Supply()})
    low, high = (getattr(body(build, "supply").body.bounds, e) for e in ("low", "high"))
    assert low[1] == pytest.approx(350)
    assert high[1] == pytest.approx(436)


def test_only_heatsinks_that_nobody_told_are_taken_lower_under_a_low_cooler() -> None:
    cooler = COOLERS["low of 27"]
    assert isinstance(cooler, LowCooler)
    build = machine(cooler, "AM5")
    rear, top = (
        body(build, f"board/{n} heatsink").body.bounds.high[2] for n in ("rear", "top")
    )
    # by hand: 27 less a slim fan of 15 and fins of 5 is 7 over the contact face; its
    # stack is 7.25 on AM5, and 1 stays free
    assert rear == top == pytest.approx(6.35 + 1.57 + 13.25)
    (over,) = [e for e in check(build).findings if e.rule == "cooler-over-board-parts"]
    assert over.verdict is Verdict.TIGHT
    assert over.margin_mm == pytest.approx(0.0)
    assert "measure first: board: board's surface to the heatsink's top" in over.advice

    told = Board(socket="AM5", heatsink_height=mm(22))
    case = Case(depth=mm(420), height=mm(440), width=mm(190))
    assert of_cooler(built(case, {"board": told, "cooler": cooler}), Verdict.CLASH)
    fins = replace(cooler, fins_from=mm(7))
    assert of_cooler(machine(fins, "AM5"), Verdict.CLASH)


@pytest.mark.parametrize("length", M2_LENGTHS)
@pytest.mark.parametrize("form", [BoardShape.ATX, BoardShape.MICRO_ATX])
def test_a_drive_of_any_length_lies_beside_usual_memory(
    form: BoardShape, length: int
) -> None:
    case = Case(depth=mm(420), height=mm(440), width=mm(190))
    parts: dict[str, Spec] = {
        "board": Board(form=form, socket="AM5"),
        "memory": Memory(modules=4),
        "stick": M2Drive(length=length),
        "other": M2Drive(length=length),
    }
    found = check(built(case, parts)).findings
    assert not [e for e in found if e.verdict.fails and e.parts & {"stick", "other"}]
