from __future__ import annotations

from dataclasses import replace
from itertools import combinations
from pathlib import Path

import pytest

from layout.drawing.ink.figure import render_pages
from layout.drawing.paper.boxes import apart, text_box, texts, within
from layout.drawing.paper.style import STYLE
from layout.page.said import Page
from layout.page.sheets import sheets
from layout.questions.findings.advice import remedy_of
from tests.drawing.reading import cut
from tests.page.pages import EXAMPLES, NEWSROOM, made


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_no_two_lines_overlap_and_none_leaves_the_sheet(path: Path) -> None:
    for one in sheets(made(path).page):
        boxes = [text_box(each) for each in texts(one)]
        assert all(within(each, (15.0, 10.0, 200.0, 287.0)) for each in boxes)
        for index, a in enumerate(boxes):
            assert all(apart(a, b) for b in boxes[index + 1 :])


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_no_text_ends_in_dots_and_what_is_to_be_done_stands_whole(path: Path) -> None:
    one = made(path)
    pages, drawn = sheets(one.page), one.scenes
    assert [text for each in (*pages, *drawn) for text in cut(each)] == []
    told = " ".join(text.text for each in drawn for text in texts(each)).lower()
    for each in one.check.findings:
        if each.verdict.fails:
            assert remedy_of(each).lower() in told


@pytest.mark.parametrize("long", ["", "-" * 40, " and" * 40], ids=len)
def test_a_part_s_line_of_any_length_stands_whole(long: str) -> None:
    one = made(NEWSROOM).page
    parts = [replace(each, size=f"{each.size} {long}") for each in one.parts]
    last = replace(parts[0], name="shelf" + "-" * 55)
    several = sheets(replace(one, parts=(*parts, last)))
    told = "".join(text.text for each in several for text in texts(each))
    assert all(
        f"{each.told.strip()}".replace(" ", "") in told.replace(" ", "")
        for each in parts
    )
    assert last.name in told
    for each in several:
        boxes = [text_box(text) for text in texts(each)]
        assert all(within(box, (15.0, 10.0, 200.0, 287.0)) for box in boxes)
        assert all(apart(a, b) for a, b in combinations(boxes, 2))


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_the_words_on_an_example_take_one_sheet(path: Path) -> None:
    assert len(sheets(made(path).page)) == 1


def test_a_list_of_one_stands_on_the_left() -> None:
    one = made(NEWSROOM).page
    (first, *_) = sheets(replace(one, measure=("the only one",)))
    (entry,) = (each for each in texts(first) if each.text == "the only one")
    (heading,) = (each for each in texts(first) if each.text == "* Measure first")
    assert entry.at[0] - heading.at[0] < 10.0


def long_page() -> Page:
    one = made(NEWSROOM).page
    return replace(one, rows=one.rows * 8, parts=one.parts * 4)


def test_a_long_page_goes_on_over_leaf_with_nothing_lost() -> None:
    page = long_page()
    several = sheets(page)
    assert len(several) > 1
    told = [each.text for one in several for each in texts(one)]
    assert told.count("Take a lower cooler, or a wider case.") == 8
    assert [each for each in told if each.endswith(f"of {len(several) + 1}")] == [
        f"{number} of {len(several) + 1}" for number in range(1, len(several) + 1)
    ]


@pytest.mark.parametrize("more", range(12))
def test_no_heading_is_the_last_line_of_a_sheet(more: int) -> None:
    one = made(NEWSROOM).page
    for each in sheets(replace(one, rows=(*one.rows, *one.rows[:1] * more))):
        said = [t for t in texts(each) if t.at[1] > 15.0]
        lowest = min(said, key=lambda text: text.at[1])
        assert not (lowest.bold and lowest.height_mm == STYLE.medium_mm)


def test_the_drawing_s_sheets_are_counted_too() -> None:
    several = sheets(long_page(), drawn=3)
    last = [each.text for each in texts(several[-1])][-1]
    assert last == f"{len(several)} of {len(several) + 3}"


def test_pages_of_one_pdf_are_the_same_bytes_twice() -> None:
    pages = [*sheets(long_page()), *made(NEWSROOM).scenes]
    first, second = render_pages(pages), render_pages(pages)
    assert first == second
    assert first.startswith(b"%PDF")
    assert first.count(b"/Type /Page ") == len(pages)
