"""Which share of a call's time goes to numpy, to shapely, to plain Python."""

from __future__ import annotations

import cProfile
import pstats
from collections import Counter
from collections.abc import Callable, Mapping
from pathlib import PurePath

__all__ = ["shares"]

_IN_ARRAYS = {"boxes", "cells", "gap", "gathered", "interference", "runs", "shifts"}
"""Kernel files whose own lines are array arithmetic: a profile sees no operators, and
counts ``a * b`` on arrays as time of the function that says so."""


def shares(call: Callable[[], object], times: int = 5) -> Mapping[str, float]:
    """Return the share of each, 0 to 1, by the own time of every function called.

    What calling numpy costs (its dispatch, and the interpreter between two array
    operations) counts as numpy.
    """
    profile = cProfile.Profile()
    for _ in range(times):
        profile.runcall(call)
    profile.create_stats()
    spent: Counter[str] = Counter()
    for (file, _, name), row in pstats.Stats(profile).stats.items():  # type: ignore[attr-defined]  # the stub leaves out what the manual documents
        spent[_owner(file, name)] += row[2]
    return {
        owner: spent[owner] / spent.total() for owner in ("numpy", "shapely", "Python")
    }


def _owner(file: str, name: str) -> str:
    if "shapely" in file or "shapely" in name:
        return "shapely"
    if "numpy" in file or "numpy" in name or PurePath(file).stem in _IN_ARRAYS:
        return "numpy"
    return "Python"
