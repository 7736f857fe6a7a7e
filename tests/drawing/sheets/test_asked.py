from __future__ import annotations

import pytest

from layout.drawing.composed.compose import scene, scenes
from layout.drawing.paper.boxes import texts
from layout.drawing.sheets.asked import AskedError, checked, sheets_named
from layout.drawing.sheets.sheet import CHOSEN_FROM, NAMED
from layout.drawing.sheets.title_block import Title
from layout.standards.drawing import TITLE_FIELDS
from tests.drawing.reading import outside, overlapping
from tests.drawing.samples import blocks, clear_tower


def test_without_words_what_a_workshop_prints() -> None:
    assert sheets_named(None) == CHOSEN_FROM
    assert {each.name for each in CHOSEN_FROM} == {"A4", "A3"}


def test_a_sheet_by_name_lies_or_stands_as_it_fits() -> None:
    assert sheets_named("A2") == NAMED["A2"]
    assert sheets_named("a3 portrait") == (NAMED["A3"][1],)
    assert sheets_named("A4-landscape") == (NAMED["A4"][0],)


@pytest.mark.parametrize("words", ["A5", "", "A4 upright", "A4 portrait landscape"])
def test_no_such_sheet(words: str) -> None:
    with pytest.raises(AskedError, match="one of A4, A3, A2, A1, A0"):
        sheets_named(words)


def test_a_field_holds_what_iso_7200_says() -> None:
    full = Title(number="x" * 16, date="2026-11-25", creator="y" * 20, revision="AB")
    assert checked(full) == full
    with pytest.raises(AskedError, match=r"revision: found 'ABC', 3 characters; .* 2"):
        checked(Title(revision="ABC"))
    with pytest.raises(AskedError, match=r"number: .* 17 characters; at most 16"):
        checked(Title(number="x" * 17))


@pytest.mark.parametrize("sheet", ["A4", "A3"])
def test_the_title_block_has_every_mandatory_field(sheet: str) -> None:
    title = Title(
        owner="Quiet Workshop, invented",
        number="Q-2026-017",
        date="2026-11-25",
        approver="A. Invented",
        creator="B. Invented",
        revision="B",
    )
    drawn, *more = scenes(*clear_tower(), sheets=NAMED[sheet], title=title)
    said = {each.text for each in texts(drawn)}
    renamed = {"approval person": "approved by", "sheet number": "sheet"}
    mandatory = {each.name for each in TITLE_FIELDS if each.mandatory}
    assert {renamed.get(each, each) for each in mandatory} <= said
    assert {"revision", "scale", "format", "clearance drawing"} <= said
    assert f"1 of {1 + len(more)}" in said
    assert {title.number, title.date, title.approver, title.revision} <= said
    assert overlapping(drawn) == []
    assert outside(drawn) == []


def test_no_date_is_made_up() -> None:
    said = " ".join(each.text for each in texts(scene(*blocks())))
    assert "20" + "26" not in said
    assert "measure before ordering" in said
    assert "ISO 2768-1" in said
