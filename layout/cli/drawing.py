"""The commands that make a drawing, or a page with one."""
# ruff: noqa: PLC0415 (each imports inside itself what it alone needs)

from __future__ import annotations

import os
import sys
from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import Final

import typer

from layout import options
from layout.cli.judging import advised
from layout.cli.saying import exit_code, say

__all__ = ["draw_command", "sheet_command"]

_OUT: Final = Path("out")


def draw_command(  # noqa: PLR0913 (options, each by its name)
    paths: options.Builds,
    *,
    output: options.Output = _OUT,
    formats: options.Format = None,
    sheet: options.Sheet = None,
    compare: options.Compare = False,
    layers: options.Layers = None,
    owner: options.Owner = "",
    number: options.Number = "",
    revision: options.Revision = "",
    date: options.Issued = "",
    creator: options.Creator = "",
    approver: options.Approver = "",
) -> None:
    """Draw side and top view of builds, to scale, with the gaps dimensioned."""
    from layout.drawing.ink.ahead import load_ahead

    cores = _cores()
    if min(len(paths), cores) > 1 and not compare:
        load_ahead()  # while this process loads what it takes itself

    from layout.drawing.ink.at_once import Wanted, drawn_at_once
    from layout.drawing.sheets.asked import checked, sheets_named
    from layout.drawing.sheets.layers import layers_named
    from layout.drawing.sheets.title_block import Title
    from layout.drawing.views.compared import Before
    from layout.files.build_file import read_made
    from layout.given import day
    from layout.questions.checking.check import check
    from layout.report import closing
    from layout.targets import further_sheet
    from layout.targets import targets as files

    if compare and len(paths) != 2:
        found = f"--compare with {len(paths)} builds"
        raise typer.BadParameter(f"{found}; two builds would be right")
    sheets, shown = sheets_named(sheet), layers_named(layers)
    title = checked(
        Title(
            owner=owner,
            number=number,
            revision=revision,
            date=day(date),
            creator=creator,
            approver=approver,
        )
    )
    targets = files(paths[-1:] if compare else paths, output, formats)
    builds = [read_made(path) for path in paths]
    before: Before | None = None
    if compare:
        first = builds.pop(0).build
        before = Before(first, check(first))
    wanted = Wanted(
        kinds=tuple(each.suffix[1:] for each in next(iter(targets.values()))),
        sheets=sheets,
        title=title,
        layers=shown,
        before=before,
    )
    drawn = list(drawn_at_once(builds, wanted, cores=cores))
    contents: dict[Path, bytes] = {}
    for made, each in zip(targets.values(), drawn, strict=True):
        for target, drawings in zip(made, each.files, strict=True):
            for place, drawing in enumerate(drawings):
                contents[further_sheet(target, place + 1, contents)] = drawing
    answers = [each.answer for each in drawn]
    done = _put_in_place(contents, [each for made in targets.values() for each in made])
    say("\n".join([*map(closing, answers), *done]))
    raise typer.Exit(exit_code(answers))


def _cores() -> int:
    """Return how many cores this process may use."""
    if sys.platform == "linux":
        return len(os.sched_getaffinity(0))
    return os.cpu_count() or 1


def _put_in_place(contents: Mapping[Path, bytes], first: Sequence[Path]) -> list[str]:
    """Write drawings in the place of earlier ones and return what was done."""
    from layout.drawing.sheets.sheet import SHEET_MARK
    from layout.files.stale import stale_sheets
    from layout.files.whole import write_whole

    stale = stale_sheets(first, contents, mark=SHEET_MARK)
    write_whole(contents, instead_of=stale)
    return [
        *(f"drawn: {each}" for each in contents),
        *(f"removed, a sheet of an earlier drawing: {each}" for each in stale),
    ]


def sheet_command(
    path: options.Build,
    *,
    output: options.Folder = _OUT,
    customer: options.Customer = "",
    quote: options.Quote = "",
    dated: options.Dated = "",
    workshop: options.Workshop = "",
) -> None:
    """Write the page for a quote, as one PDF and as one HTML file."""
    from layout.drawing.composed.compose import scenes
    from layout.drawing.ink.figure import render_pages, render_sheets
    from layout.drawing.views.extremes import ends_of_travel
    from layout.files.build_file import read_made
    from layout.files.whole import write_whole
    from layout.page.html import as_html
    from layout.page.said import Quote, page
    from layout.page.sheets import sheets
    from layout.questions.checking.check import check
    from layout.questions.moving.moves import rail_mm
    from layout.report import closing
    from layout.targets import page_targets

    targets = page_targets(path, output)
    made = read_made(path)
    build, answer = made.build, advised(made, check(made.build))
    said = Quote(customer=customer, number=quote, dated=dated, workshop=workshop)
    words = page(build, answer, said)
    ends = ends_of_travel(build, rail_mm(made.plan))
    drawn = scenes(build, answer, title=said.title, extremes=ends)
    contents: dict[Path, bytes] = {}
    for target in targets:
        if target.suffix == ".pdf":
            contents[target] = render_pages([*sheets(words, drawn=len(drawn)), *drawn])
        else:
            svgs = render_sheets(drawn, "svg")
            markup = as_html(words, list(zip(drawn, svgs, strict=True)))
            contents[target] = markup.encode("utf-8")
    write_whole(contents)
    say("\n".join([closing(answer), *(f"written: {each}" for each in contents)]))
    raise typer.Exit(exit_code([answer]))
