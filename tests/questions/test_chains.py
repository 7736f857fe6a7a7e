"""Every chain adds up: its signed figures to the gap, its scatters to the tolerance."""

from __future__ import annotations

import math
from collections.abc import Iterator
from pathlib import Path

import pytest

from layout.answers.explained import as_table
from layout.build.placed import Build
from layout.files.build_file import read_plan
from layout.parts.board.board import Board
from layout.parts.board.board_headers import HeaderPlace
from layout.parts.board.memory import Memory
from layout.parts.card.card import Card, PlugAt
from layout.parts.cooling.tower_cooler import TowerCooler
from layout.parts.form.connector import ConnectorKind
from layout.parts.wiring.adapter import Adapter, AdapterLooks, BoardAdapter
from layout.questions.checking.check import check
from layout.questions.explaining.explain import explained
from layout.questions.explaining.rests import REST
from layout.questions.findings.explanation import Account, Contribution, Explanation
from layout.questions.findings.finding import Finding
from tests.build.any_machine import LAYOUTS, machine
from tests.build.machines import built, mm, tower, tower_case

CASES = Path(__file__).parents[2] / "cases"
EXAMPLES = sorted(CASES.glob("*-build.yaml"))


def chains(build: Build, *, every: bool) -> Iterator[tuple[Finding, Explanation]]:
    for number, finding in enumerate(check(build, every_pair=every).findings, start=1):
        if finding.gap_mm is None or finding.b is None or finding.along is not None:
            continue
        told = explained(build, number, finding)
        if isinstance(told, Explanation) and told.closes and told.straight:
            yield finding, told


def holds(finding: Finding, told: Explanation) -> None:
    room_mm = -finding.overlap.mm if finding.overlap else finding.gap_mm
    assert math.fsum(e.mm for e in told.chain) == pytest.approx(room_mm, abs=1e-6)
    off_mm = [each.plus_minus_mm for each in told.chain]
    assert told.rss_mm == pytest.approx(math.hypot(*off_mm))
    assert told.worst_mm == pytest.approx(math.fsum(off_mm))
    if finding.rule != "no-interference":
        assert finding.tolerance_mm == pytest.approx(told.rss_mm)


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: str(path.stem))
def test_every_chain_of_an_example_adds_up(path: Path) -> None:
    _, build = read_plan(path)
    every = [*chains(build, every=True)]
    for each in every:
        holds(*each)
    untold = [
        f.id for f, told in every if any(e.link.label == REST for e in told.chain)
    ]
    assert untold == []


@pytest.mark.parametrize("layout", LAYOUTS)
def test_every_chain_of_a_random_machine_adds_up(layout: str) -> None:
    for seed in range(2):
        for finding, told in chains(machine(layout, seed).build, every=seed == 1):
            holds(finding, told)
            assert all(each.link.label != REST for each in told.chain), finding.id


def test_a_post_is_explained_by_its_reach_and_the_room_under_its_card() -> None:
    build = machine("flat", 0).build
    found = check(build, every_pair=True).findings
    (post,) = (each for each in found if each.rule == "support-reaches")
    told = explained(build, 1, post)
    assert isinstance(told, Account)
    assert [each.what for each in told.facts] == [
        f"sets to {post.gap_mm:.1f} mm",
        f"{post.need_mm:.1f} mm lie under it",
    ]
    assert "lie under it" in as_table(told, width=100)


def chain(build: Build, id_: str) -> dict[tuple[str, str], Contribution]:
    found = check(build, every_pair=True).findings
    (finding,) = (each for each in found if each.id == id_)
    told = explained(build, 1, finding)
    assert isinstance(told, Explanation)
    return {(each.owner, each.link.label): each for each in told.chain}


