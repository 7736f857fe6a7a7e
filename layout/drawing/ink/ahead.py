"""What drawing takes, loaded by another process before this one needs it.

It imports nothing of ours, so that it can be asked first of all.
"""

from __future__ import annotations

from multiprocessing import get_all_start_methods, get_context
from typing import Final

__all__ = ["START", "load_ahead"]

START: Final = "forkserver" if "forkserver" in get_all_start_methods() else "spawn"
"""How processes are started: from one that has loaded all, where that can be had.

The one that runs is not forked: it has threads, and what they hold would stay held.
"""


def load_ahead() -> None:
    """Begin to load what drawing takes, in another process; this one does so itself.

    Where processes cannot be forked each loads it for itself, later.
    """
    if START == "forkserver":
        # the module is not there on every platform
        from multiprocessing import forkserver  # noqa: PLC0415

        needed = ["layout.drawing.ink.at_once", "layout.drawing.ink.figure"]
        get_context(START).set_forkserver_preload(needed)
        forkserver.ensure_running()
