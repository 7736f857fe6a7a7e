"""Whether a cooler can be mounted on the board's socket, before it is ordered."""

from __future__ import annotations

from dataclasses import replace

import pytest

from layout.build.placed import Build
from layout.parts.board.board import Board
from layout.parts.cooling.liquid_cooler import LiquidCooler
from layout.parts.cooling.low_cooler import LowCooler
from layout.parts.cooling.radiator import Radiator
from layout.parts.cooling.tower_cooler import TowerCooler
from layout.parts.cooling.twin_tower import TwinTower
from layout.parts.form.kit import Kit, Known
from layout.parts.kinds.kinds import Spec
from layout.questions.checking.check import check
from layout.questions.findings.finding import Check, Finding, Group, ToOrder, Verdict
from layout.report import as_json
from layout.standards.figure import given
from tests.build.machines import built, mm, tower, tower_case

HOLES = frozenset({Group.HOLES})


def machine(socket: str, kits: tuple[Kit, ...] | None) -> Build:
    parts = tower()
    cooler = parts["cooler"]
    assert isinstance(cooler, TowerCooler)
    parts["board"] = Board(socket=socket, stack=mm(7.5))
    parts["cooler"] = replace(cooler, kits=kits)
    return built(tower_case(), parts)


def asked(socket: str, *kits: Kit) -> Check:
    return check(machine(socket, kits), groups=HOLES)


def only(found: Check) -> Finding:
    (finding,) = (each for each in found.findings if each.rule == "cooler-kit")
    return finding


def seen(socket: str, ears_to_mm: float | None = None) -> Kit:
    ears_to = None if ears_to_mm is None else given(ears_to_mm)
    return Kit(socket=socket, known=Known.SEEN, ears_to=ears_to)


def paged(socket: str) -> Kit:
    return Kit(socket=socket, known=Known.PAGE)


def test_a_kit_seen_in_the_box_is_clear_without_a_word() -> None:
    finding = only(asked("AM5", seen("LGA1700"), seen("AM5")))
    assert finding.verdict is Verdict.CLEAR
    assert (finding.a, finding.b) == ("cooler", "board")
    assert (finding.advice, finding.assumed) == ("", ())


def test_a_kit_known_from_a_page_alone_asks_for_the_boxs_revision() -> None:
    finding = only(asked("AM5", paged("AM5")))
    assert finding.verdict is Verdict.CLEAR
    assert finding.advice.startswith("confirm the box's revision")
    assert finding.assumed


def test_what_was_seen_outweighs_the_page() -> None:
    assert only(asked("AM5", paged("AM5"), seen("AM5"))).advice == ""


def test_a_box_without_the_sockets_kit_is_missing_and_to_be_ordered() -> None:
    found = asked("LGA1700", seen("LGA115x"), seen("AM4"))
    finding = only(found)
    assert found.verdict is finding.verdict is Verdict.MISSING
    assert finding.b is None
    lengths = (finding.gap_mm, finding.need_mm, finding.tolerance_mm, finding.margin_mm)
    assert lengths == (None, None, None, None)
    assert finding.why == "its box holds kits for LGA115x and AM4, none for LGA1700"
    assert found.to_order == (
        ToOrder(what="mounting kit for LGA1700, of the maker", owner="cooler"),
    )
    (order,) = as_json(found)["order_parts"]
    assert (order["count"], order["for"]) == (1, "cooler")


# 75 x 75 against 78 x 78 (a table of cooler holes, see tests/outside): each corner is
# off by 1.5 along both axes, 2.12 in all.
def test_holes_that_miss_say_by_how_much() -> None:
    finding = only(asked("LGA1700", seen("LGA1200")))
    assert "LGA1200 misses the holes by 2.1 mm (75 x 75 on 78 x 78)" in finding.advice


# Half the difference along either axis: 1 and 1; 12 and 6; 3 and 3; 2.5 and 2.5.
@pytest.mark.parametrize(
    ("socket", "kit", "told"),
    [
        ("LGA2066", "LGA1700", "misses the holes by 1.4 mm (78 x 78 on 80 x 80)"),
        ("AM5", "LGA1700", "misses the holes by 13.4 mm (78 x 78 on 54 x 90)"),
        ("AM4", "AM3", "misses the holes by 4.2 mm (48 x 96 on 54 x 90)"),
        ("LGA1155", "LGA2011", "misses the holes by 3.5 mm (80 x 80 on 75 x 75)"),
    ],
)
def test_kits_of_other_patterns_miss_by_their_difference(
    socket: str, kit: str, told: str
) -> None:
    finding = only(asked(socket, seen(kit)))
    assert finding.verdict is Verdict.MISSING
    assert told in finding.advice


def test_ears_that_reach_the_holes_are_no_kit() -> None:
    finding = only(asked("LGA1700", seen("LGA1200", ears_to_mm=80.0)))
    assert finding.verdict is Verdict.MISSING
    assert "LGA1200 reaches the holes (78 x 78)" in finding.advice
    assert "height and pressure differ" in finding.advice


def test_a_socket_with_the_same_holes_is_another_socket() -> None:
    finding = only(asked("LGA1851", seen("LGA1700")))
    assert finding.verdict is Verdict.MISSING
    assert "reaches the holes" in finding.advice


@pytest.mark.parametrize(
    ("socket", "told"),
    [("AM5", "holds the socket too"), ("AM4", "keep it"), ("LGA1700", None)],
)
def test_a_board_that_brings_its_back_plate_keeps_it(
    socket: str, told: str | None
) -> None:
    advice = only(asked(socket, seen("LGA1366"))).advice
    assert ("back plate" in advice) is (told is not None)
    assert (told or "") in advice


def test_a_socket_that_no_table_holds_is_matched_by_its_name() -> None:
    assert only(asked("LGA9999", seen("LGA9999"))).verdict is Verdict.CLEAR
    missing = only(asked("LGA9999", seen("LGA1700")))
    assert missing.verdict is Verdict.MISSING
    assert "mm" not in missing.advice


def test_an_empty_box_lacks_every_kit() -> None:
    finding = only(asked("AM5"))
    assert finding.why == "its box holds no kit for AM5"


def test_a_file_that_says_nothing_of_kits_is_no_alarm() -> None:
    build = machine("AM5", None)
    found = check(build, groups=HOLES)
    assert [each for each in found.findings if each.rule == "cooler-kit"] == []
    assert "cooler: a kit for AM5 in its box" in found.notes
    finding = only(check(build, groups=HOLES, every_pair=True))
    assert finding.verdict is Verdict.CLEAR
    assert finding.assumed == ("cooler: a kit for AM5 in its box",)


@pytest.mark.parametrize(
    "cooler",
    [
        LowCooler(height=mm(60), width=mm(92), depth=mm(92), kits=()),
        TwinTower(height=mm(150), width=mm(130), depth=mm(110), kits=()),
        LiquidCooler(radiator=Radiator(size=240, mount="top"), kits=()),
    ],
    ids=lambda cooler: str(cooler.kind),
)
def test_every_kind_of_cooler_has_its_kits(cooler: Spec) -> None:
    build = built(tower_case(), {"board": Board(socket="AM5"), "cooler": cooler})
    assert only(check(build, groups=HOLES)).verdict is Verdict.MISSING


def test_groups_without_holes_ask_for_no_kit() -> None:
    found = check(machine("AM5", ()), groups=frozenset({Group.DISTANCE}))
    assert found.to_order == ()
    assert not [each for each in found.findings if each.group is Group.HOLES]
