"""The command line: the only room that prints.

Each command imports what it needs inside itself, so that none waits for what it does
not use.
"""
# ruff: noqa: PLC0415, T201 (imports inside commands, and printing, are this file's job)

from __future__ import annotations

import atexit
import gc
import os
import sys
from collections.abc import Collection, Mapping, Sequence
from copy import copy
from io import TextIOWrapper
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any, Final, TypedDict

import typer

from layout import options
from layout.errors import LayoutError

if TYPE_CHECKING:
    from layout.build.remade import Remaker
    from layout.questions.findings.finding import Check, Group
    from layout.questions.findings.tolerance import Stacking

__all__ = ["app", "main"]

FAILS: Final = 1
"""Exit code where something is short, clashes or is missing."""
BAD_INPUT: Final = 2
"""Exit code of bad usage (typer's own) and of bad input."""

_OBJECTS_BEFORE_GARBAGE: Final = 1_000_000
_WIDEST: Final = 140
_OUT: Final = Path("out")
_USUAL_SIGMA: Final = 3.0

app = typer.Typer(
    name="case-layout",
    help="Tell whether everything fits together inside one computer case, and draw it.",
    epilog="Exit codes: 0 nothing short or clashing, 1 something is, 2 bad input.",
    add_completion=False,
    no_args_is_help=True,
    rich_markup_mode=None,
    pretty_exceptions_enable=False,
)


def main() -> None:
    """Run the command line; every refusal ends here, in words on standard error."""
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, TextIOWrapper):
            stream.reconfigure(errors="backslashreplace")
    # a check ends before its garbage is worth a look at every object it has loaded,
    # and what is left at its end goes with the process
    gc.set_threshold(_OBJECTS_BEFORE_GARBAGE)
    atexit.register(gc.freeze)
    # looking for pydantic's plugins takes longer than reading the files
    os.environ.setdefault("PYDANTIC_DISABLE_PLUGINS", "1")
    try:
        _with_commands(sys.argv[1:2])(prog_name="case-layout")
    except LayoutError as error:
        print(error, file=sys.stderr)
        sys.exit(BAD_INPUT)
    except MemoryError:
        print("outlines too fine for this machine's memory", file=sys.stderr)
        sys.exit(BAD_INPUT)


def _with_commands(asked: Collection[str]) -> typer.Typer:
    """Return the program with the command that is asked for; with all where none is.

    Typer reads the options of every command that it is given, asked for or not.
    """
    chosen = copy(app)
    named = [each for each in app.registered_commands if each.name in asked]
    chosen.registered_commands = named or app.registered_commands
    return chosen


def _version(asked: bool) -> None:  # noqa: FBT001 (typer hands it over so)
    if asked:
        from importlib.metadata import PackageNotFoundError, version

        try:
            number = version("case-layout")
        except PackageNotFoundError:
            number = "(not installed)"
        _say(f"case-layout {number}")
        raise typer.Exit


@app.callback()
def _options(
    *,
    version: Annotated[
        bool,
        typer.Option(
            "--version", callback=_version, is_eager=True, help="Show the version."
        ),
    ] = False,
) -> None:
    """Tell whether everything fits together inside one computer case, and draw it."""


@app.command("check", short_help="What clears, what does not, and by how much.")
def check_command(
    path: options.Build,
    *,
    json: options.Json = False,
    pairs: options.Pairs = False,
    every: options.All = False,
    rules: options.Rules = None,
    worst_case: options.WorstCase = False,
    sigma: options.Sigma = _USUAL_SIGMA,
) -> None:
    """Tell what clears, what does not, and by how much, worst first."""
    from layout.files.build_file import read_made
    from layout.questions.checking.check import check
    from layout.questions.findings.finding import Group

    groups = frozenset(Group) if rules is None else _groups(rules)
    if pairs and not json:
        raise typer.BadParameter("found --pairs alone; --json --pairs would be right")
    made = read_made(path)
    answer = check(
        made.build,
        every_pair=every,
        with_pairs=pairs,
        groups=groups,
        stacking=_stacking(worst_case, sigma),
    )
    answer = answer if json else _advised(made, answer)
    _say(_as_json(answer) if json else _as_table(answer, every=every))
    raise typer.Exit(_exit_code([answer]))


