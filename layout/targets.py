"""The files that drawings and pages go to, by what the options say."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from typing import Final

import typer

from layout.files.whole import is_folder

__all__ = ["further_sheet", "page_targets", "picture_format", "targets"]

_FORMATS: Final = ("svg", "png", "pdf")


def picture_format(output: Path | None) -> str:
    """Return the format that a file's name asks for."""
    suffix = output.suffix[1:].lower() if output else ""
    if output is not None and suffix not in _FORMATS:
        raise typer.BadParameter(
            f"found {output}; a file that ends in .{', .'.join(_FORMATS)} would be "
            "right",
            param_hint="-o",
        )
    return suffix


def targets(
    paths: list[Path], output: Path, formats: str | None
) -> dict[Path, list[Path]]:
    """Return the files to draw for each build, by what ``-o`` and ``--format`` say."""
    suffix = output.suffix[1:].lower()
    if suffix in _FORMATS and not is_folder(output):
        if len(paths) > 1 or formats not in {None, suffix}:
            found = f"one file, {output}, for more than one drawing"
            raise typer.BadParameter(
                f"{found}; a folder would be right", param_hint="-o"
            )
        return {paths[0]: [output]}
    if suffix.isalpha() and not is_folder(output):
        raise typer.BadParameter(
            f"found {output}; a file that ends in .{', .'.join(_FORMATS)} or a folder "
            "would be right",
            param_hint="-o",
        )
    words = [word.strip() for word in (formats or "svg,png,pdf").split(",")]
    for word in words:
        if word not in _FORMATS:
            raise typer.BadParameter(
                f"found {word!r}; of {', '.join(_FORMATS)} would be right",
                param_hint="--format",
            )
    if len({path.stem for path in paths}) < len(paths):
        found = "two builds of one name, which would be drawn into one file"
        raise typer.BadParameter(f"{found}; another name would be right")
    return {path: [output / f"{path.stem}.{word}" for word in words] for path in paths}


def further_sheet(target: Path, number: int, taken: Mapping[Path, bytes]) -> Path:
    """Return the file of a drawing's further sheet: NAME-2.svg beside NAME.svg."""
    if number > 1:
        target = target.with_stem(f"{target.stem}-{number}")
    if target in taken:
        found = f"two drawings for {target}, one of them a further sheet"
        raise typer.BadParameter(f"{found}; another name for a build would be right")
    return target


def page_targets(path: Path, output: Path) -> list[Path]:
    """Return the files of the page for a quote: both in a folder, or the one named."""
    kinds = (".pdf", ".html")
    if not output.suffix[1:].isalpha() or is_folder(output):
        return [output / f"{path.stem}-sheet{kind}" for kind in kinds]
    if output.suffix in kinds:
        return [output]
    raise typer.BadParameter(
        f"found {output}; a file that ends in {' or '.join(kinds)} or a folder would "
        "be right",
        param_hint="-o",
    )
