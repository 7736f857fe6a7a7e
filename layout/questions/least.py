"""The least that a fan must be raised: places are tried in steps, advice is finer."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import Final

from layout.build.plan import Plan
from layout.parts.tower_cooler import TowerCooler
from layout.parts.twin_tower import TwinTower
from layout.questions.changes import Change, placed
from layout.standards.figure import given

__all__ = ["least_raise"]

_TENTHS: Final = 10
"""A raise is told in tenths of a millimetre, upward."""
_STEP_TENTHS: Final = 50
"""The raise one step lower was tried before, and did not do (places of a fan)."""


def least_raise(plan: Plan, change: Change, does: Callable[[Change], bool]) -> Change:
    """Return a change with its fan raised by no more than it must be.

    Parameters
    ----------
    plan : Plan
        As it is now.
    change : Change
        One that does what is wanted.
    does : callable
        Tells whether a change does; asked of every raise before it is told.

    Returns
    -------
    Change
        The same one where it is of no single cooler whose fan goes higher.
    """
    (key, spec), *others = change.parts
    now = plan.spec(key)
    if others or not isinstance(now, TowerCooler | TwinTower):
        return change
    there_mm = _raise_mm(now)
    if not isinstance(spec, type(now)) or spec != _raised(now, _raise_mm(spec)):
        return change
    least, enough = round(there_mm * _TENTHS), round(_raise_mm(spec) * _TENTHS)
    least = max(least, enough - _STEP_TENTHS)
    while enough - least > 1:
        middle = (least + enough) // 2
        (tried,) = placed(key, now, (("", _raised(now, middle / _TENTHS)),))
        if does(tried):
            change, enough = tried, middle
        else:
            least = middle
    return change


def _raise_mm(spec: TowerCooler | TwinTower) -> float:
    """Return how far a cooler's front fan is raised."""
    return spec.fan_raise.mm if spec.fan_raise else 0.0


def _raised(spec: TowerCooler | TwinTower, raise_mm: float) -> TowerCooler | TwinTower:
    """Return a cooler with its front fan raised so far."""
    return replace(spec, fan_raise=given(raise_mm))
