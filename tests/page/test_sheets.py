from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from layout.drawing.boxes import apart, text_box, texts, within
from layout.drawing.figure import render_pages
from layout.drawing.style import STYLE
from layout.page.said import Page
from layout.page.sheets import sheets
from tests.page.pages import EXAMPLES, NEWSROOM, made


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_no_two_lines_overlap_and_none_leaves_the_sheet(path: Path) -> None:
    for one in sheets(made(path).page):
        boxes = [text_box(each) for each in texts(one)]
        assert all(within(each, (15.0, 10.0, 200.0, 287.0)) for each in boxes)
        for index, a in enumerate(boxes):
            assert all(apart(a, b) for b in boxes[index + 1 :])


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_the_words_on_an_example_take_two_sheets_at_most(path: Path) -> None:
    assert len(sheets(made(path).page)) <= 2


def long_page() -> Page:
    one = made(NEWSROOM).page
    return replace(one, rows=one.rows * 8, parts=one.parts * 4)


def test_a_long_page_goes_on_over_leaf_with_nothing_lost() -> None:
    page = long_page()
    several = sheets(page)
    assert len(several) > 1
    told = [each.text for one in several for each in texts(one)]
    assert told.count("Take a lower cooler, or a wider case") == 8
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
