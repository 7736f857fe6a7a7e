"""Move each assumed figure of a build by a little, and see which gaps move with it."""

from __future__ import annotations

import gc
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from functools import _lru_cache_wrapper, cache
from typing import Any, TypeAlias

from layout.build.placed import Build, PlacedBody
from layout.geometry.query import relation
from layout.geometry.relation import State
from layout.questions.finding import Check, Finding, Group
from layout.questions.tolerance import direction, links_between
from layout.standards.figure import Figure

__all__ = ["BY_MM", "Moved", "assumed_figures", "moved"]

BY_MM = 0.01
"""Little enough that no other place of two bodies becomes the nearest."""

Key: TypeAlias = tuple[object, ...]
Moved: TypeAlias = tuple[str, float, float]
"""A finding's id, what its gap moves by, and what its chain says that it does."""


def key_of(figure: Figure) -> Key:
    """Return what tells a figure from others, whatever it is measured from."""
    return (
        round(figure.mm, 9),
        figure.plus_minus_mm,
        figure.standing,
        figure.source,
        figure.assumed,
    )


def assumed_figures(build: Build) -> dict[Key, str]:
    """Return every assumed figure of a build's chains, with a name for it."""
    return {
        key_of(link.figure): f"{owner}: {link.label}"
        for body in build.bodies
        for owner, link in body.chain
        if link.figure.assumed and link.figure.mm
    }


@contextmanager
def _moving(key: Key) -> Iterator[None]:
    """Let each figure of this key read a little larger than it is."""
    slot: Any = Figure.__dict__["mm"]

    def read(figure: Figure) -> float:
        mm: float = slot.__get__(figure)
        if (round(mm, 9), figure.plus_minus_mm) != key[:2]:
            return mm
        return mm + BY_MM if _rest(figure) == key[2:] else mm

    setattr(Figure, "mm", property(read, slot.__set__))  # noqa: B010  (a slot)
    _forget()
    try:
        yield
    finally:
        setattr(Figure, "mm", slot)  # noqa: B010
        _forget()


def _rest(figure: Figure) -> Key:
    return (figure.standing, figure.source, figure.assumed)


@cache
def _remembering() -> tuple[Any, ...]:
    """Return every function of ours that remembers what it made of figures."""
    return tuple(
        each
        for each in gc.get_objects()
        if isinstance(each, _lru_cache_wrapper) and each.__module__.startswith("layout")
    )


def _forget() -> None:
    for each in _remembering():
        each.cache_clear()


def moved(
    made: Callable[[], Build], key: Key, *, build: Build, found: Check
) -> Iterator[Moved]:
    """Yield every gap along one axis, how it moves, and what is said of it."""
    with _moving(key):
        other = {body.name: body for body in made().bodies}
    known = {body.name: body for body in build.bodies}
    for finding in found.findings:
        a, b = known.get(finding.a), known.get(finding.b or "")
        if a is None or b is None or not _asked(finding):
            continue
        if finding.a in other and finding.b in other:
            by_mm = _gap_mm(other[finding.a], other[finding.b or ""]) - (
                finding.gap_mm or 0.0
            )
            yield finding.id, by_mm, _said(a, b, key) * BY_MM


def _asked(finding: Finding) -> bool:
    straight = finding.axis is not None and finding.overlap is None
    return finding.group is Group.DISTANCE and straight and finding.along is None


def _gap_mm(a: PlacedBody, b: PlacedBody) -> float:
    stands = relation(a.body, b.body)
    return 0.0 if stands.state is State.INTERFERING else stands.gap_mm


def _said(a: PlacedBody, b: PlacedBody, key: Key) -> float:
    """Return how often the chain says that a figure goes into the gap."""
    along = direction(relation(a.body, b.body))
    if along is None:
        return 0.0
    return sum(
        part * count
        for _, link in links_between(a, b, along)
        if key_of(link.figure) == key
        for part, count in zip(along, link.high, strict=True)
    )
