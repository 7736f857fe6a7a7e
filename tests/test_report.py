from __future__ import annotations

import json
from dataclasses import replace

import numpy as np
import pytest

from layout.geometry.relations.relation import Bound, Overlap, Relation, State, Witness
from layout.geometry.space import Axis
from layout.parts.form.form import Link
from layout.questions.findings.finding import Check, Finding, Group, Verdict
from layout.questions.findings.shown import shown
from layout.questions.findings.tolerance import Assumed
from layout.report import (
    Row,
    advice,
    as_json,
    closing,
    measurements,
    notes,
    readings,
    rows,
)
from layout.standards.figure import Figure, Standing
from layout.table import as_table

FINDING = Finding(
    id="card-to-front:card:front fans",
    rule="card-to-front",
    group=Group.DISTANCE,
    a="card",
    b="front fans/fan 1",
    gap_mm=4.26,
    need_mm=5.0,
    tolerance_mm=1.5,
    margin_mm=-0.74,
    verdict=Verdict.SHORT,
    axis=Axis.DEPTH,
    from_mm=(312.0, -0.0, 40.0),
    to_mm=(316.26, 0.0, 40.0),
    overlap=None,
    assumed=("card: length",),
    why="a card is tilted into its slot",
    source="common practice, no source",
    advice="0.7 mm must give",
)
CLASH = replace(
    FINDING,
    id="x",
    gap_mm=0.0,
    margin_mm=-8.0,
    verdict=Verdict.CLASH,
    from_mm=None,
    to_mm=None,
    overlap=Overlap(axis=Axis.WIDTH, mm=3.0, sign=-1),
    advice="",
)
MISSING = replace(
    FINDING,
    b=None,
    gap_mm=None,
    need_mm=None,
    tolerance_mm=None,
    margin_mm=None,
    verdict=Verdict.MISSING,
    axis=None,
    from_mm=None,
    to_mm=None,
    why="the kit for this socket",
)


def check_of(*findings: Finding, pairs: tuple[Relation, ...] | None = None) -> Check:
    return Check(
        build="quiet one",
        verdict=findings[0].verdict if findings else Verdict.CLEAR,
        findings=findings,
        notes=("width derived", "width derived", "slot assumed"),
        pairs=pairs,
    )


def test_the_object_has_the_fixed_keys_and_values() -> None:
    told = as_json(check_of(FINDING))
    assert told == {
        "schema": 1,
        "build": "quiet one",
        "units": "mm",
        "verdict": "short",
        "findings": [
            {
                "id": "card-to-front:card:front fans",
                "rule": "card-to-front",
                "group": "distance",
                "a": "card",
                "b": "front fans/fan 1",
                "gap_mm": 4.26,
                "need_mm": 5.0,
                "tolerance_mm": 1.5,
                "margin_mm": -0.74,
                "verdict": "short",
                "axis": "depth",
                "from_mm": [312.0, 0.0, 40.0],
                "to_mm": [316.26, 0.0, 40.0],
                "overlap": None,
                "assumed": ["card: length"],
                "why": "a card is tilted into its slot",
                "source": "common practice, no source",
            }
        ],
    }
    assert "-0.0" not in json.dumps(told)


def test_a_clash_and_what_is_missing() -> None:
    clash, missing = as_json(check_of(CLASH, MISSING))["findings"]
    assert clash["overlap"] == {"axis": "width", "mm": 3.0, "sign": -1}
    assert clash["from_mm"] is None
    empty = {"b", "gap_mm", "need_mm", "tolerance_mm", "margin_mm", "axis"}
    assert {key for key in empty if missing[key] is not None} == set()


def test_pairs_only_where_asked_for() -> None:
    assert "pairs" not in as_json(check_of(FINDING))
    near = Relation(
        a="a",
        b="b",
        state=State.APART,
        gap_mm=np.float64(2.0),
        bound=Bound.EXACT,
        witness=Witness((0.0, 0.0, 0.0), (2.0, -0.0, 0.0)),
        overlap=None,
    )
    inside = replace(
        near,
        state=State.INTERFERING,
        gap_mm=0.0,
        witness=None,
        overlap=Overlap(axis=Axis.DEPTH, mm=1.5, sign=1),
    )
    pairs = as_json(check_of(pairs=(near, inside)))["pairs"]
    assert pairs == [
        {
            "a": "a",
            "b": "b",
            "state": "apart",
            "gap_mm": 2.0,
            "from_mm": [0.0, 0.0, 0.0],
            "to_mm": [2.0, 0.0, 0.0],
            "overlap": None,
        },
        {
            "a": "a",
            "b": "b",
            "state": "interfering",
            "gap_mm": 0.0,
            "from_mm": None,
            "to_mm": None,
            "overlap": {"axis": "depth", "mm": 1.5, "sign": 1},
        },
    ]
    assert type(pairs[0]["gap_mm"]) is float