@pytest.mark.parametrize(
    ("looks", "turned"),
    [(AdapterLooks.UP, AdapterLooks.FRONT), (AdapterLooks.DOWN, AdapterLooks.REAR)],
)
def test_the_faces_of_adapters_headers_and_plugs_are_where_their_figures_say(
    looks: AdapterLooks, turned: AdapterLooks
) -> None:
    card = Card(
        length=mm(250),
        height=mm(112),
        plug=PlugAt.TOP_EDGE,
        adapter=Adapter(looks=looks),
    )
    adapters = (BoardAdapter(kind=ConnectorKind.MAIN, looks=turned),)
    place = HeaderPlace(kind=ConnectorKind.AUDIO, from_rear=mm(30), from_top=mm(239))
    board = Board(socket="AM5", adapters=adapters, header_places=(place,))
    build = built(tower_case(), {"board": board, "card": card})
    own = ("board/24-pin adapter", "board/audio header", "card/adapter", "card/plug")
    for name in own:
        body = next(each for each in build.bodies if each.name == name)
        for axis in range(3):
            figures = [one for _, e in body.chain for one in (e, *e.more)]
            low = math.fsum(one.figure.mm * one.low[axis] for one in figures)
            high = math.fsum(one.figure.mm * one.high[axis] for one in figures)
            assert low == pytest.approx(body.body.bounds.low[axis], abs=1e-6)
            assert high == pytest.approx(body.body.bounds.high[axis], abs=1e-6)


def test_half_of_an_assumed_cage_width_moves_a_drive_in_its_middle() -> None:
    _, build = read_plan(CASES / "archive-build.yaml")
    (plug,) = (f for f in check(build).findings if f.id == "drive-plug-bend:disk 1")
    told = explained(build, 1, plug)
    assert isinstance(told, Explanation)
    links = {each.link.label: each for each in told.chain}
    width, along = links["cage width"], links["drive along its place"]
    assert (width.mm, width.plus_minus_mm) == (77.5, 2.5)
    assert (along.mm, along.plus_minus_mm) == (0.0, 5.0)
    assert told.rss_mm == plug.tolerance_mm
    off_mm = [each.plus_minus_mm for each in told.chain]
    assert told.rss_mm == pytest.approx(math.hypot(*off_mm))


def test_a_room_over_memory_is_told_as_given_with_what_it_is_counted_from() -> None:
    cooler = TowerCooler(
        height=mm(154), width=mm(120), depth=mm(50), room_over_memory=mm(40)
    )
    build = built(tower_case(), {**tower(), "cooler": cooler})
    links = chain(build, "panel-over-cooler:cooler:case/side panel")
    told = {label: each.mm for (owner, label), each in links.items() if owner != "case"}
    # the processor's height goes up and down again: the fan stands over the board
    assert told == {
        "board thickness": -1.57,
        "room over memory": -40.0,
        "memory module's contact edge over the board": -3.0,
        "fan's frame": -120.0,
    }
    edge = links["cooler", "memory module's contact edge over the board"]
    assert (edge.plus_minus_mm, edge.link.figure.assumed) == (0.5, True)


@pytest.mark.parametrize("by_board", [False, True])
def test_a_height_over_the_board_does_not_rest_on_the_processor(
    *, by_board: bool
) -> None:
    told = (("height", "board surface"),) if by_board else ()
    cooler = TowerCooler(
        height=mm(150), width=mm(120), depth=mm(50), fans=0, measured_from=told
    )
    build = built(tower_case(), {**tower(), "cooler": cooler})
    links = chain(build, "panel-over-cooler:cooler:case/side panel")
    assert links["cooler", "cooler height"].mm == -150.0
    assert (("processor", "board's top to heat spreader") in links) is not by_board


def test_a_module_told_above_the_board_does_not_rest_on_its_contact_edge() -> None:
    told = (("height", "above the board"),)
    memory = Memory(height=mm(40), measured_from=told)
    build = built(tower_case(), {**tower(), "memory": memory})
    links = chain(build, "no-interference:case/side panel:memory")
    assert links["memory", "module height"].mm == -40.0
    assert ("board", "memory module's contact edge over the board") not in links


def test_a_card_told_with_its_plug_counts_the_plug_once() -> None:
    told = (("length", "with the power connector"),)
    card = Card(length=mm(300), height=mm(120), plug=PlugAt.FAR_END, measured_from=told)
    build = built(tower_case(), {**tower(), "card": card})
    links = chain(build, "card-to-front:card")
    own = {label: each.mm for (owner, label), each in links.items() if owner == "card"}
    assert own == {"card length": -300.0}