@app.command("explain", short_help="The chain of figures under one finding.")
def explain_command(
    path: options.Build,
    finding: Annotated[
        str,
        typer.Argument(
            metavar="ID", help="The finding's id, or its number in the table."
        ),
    ],
    *,
    json: options.Json = False,
    output: options.Picture = None,
    worst_case: options.WorstCase = False,
    sigma: options.Sigma = _USUAL_SIGMA,
) -> None:
    """Tell what a finding rests on: every figure, its source, and what it adds."""
    from layout.answers.explained import as_json, as_table
    from layout.files.build_file import read_build
    from layout.given import told_of
    from layout.questions.explaining.explain import UnknownFindingError, explain
    from layout.questions.findings.explanation import Account
    from layout.targets import picture_format

    kind = picture_format(output)
    build = read_build(path)
    with told_of("ID"):
        told = explain(build, finding, stacking=_stacking(worst_case, sigma))
    if output is not None:
        if isinstance(told, Account):
            right = "the id of one between two places"
            found = f"{told.finding.id}, which has no length to draw"
            raise UnknownFindingError(f"-o: found {found}; {right} would be right")
        from layout.drawing.charts.chain import chain_scene
        from layout.drawing.ink.figure import render
        from layout.files.whole import write_whole

        write_whole({output: render(chain_scene(told), kind)})
    _say(_dumped(as_json(told)) if json else as_table(told, **_page()))
    raise typer.Exit(FAILS if told.finding.verdict.fails else 0)


@app.command("positions", short_help="Which place of a part works, and the best one.")
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
    _say(_dumped(as_json(told)) if json else as_table(told, **_page()))
    raise typer.Exit(0 if told.works else FAILS)


@app.command("parts", short_help="The kinds of parts, their fields, published sizes.")
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
            _say(_dumped(kinds.list_as_json(pages)))
        else:
            _say(kinds.list_as_text(pages, **_page()))
        return
    if kind not in DESCRIBED:
        found = f"found {kind!r}; one of {', '.join(DESCRIBED)} would be right"
        raise typer.BadParameter(found, param_hint="KIND")
    page = described(kind)
    told = kinds.kind_as_json(page)
    _say(_dumped(told) if json else kinds.kind_as_text(page, **_page()))


@app.command("headroom", short_help="How large each part could be, all else as built.")
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
    _say(_dumped(as_json(told)) if json else as_table(told, **_page()))
    here = [row for row in told.rows if ", " not in row.dimension]
    raise typer.Exit(0 if all(row.fits for row in here) else FAILS)


@app.command("draw", short_help="Side and top view, to scale, with the gaps.")
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
    from layout.drawing.ink.at_once import Wanted, drawn_at_once, load_ahead
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
    cores = _cores()
    if min(len(targets), cores) > 1:
        load_ahead()
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
    _say("\n".join([*map(closing, answers), *done]))
    raise typer.Exit(_exit_code(answers))


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


@app.command("sheet", short_help="A page to attach to a quote: words and drawing.")
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
    build, answer = made.build, _advised(made, check(made.build))
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
    _say("\n".join([closing(answer), *(f"written: {each}" for each in contents)]))
    raise typer.Exit(_exit_code([answer]))


def _stacking(worst_case: bool, sigma: float) -> Stacking:  # noqa: FBT001 (an option)
    from layout.questions.findings.tolerance import Stacking

    return Stacking(worst_case=worst_case, sigma=sigma)


def _groups(rules: str) -> frozenset[Group]:
    from layout.given import groups

    return groups(rules)


def _advised(made: Remaker, answer: Check) -> Check:
    """Return the answer with advice that was tried, where something must change."""
    if not answer.verdict.fails:
        return answer
    from layout.questions.mending.mending import mended

    return mended(made, answer)


def _as_json(answer: Check) -> str:
    from layout.report import as_json

    return _dumped(as_json(answer))


def _dumped(told: dict[str, Any]) -> str:
    import json

    return json.dumps(told, indent=2, allow_nan=False)


def _as_table(answer: Check, *, every: bool) -> str:
    from layout.table import as_table

    return as_table(answer, every=every, **_page())


class _Page(TypedDict):
    width: int
    in_colour: bool


def _page() -> _Page:
    """Return how wide the page is, and whether it shows colours."""
    from shutil import get_terminal_size

    width = min(get_terminal_size().columns, _WIDEST)
    return {"width": width, "in_colour": sys.stdout.isatty()}


def _exit_code(answers: list[Check]) -> int:
    return FAILS if any(each.verdict.fails for each in answers) else 0


def _say(text: str) -> None:
    """Print; a reader who has gone is none of our business."""
    try:
        print(text, flush=True)
    except BrokenPipeError:
        # Python flushes once more at its end and would complain to standard error
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
