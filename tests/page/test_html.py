from __future__ import annotations

import re
from html.parser import HTMLParser

from layout.drawing.composed.compose import scenes
from layout.drawing.ink.figure import render_sheets
from layout.drawing.paper.scene import Balloon
from layout.files.build_file import read_build
from layout.page.html import as_html
from layout.questions.checking.check import check
from tests.page.pages import NEWSROOM, QUOTE, made


class _Read(HTMLParser):
    """The tags of a page with what they point at, and its text."""

    def __init__(self) -> None:
        super().__init__()
        self.gaps: dict[str, list[str]] = {}
        self.links: list[str] = []
        self.text = ""

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        for name, value in attrs:
            if name in {"href", "src", "xlink:href", "action"} and value:
                self.links.append(value)
            if name == "data-gap" and value:
                self.gaps.setdefault(value, []).append(tag)

    def handle_data(self, data: str) -> None:
        self.text += data


def read(html: str) -> _Read:
    reader = _Read()
    reader.feed(html)
    return reader


def test_every_finding_has_its_row_and_its_gap_in_the_drawing() -> None:
    one = made(NEWSROOM)
    gaps = read(one.html).gaps
    every = len(check(read_build(NEWSROOM)).findings)
    assert {int(each) for each in gaps} == set(range(1, every + 1))
    assert all(tags == ["tr", "g"] for tags in gaps.values())


def test_every_sheet_is_on_the_page_with_names_of_its_own() -> None:
    one = made(NEWSROOM)
    assert len(one.scenes) > 1
    reader = read(one.html)
    for number, drawn in enumerate(one.scenes, start=1):
        assert f"Sheet {number} of {len(one.scenes)}" in reader.text
        for balloon in (each for each in drawn.items if isinstance(each, Balloon)):
            assert balloon.ref or not balloon.number
    ids = re.findall(r'\sid="([^"]+)"', one.html)
    assert len(ids) == len(set(ids))
    called = re.findall(r'(?:url\(#|href="#)([^")]+)', one.html)
    assert set(called) <= set(ids)


def test_the_page_needs_nothing_beside_itself() -> None:
    one = read(made(NEWSROOM).html)
    assert [each for each in one.links if not each.startswith("#")] == []
    assert "@import" not in made(NEWSROOM).html
    assert not re.search(r"url\((?!#)", made(NEWSROOM).html)


def test_names_are_text_and_no_markup() -> None:
    one = made(NEWSROOM)
    assert "<studio 2>" not in one.html
    assert "Harbour Radio <studio 2> & sons" in read(one.html).text


def test_the_same_build_gives_the_same_text() -> None:
    build = read_build(NEWSROOM)
    answer = check(build)
    drawn = scenes(build, answer)
    one = made(NEWSROOM)
    again = zip(drawn, render_sheets(drawn, "svg"), strict=True)
    assert as_html(one.page, list(again)) == one.html


def test_everything_said_is_on_the_page() -> None:
    one = made(NEWSROOM)
    text = " ".join(read(one.html).text.split())
    said = [one.page.title, one.page.case, one.page.headline, one.page.rest]
    said.append(one.page.assumed)
    said += [row.text for row in (*one.page.rows, *one.page.more)]
    said += [*one.page.cautions, *one.page.measure, QUOTE.number, QUOTE.dated]
    said += [f"{part.name} {part.told}".strip() for part in one.page.parts]
    assert [each for each in said if each not in text] == []
