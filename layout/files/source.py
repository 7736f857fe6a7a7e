"""Open the files people write: small ones in UTF-8, nothing else."""

from __future__ import annotations

import stat
from collections.abc import Callable
from pathlib import Path
from typing import Final

from layout.files.errors import InputError, escaped

__all__ = ["LARGEST_BYTES", "read_text"]

LARGEST_BYTES: Final = 1_000_000
"""A file of the trade holds a few kB; a larger one is no case and no build."""


def read_text(
    path: Path, what: str, *, named: Callable[[str, str], InputError] | None = None
) -> str:
    """Return a file's text.

    Parameters
    ----------
    path : Path
    what : str
        What the file should be, for messages: ``a build file``.
    named : callable, optional
        Makes the error where another file names this one; default: the user did.

    Raises
    ------
    InputError
        If there is no such file, or it is a folder, a pipe, a device, too large or
        not UTF-8.
    """
    try:
        content = _content(path)
    except (OSError, ValueError) as error:
        found, right = _unopened(error), f"the name of {what}"
        if named is not None:
            raise named(f"{found} at {escaped(str(path))}", right) from error
        raise InputError(path, found=found, right=right) from error
    if len(content) > LARGEST_BYTES:
        size = f"more than {LARGEST_BYTES / 1e6:g} MB"
        raise InputError(path, found=size, right=f"a few kB: {what}")
    return _decoded(path, content)


class _NoPlainFileError(OSError):
    """What has a file's name may never come to an end."""


def _content(path: Path) -> bytes:
    """Return what a file holds; of one that is too large, enough to tell that."""
    mode = path.stat().st_mode
    if not stat.S_ISREG(mode) and not stat.S_ISDIR(mode):
        # not even opened: a pipe waits for one who writes to it
        raise _NoPlainFileError
    with path.open("rb") as file:
        return file.read(LARGEST_BYTES + 1)


def _unopened(error: OSError | ValueError) -> str:
    if isinstance(error, _NoPlainFileError):
        return "a pipe or a device"
    if isinstance(error, FileNotFoundError | NotADirectoryError):
        return "no file"
    if isinstance(error, IsADirectoryError):
        return "a folder"
    reason = getattr(error, "strerror", None) or str(error)
    return f"a file that cannot be read ({reason})"


def _decoded(path: Path, content: bytes) -> str:
    try:
        return content.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = content.count(b"\n", 0, error.start) + 1
        raise InputError(
            path,
            line,
            found=f"the byte 0x{content[error.start]:02x}, which is not UTF-8",
            right="a file saved as UTF-8",
        ) from error
