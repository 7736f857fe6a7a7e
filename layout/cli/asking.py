"""The commands that ask what could be: other places, other sizes, kinds of parts."""
# ruff: noqa: PLC0415 (each imports inside itself what it alone needs)

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from layout import options
from layout.cli.saying import FAILS, dumped, page, say

__all__ = ["headroom_command", "parts_command", "positions_command"]


def positions_command(
    path: options.Build,
    *,
    move: Annotated[
        list[str],
        typer.Option("--move", metavar="PART", help="The part; give two at most."),
    ],
    along: Annotated[
        str | None,
        typer.Option(
            "--along",
            metavar="FROM:TO:STEP",
            help="A stretch of travel in mm from where it stands, not named places.",
        ),
    ] = None,
    axis: Annotated[
        str | None,
        typer.Option(
            "--axis",
            metavar="AXIS",
            help="With --along: depth, height or width; without it the seat's own.",
        ),
    ] = None,
    json: options.Json = False,
    output: options.Picture = None,
) -> None:
    """Tell how a part stands at each of its places, or along a stretch of travel."""
    from layout.answers.moved import as_json, as_table
    from layout.files.build_file import read_plan
    from layout.given import told_of
    from layout.given import travel as asked_travel
    from layout.questions.moving.positions import positions
    from layout.questions.moving.stretch import stretch
    from layout.targets import picture_format

    kind = picture_format(output)
    travel, way = asked_travel(along, axis, move)
    plan, build = read_plan(path)
    with told_of("--move"):
        if travel is None:
            told = positions(plan, move)
        else:
            told = stretch(plan, move[0], travel, axis=way)
    if output is not None:
        from layout.drawing.charts.moved import positions_scene
        from layout.drawing.ink.figure import render
        from layout.files.whole import write_whole
        from layout.questions.moving.moves import rail_mm

        write_whole({output: render(positions_scene(told, build, rail_mm(plan)), kind)})
    say(dumped(as_json(told)) if json else as_table(told, **page()))
    raise typer.Exit(0 if told.works else FAILS)


def headroom_command(
    path: options.Build,
    *,
    part: Annotated[
        str | None,
        typer.Option("--part", metavar="PART", help="This part alone."),
    ] = None,
    json: options.Json = False,
    output: options.Picture = None,
) -> None:
    """Tell the largest figure of every part that still clears, and what limits it."""
    from layout.answers.roomy import as_json, as_table
    from layout.files.build_file import read_plan
    from layout.given import told_of
    from layout.questions.growing.headroom import headroom
    from layout.targets import further_sheet, picture_format

    kind = picture_format(output)
    plan, _ = read_plan(path)
    with told_of("--part"):
        told = headroom(plan, part=part)
    if output is not None:
        from layout.drawing.charts.roomy import headroom_scenes
        from layout.drawing.ink.figure import render_sheets
        from layout.files.whole import write_whole

        drawn: dict[Path, bytes] = {}
        for number, made in enumerate(render_sheets(headroom_scenes(told), kind), 1):
            drawn[further_sheet(output, number, drawn)] = made
        write_whole(drawn)
    say(dumped(as_json(told)) if json else as_table(told, **page()))
    here = [row for row in told.rows if ", " not in row.dimension]
    raise typer.Exit(0 if all(row.fits for row in here) else FAILS)


def parts_command(
    words: Annotated[
        list[str] | None,
        typer.Argument(metavar="[KIND]", help="One kind, such as: tower cooler."),
    ] = None,
    *,
    json: options.Json = False,
) -> None:
    """List the kinds of parts, or tell one kind's fields and the published sizes."""
    from layout.answers import kinds
    from layout.parts.kinds.described import DESCRIBED, described

    kind = " ".join(words or ())
    if not kind:
        pages = [described(each) for each in DESCRIBED]
        if json:
            say(dumped(kinds.list_as_json(pages)))
        else:
            say(kinds.list_as_text(pages, **page()))
        return
    if kind not in DESCRIBED:
        found = f"found {kind!r}; one of {', '.join(DESCRIBED)} would be right"
        raise typer.BadParameter(found, param_hint="KIND")
    told = described(kind)
    if json:
        say(dumped(kinds.kind_as_json(told)))
    else:
        say(kinds.kind_as_text(told, **page()))
