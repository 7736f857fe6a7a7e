from __future__ import annotations

from pathlib import Path

import pytest

from layout.build.placed import OwnNeed
from layout.files.build_file import read_build
from layout.files.errors import InputError
from tests.files.builds import BLOCKS, written

CASES = Path(__file__).parents[2] / "cases"
BOW_TIE = "[[0, 0], [4, 4], [4, 0], [0, 4]]"
NEEDS = """\
needs: {card-to-front: 12, supply-vent: 0.6 in}
own needs:
  - {between: [bracket, far], need: 15, why: a hand must pass}
"""


def refused(path: Path) -> list[tuple[int | None, str | None, str, str]]:
    with pytest.raises(InputError, match="would be right") as caught:
        read_build(path)
    return [(e.line, e.field, e.found, e.right) for e in caught.value.each]


def test_a_build_of_blocks_needs_no_case_and_no_name(tmp_path: Path) -> None:
    text = BLOCKS.removeprefix("name: two blocks and a bracket\n")
    build = read_build(written(tmp_path, text, "odd ones.yaml"))
    assert build.name == "odd ones"
    assert [body.name for body in build.bodies] == ["bracket", "near", "far"]
    assert build.bodies[0].body.bounds.low == (120.0, 40.0, 0.0)
    assert (build.case_name, build.case_size_mm) == (None, None)


def test_needs_change_rules_and_add_their_own(tmp_path: Path) -> None:
    build = read_build(written(tmp_path, BLOCKS + NEEDS))
    assert build.name == "two blocks and a bracket"
    assert dict(build.needs) == pytest.approx(
        {"card-to-front": 12.0, "supply-vent": 15.24}
    )
    own = OwnNeed(
        a="bracket",
        b="far",
        need_mm=15.0,
        why="a hand must pass",
        source="given in the file",
    )
    assert build.own_needs == (own,)


@pytest.mark.parametrize(
    ("more", "field", "found", "right"),
    [
        ("needs: {card-to-frnt: 1}", "needs.card-to-frnt", "rule", "card-to-front"),
        ("needs: {card-to-front: -1}", "needs.card-to-front", "-1 mm", "0 to 1000"),
        ("needs: 3", "needs", "3", "a mapping"),
        ("own needs: {}", "own needs", "a mapping", "a list"),
        (
            "own needs: [{between: [near], need: 1, why: w}]",
            "own needs[0].between",
            "a list of near",
            "two different names",
        ),
        (
            "own needs: [{between: [near, near], need: 1, why: w}]",
            "own needs[0].between",
            "near, near",
            "two different names",
        ),
        (
            "own needs: [{between: [near, brackt], need: 1, why: w}]",
            "own needs[0].between[1]",
            "brackt",
            "bracket",
        ),
        ("own needs: [{between: [near, far], need: 1}]", "own needs[0].why", "nothing",
         "what the room is for"),
        ("cas: x", "cas", "an unknown key", "case"),
        ("case: 'two\\nlines'", "case", "no file", "a case file"),
    ],
)  # fmt: skip
def test_what_is_wrong_beside_the_parts(
    tmp_path: Path, more: str, *, field: str, found: str, right: str
) -> None:
    ((line, at, is_found, is_right),) = refused(written(tmp_path, BLOCKS + more))
    assert (line, at) == (BLOCKS.count("\n") + 1, field)
    assert found in is_found
    assert right in is_right


