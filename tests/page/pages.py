"""Pages of the examples, made once."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from pathlib import Path

from layout.drawing.composed.compose import scenes
from layout.drawing.ink.figure import render_sheets
from layout.drawing.paper.scene import Scene
from layout.files.build_file import read_build
from layout.page.html import as_html
from layout.page.said import Page, Quote, page
from layout.questions.checking.check import check
from layout.questions.findings.finding import Check

__all__ = ["EXAMPLES", "NEWSROOM", "Made", "made"]

EXAMPLES = sorted((Path(__file__).parents[2] / "cases").glob("*-build.yaml"))
NEWSROOM = next(each for each in EXAMPLES if each.stem == "newsroom-build")
QUOTE = Quote(
    customer="Harbour Radio <studio 2> & sons",
    number="Q-0117",
    dated="2026-11-25",
    workshop="Quiet Bench workshop",
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Made:
    """A page with its drawing and its markup."""

    check: Check
    page: Page
    scenes: tuple[Scene, ...]
    html: str


@cache
def made(path: Path) -> Made:
    build = read_build(path)
    answer = check(build)
    said, drawn = page(build, answer, QUOTE), scenes(build, answer)
    svgs = render_sheets(drawn, "svg")
    html = as_html(said, list(zip(drawn, svgs, strict=True)))
    return Made(check=answer, page=said, scenes=drawn, html=html)
