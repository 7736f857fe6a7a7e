"""The options and arguments of the commands, each declared once."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated, TypeAlias

import typer

__all__ = [
    "All",
    "Approver",
    "Build",
    "Builds",
    "Compare",
    "Creator",
    "Customer",
    "Dated",
    "Folder",
    "Format",
    "Issued",
    "Json",
    "Layers",
    "Number",
    "Output",
    "Owner",
    "Pairs",
    "Picture",
    "Quote",
    "Revision",
    "Rules",
    "Sheet",
    "Sigma",
    "Workshop",
    "WorstCase",
]

Build: TypeAlias = Annotated[
    Path, typer.Argument(metavar="BUILD.yaml", help="The build file.")
]
Builds: TypeAlias = Annotated[
    list[Path],
    typer.Argument(metavar="BUILD.yaml...", help="One build file, or several."),
]
Json: TypeAlias = Annotated[
    bool, typer.Option("--json", help="Print one JSON object instead of the table.")
]
Pairs: TypeAlias = Annotated[
    bool,
    typer.Option("--pairs", help="Add how every two bodies stand; only with --json."),
]
All: TypeAlias = Annotated[
    bool,
    typer.Option(
        "--all",
        help="List what is clear by far, no rule names or is taken for granted, too.",
    ),
]
Rules: TypeAlias = Annotated[
    str | None,
    typer.Option(
        "--rules",
        metavar="GROUP,...",
        help="Ask these groups of rules only: distance, holes, reach, hookup, order.",
    ),
]
Output: TypeAlias = Annotated[
    Path,
    typer.Option(
        "-o",
        "--output",
        metavar="FILE_OR_FOLDER",
        help="A folder for the drawings, or the one file to draw.",
    ),
]
Format: TypeAlias = Annotated[
    str | None,
    typer.Option(
        "--format",
        metavar="FORMAT,...",
        help="What to draw: svg, png, pdf; without it all three.",
    ),
]
Sheet: TypeAlias = Annotated[
    str | None,
    typer.Option(
        "--sheet",
        metavar="SHEET",
        help="A4, A3, A2, A1 or A0, landscape or portrait; without it A4 or A3.",
    ),
]
Compare: TypeAlias = Annotated[
    bool,
    typer.Option(
        "--compare",
        help="Draw the second of two builds, with what has changed since the first.",
    ),
]
Layers: TypeAlias = Annotated[
    str | None,
    typer.Option(
        "--layers",
        metavar="LAYER,...",
        help="Draw these layers too: plugs, bends, leads, screws.",
    ),
]
Issued: TypeAlias = Annotated[
    str,
    typer.Option("--date", metavar="DATE", help="Date of issue; 'today' is this day."),
]
Owner: TypeAlias = Annotated[
    str, typer.Option("--owner", metavar="NAME", help="Legal owner of the drawing.")
]
Number: TypeAlias = Annotated[
    str, typer.Option("--number", metavar="NUMBER", help="Identification number.")
]
Revision: TypeAlias = Annotated[
    str, typer.Option("--revision", metavar="INDEX", help="Revision, as A or 2.")
]
Creator: TypeAlias = Annotated[
    str, typer.Option("--drawn-by", metavar="NAME", help="Who made the drawing.")
]
Approver: TypeAlias = Annotated[
    str, typer.Option("--approved-by", metavar="NAME", help="Who approved it.")
]
Folder: TypeAlias = Annotated[
    Path,
    typer.Option(
        "-o", "--output", metavar="WHERE", help="A folder, or a .pdf or .html file."
    ),
]
Customer: TypeAlias = Annotated[
    str, typer.Option("--customer", metavar="NAME", help="Who the page is for.")
]
Quote: TypeAlias = Annotated[
    str, typer.Option("--quote", metavar="NUMBER", help="The quote it belongs to.")
]
Dated: TypeAlias = Annotated[
    str, typer.Option("--date", metavar="DATE", help="Its date, as it shall be read.")
]
Workshop: TypeAlias = Annotated[
    str, typer.Option("--workshop", metavar="NAME", help="Who writes the quote.")
]


def _sigma(word: str) -> float:
    """Return how many standard deviations an option asks for."""
    least, most = 0.1, 10.0
    try:
        asked = float(word)
    except ValueError:
        asked = 0.0
    if not least <= asked <= most:
        raise typer.BadParameter(
            f"found {word!r}; a number from {least:g} to {most:g} would be right"
        )
    return asked


Sigma: TypeAlias = Annotated[
    float,
    typer.Option(
        "--sigma",
        metavar="N",
        parser=_sigma,
        help="Hold tolerances at N standard deviations instead of 3.",
    ),
]
WorstCase: TypeAlias = Annotated[
    bool,
    typer.Option(
        "--worst-case",
        help="Add tolerances up as if every figure were off at once.",
    ),
]
Picture: TypeAlias = Annotated[
    Path | None,
    typer.Option(
        "-o",
        "--output",
        metavar="FILE",
        help="Also draw it: a file that ends in .svg, .png or .pdf.",
    ),
]