@pytest.mark.parametrize(
    ("part", "field", "found", "right"),
    [
        ("odd: {kind: blok}", "parts.odd.kind", "blok", "block"),
        ("odd: {kind: [block]}", "parts.odd.kind", "a list", "one of board"),
        ("odd: {at: [0, 0, 0]}", "parts.odd.kind", "nothing", "one of board"),
        ("odd: block", "parts.odd", "block", "a mapping that says its kind"),
        ("odd:", "parts.odd", "nothing", "a mapping that says its kind"),
        ("case: {kind: block}", "parts.case", "a part named case", "not 'case'"),
        ("a/b: {kind: block}", "parts.a/b", "a part named a/b", "without '/'"),
        ("odd: {kind: block, solids: []}", "parts.odd.solids", "none", "one or more"),
        ("odd: {kind: block, solid: 3}", "parts.odd.solid", "unknown key", "solids"),
        (
            "odd: {kind: fan, size: 120, mount: front}",
            "case",
            "nothing",
            "a case file for odd",
        ),
        (
            f"odd: {{kind: block, solids: [{{side: {BOW_TIE}, z: [0, 1]}}]}}",
            "parts.odd.solids[0].side",
            "crosses itself",
            "never",
        ),
    ],
)
def test_what_is_wrong_with_a_part(
    tmp_path: Path, part: str, *, field: str, found: str, right: str
) -> None:
    path = written(tmp_path, f"parts:\n  {part}\n")
    line, at, is_found, is_right = refused(path)[0]
    assert (line, at) == (1 if field == "case" else 2, field)
    assert found in is_found
    assert right in is_right


@pytest.mark.parametrize("text", ["parts: {}", "parts: 3", "parts:", "name: alone"])
def test_a_build_has_parts(tmp_path: Path, text: str) -> None:
    ((line, field, *_),) = refused(written(tmp_path, text))
    assert (line, field) == (1, "parts")


def test_errors_of_every_part_are_told_at_once(tmp_path: Path) -> None:
    text = "parts:\n  a: {kind: blok}\n  b: {kind: block, solids: 3}\nneeds: {no: 1}\n"
    path = written(tmp_path, text)
    assert [(line, field) for line, field, *_ in refused(path)] == [
        (2, "parts.a.kind"),
        (3, "parts.b.solids"),
        (4, "needs.no"),
    ]


def test_the_case_file_is_looked_for_beside_the_build(tmp_path: Path) -> None:
    path = written(tmp_path, BLOCKS + "case: no such.yaml\n")
    ((line, field, found, right),) = refused(path)
    assert (line, field) == (BLOCKS.count("\n") + 1, "case")
    assert found == f"no file at {tmp_path / 'no such.yaml'}"
    assert right == "the name of a case file, seen from this one"


def test_errors_in_the_case_file_name_the_case_file(tmp_path: Path) -> None:
    case = written(tmp_path, "name: low\nheight: 18.1\ndepth: 400\n", "case.yaml")
    path = written(tmp_path, BLOCKS + "case: case.yaml\n")
    with pytest.raises(InputError, match=r"^.*case\.yaml:2: height: ") as caught:
        read_build(path)
    assert caught.value.path == case
    assert "'18.1 in' (if these are inches)" in caught.value.right


def test_a_case_that_cannot_be_settled_is_refused_in_its_own_file(
    tmp_path: Path,
) -> None:
    case = written(tmp_path, "name: low\nheight: 460\n", "case.yaml")
    path = written(tmp_path, BLOCKS + "case: case.yaml\n")
    with pytest.raises(InputError, match="would be right") as caught:
        read_build(path)
    assert caught.value.path == case


SEATED = """\
case: {cases}/felt-tower.yaml
parts:
  board: {{kind: board, form: ATX, socket: LGA1700}}
  card: {{kind: card, length: 231, height: 111, slot: {slot}}}
  sound card: {{kind: card, length: 120, height: 111, slot: 1}}
"""


@pytest.mark.parametrize(("slot", "line"), [(1, 5), (12, 4)])
def test_a_seat_that_is_taken_or_not_there(
    tmp_path: Path, slot: int, line: int
) -> None:
    path = written(tmp_path, SEATED.format(cases=CASES, slot=slot))
    ((is_line, field, *_),) = refused(path)
    assert is_line == line
    assert field == f"parts.{'card' if line == 4 else 'sound card'}.slot"


@pytest.mark.parametrize(
    "path", sorted(CASES.glob("*-build.yaml")), ids=lambda path: path.stem
)
def test_the_examples_are_read(path: Path) -> None:
    build = read_build(path)
    assert build.case_size_mm is not None
    assert len(build.bodies) > 20


def test_a_name_taken_from_the_file_s_prints_as_it_stands(tmp_path: Path) -> None:
    text = BLOCKS.replace("name: two blocks and a bracket\n", "")
    assert read_build(written(tmp_path, text, "a\nb\x07.yaml")).name == r"a\nb\x07"
