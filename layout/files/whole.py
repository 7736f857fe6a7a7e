"""Write outputs whole or not at all."""

from __future__ import annotations

import errno
import os
from collections.abc import Mapping, Sequence
from pathlib import Path

from layout.files.errors import OutputError, escaped

__all__ = ["is_folder", "write_whole"]


def is_folder(path: Path) -> bool:
    """Tell whether a folder is there; one that cannot even be asked for is none."""
    try:
        return path.is_dir()
    except OSError:  # such as a name that is too long
        return False


def write_whole(
    contents: Mapping[Path, bytes], *, instead_of: Sequence[Path] = ()
) -> None:
    """Write every file, or none.

    Parameters
    ----------
    contents : mapping of Path to bytes
        A folder that does not exist is made where the folder above it does.
    instead_of : sequence of Path
        Files that are there and go: an earlier output's, which this one has no more.

    Raises
    ------
    OutputError
        If one cannot be written; then every file is as it was.
    """
    made: list[Path] = []
    beside = {path: path.with_name(f".{path.name}.{os.getpid()}") for path in contents}
    try:
        for folder in sorted({path.parent for path in contents}):
            if not folder.exists():
                folder.mkdir()
                made.append(folder)
        before = {path: _now(path) for path in (*contents, *instead_of)}
        for path, content in contents.items():
            beside[path].write_bytes(content)
        _replace(beside, before)
    except OSError as error:
        for each in beside.values():
            _remove(each)
        for folder in made:
            folder.rmdir()
        meant = {str(new): path for path, new in beside.items()}
        where = escaped(str(meant.get(error.filename, error.filename or "the output")))
        raise OutputError(
            f"{where} cannot be written ({error.strerror}); nothing was touched; "
            "a file in a folder that exists and may be written to would be right"
        ) from error


def _now(path: Path) -> bytes | None:
    """Return what a file holds, None where there is none.

    A pipe would be waited for, and a device replaced by a file: both are refused.
    """
    if not path.exists():
        return None
    if not path.is_file() and not path.is_dir():
        raise FileExistsError(errno.EEXIST, "a pipe or a device is there", str(path))
    return path.read_bytes()


def _replace(beside: Mapping[Path, Path], before: Mapping[Path, bytes | None]) -> None:
    """Put the new files in place; where one fails, put the old ones back.

    What was before and has no new file goes.
    """
    done: list[Path] = []
    try:
        for path, new in beside.items():
            new.replace(path)
            done.append(path)
        for path in sorted(before.keys() - beside.keys()):
            path.unlink()
            done.append(path)
    except OSError:
        for path in done:
            _restore(path, before[path])
        raise


def _restore(path: Path, content: bytes | None) -> None:
    if content is None:
        path.unlink()
    else:
        path.write_bytes(content)


def _remove(path: Path) -> None:
    """Remove a file that may not be there, in a folder that may not be one."""
    try:
        path.unlink(missing_ok=True)
    except OSError:
        return