def test_rows_are_numbered_and_in_tenths() -> None:
    first, _, third = rows(check_of(FINDING, CLASH, MISSING))
    assert first == Row(
        number="1",
        between="card \N{EN DASH} front fans/fan 1",
        gap="4.3",
        need="5.0",
        margin="-0.7",
        verdict="short",
        where="along depth: a card is tilted into its slot",
    )
    assert (third.between, third.gap, third.margin) == ("card", "", "")
    assert third.where == "the kit for this socket"


@pytest.mark.parametrize(
    ("margin_mm", "shown"),
    [
        (0.0, "0.0"),
        (-0.04, "-0.04"),
        (0.06, "+0.1"),
        (12.0, "+12.0"),
        (-12.26, "-12.3"),
    ],
)
def test_margins_have_a_sign_and_zero_has_none(margin_mm: float, shown: str) -> None:
    (row,) = rows(check_of(replace(FINDING, margin_mm=margin_mm)))
    assert row.margin == shown


def test_sentences_notes_and_the_closing_line() -> None:
    check = check_of(CLASH, FINDING, MISSING, FINDING)
    assert advice(check)[0] == ("2", "0.7 mm must give")
    assert notes(check) == ("width derived", "slot assumed")
    assert closing(check) == "quiet one: clash (1 missing, 1 clash, 2 short)"
    assert closing(check_of()).startswith("quiet one: clear (nothing")


def test_a_row_whose_margin_no_tenth_shows_is_told_in_hundredths() -> None:
    near = replace(FINDING, gap_mm=33.0, need_mm=33.0264, margin_mm=-0.0264)
    (row,) = rows(check_of(near))
    assert (row.gap, row.need, row.margin) == ("33.00", "33.03", "-0.03")


@pytest.mark.parametrize(
    ("mm", "text"),
    [(-0.04, "-0.04"), (4.25, "+4.2"), (0.0, "0.0"), (0.002, "+0.002"), (-1e-7, "0.0")],
)
def test_a_length_is_never_0_where_it_is_not(mm: float, text: str) -> None:
    assert shown(mm, signed=True) == text


def test_each_reading_is_told_once_with_the_rows_that_rest_on_it() -> None:
    from_slot, from_board = "card: card length, slot plane", "cooler: height, board"
    check = check_of(
        replace(FINDING, readings=(from_slot,)),
        replace(FINDING, id="y", readings=(from_slot, from_board)),
    )
    assert readings(check) == (f"{from_slot} (rows 1, 2)", f"{from_board} (row 2)")
    (first, _) = as_json(check)["findings"]
    assert first["why"] == (
        "a card is tilted into its slot (measured from: card: card length, slot plane)"
    )
    assert set(first) == set(as_json(check_of(FINDING))["findings"][0])


def test_what_to_measure_is_told_with_both_ends_and_where_to_write_it() -> None:
    figure = Figure(mm=100.0, standing=Standing.MEMORY, source="invented", assumed=True)
    socket = Link(
        label="socket centre",
        plus_minus_mm=(15.0, 0.0, 0.0),
        figure=figure,
        tape="board's rear edge to the socket's centre",
        entry="socket from rear",
    )
    rests = (Assumed("board", socket, 15.0),)
    check = check_of(CLASH, replace(FINDING, rests_on=rests))
    (line,) = measurements(check)
    assert line == (
        "board: board's rear edge to the socket's centre (100 ± 15 assumed); row 2; "
        "write it as 'socket from rear' of board"
    )
    assert as_json(check)["measure"] == [
        {
            "part": "board",
            "figure": "socket centre",
            "tape": "board's rear edge to the socket's centre",
            "field": "socket from rear",
            "assumed_mm": 100.0,
            "plus_minus_mm": 15.0,
            "findings": [FINDING.id],
        }
    ]
    assert "measure" not in as_json(check_of(FINDING))
    told = as_table(check).splitlines()
    assert told.index("Measure first; no other assumption then changes a verdict:") > (
        told.index("What to do:")
    )


def test_rows_of_the_same_two_names_say_what_each_is_about() -> None:
    clear = replace(FINDING, verdict=Verdict.CLEAR, why="a cable turns: 5 straight")
    bend = replace(clear, rule="card-plug-bend", why="plug, then cable")
    other = replace(clear, a="cooler")
    lead = replace(
        other, group=Group.REACH, axis=None, b="board/main power", lead="lead"
    )
    told = [row.where for row in rows(check_of(clear, bend, other, lead))]
    assert told == [
        "along depth: a cable turns",
        "along depth: plug",
        "along depth",
        "lead",
    ]
    named = replace(lead, lead="main lead", verdict=Verdict.SHORT, why="528 of 500")
    assert rows(check_of(named))[0].where == "main lead: 528 of 500"
    (short,) = rows(check_of(replace(lead, verdict=Verdict.SHORT, why="528 of 500")))
    assert short.where == "lead: 528 of 500"
