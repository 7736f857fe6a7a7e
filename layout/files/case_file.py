"""Read a case: the numbers of one chassis."""

from __future__ import annotations

from pathlib import Path

from layout.files.models import spec
from layout.files.place import Place
from layout.files.source import read_text
from layout.files.tree import parse
from layout.parts.case.case import Case

__all__ = ["read_case"]


def read_case(path: Path, named: Place) -> Case:
    """Return the case that a file describes.

    Parameters
    ----------
    path : Path
    named : Place
        Where the build file names it: there the error is if it cannot be opened.

    Raises
    ------
    InputError
        With every field that is wrong, each with its file and line.
    """
    text = read_text(path, "a case file, seen from this one", named=named.error)
    return spec(Case, Place(path, parse(text, path)))
