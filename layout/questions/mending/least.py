"""The least that a fan must be raised: places are tried in steps, advice is finer."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import Final

from layout.build.plan import Plan
from layout.parts.cooling.tower_cooler import TowerCooler
from layout.parts.cooling.twin_tower import TwinTower
from layout.questions.mending.changes import Change
from layout.standards.figure import given

__all__ = ["least_raise"]

_TENTHS: Final = 10
"""A raise is told in tenths of a millimetre, upward."""
_STEP_MM: Final = 5.0
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
        The same one where it raises no fan; of two at once the raise alone is another.
    """
    for place, (key, spec) in enumerate(change.parts):
        now = plan.spec(key)
        if not isinstance(now, TowerCooler | TwinTower):
            continue
        if isinstance(spec, type(now)) and spec == _raised(now, _raise_mm(spec)):
            least = max(_raise_mm(now), _raise_mm(spec) - _STEP_MM)
            return _least(change, (place, least), does)
    return change


def _least(
    change: Change, from_mm: tuple[int, float], does: Callable[[Change], bool]
) -> Change:
    """Return a change with one of its coolers' fans no higher than it must be."""
    place, low_mm = from_mm
    _, spec = change.parts[place]
    if not isinstance(spec, TowerCooler | TwinTower):
        return change
    low, enough = round(low_mm * _TENTHS), round(_raise_mm(spec) * _TENTHS)
    while enough - low > 1:
        middle = (low + enough) // 2
        tried = _raised_in(change, place, middle / _TENTHS)
        if does(tried):
            change, enough = tried, middle
        else:
            low = middle
    return change


def _raised_in(change: Change, place: int, raise_mm: float) -> Change:
    """Return a change with one of its coolers' fans at another height."""
    key, spec = change.parts[place]
    if not isinstance(spec, TowerCooler | TwinTower):
        return change
    parts = (
        *change.parts[:place],
        (key, _raised(spec, raise_mm)),
        *change.parts[place + 1 :],
    )
    was, now = (f"raised by {mm:g} mm" for mm in (_raise_mm(spec), raise_mm))
    return Change(parts, change.told.replace(was, now))


def _raise_mm(spec: TowerCooler | TwinTower) -> float:
    """Return how far a cooler's front fan is raised."""
    return spec.fan_raise.mm if spec.fan_raise else 0.0


def _raised(spec: TowerCooler | TwinTower, raise_mm: float) -> TowerCooler | TwinTower:
    """Return a cooler with its front fan raised so far."""
    return replace(spec, fan_raise=given(raise_mm))
