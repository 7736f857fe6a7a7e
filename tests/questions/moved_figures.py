"""Move each assumed figure of a build by a little, and see which gaps move with it."""

from __future__ import annotations

import gc
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from functools import _lru_cache_wrapper, cache
from typing import Any, TypeAlias

from layout.build.placed import Build, PlacedBody
from layout.geometry.relations.overlap import freed
from layout.geometry.relations.query import relation
from layout.geometry.relations.relation import State
from layout.geometry.space import Direction
from layout.questions.checking.check import check
from layout.questions.explaining.explain import explained
from layout.questions.findings.explanation import Explanation
from layout.questions.findings.finding import Check, Finding, Group
from layout.standards.figure import Figure

__all__ = ["BY_MM", "Moved", "assumed_figures", "bent", "chains", "moved"]

BY_MM = 0.01
"""Little enough that no other place of two bodies becomes the nearest."""

Key: TypeAlias = tuple[object, ...]
Chains: TypeAlias = dict[str, tuple[Finding, Explanation]]
"""By a finding's id, it and what explains it."""
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


def chains(build: Build, found: Check) -> Chains:
    """Return every finding between two places with the chain that explains it."""
    made = {}
    for number, finding in enumerate(found.findings, start=1):
        if finding.group is Group.DISTANCE and finding.gap_mm is not None:
            told = explained(build, number, finding)
            if isinstance(told, Explanation) and told.closes:
                made[finding.id] = (finding, told)
    return made


def moved(
    made: Callable[[], Build], key: Key, *, build: Build, told: Chains
) -> Iterator[Moved]:
    """Yield every gap and overlap, how it moves, and what its chain says of it."""
    with _moving(key):
        other = {body.name: body for body in made().bodies}
    known = {body.name: body for body in build.bodies}
    for id_, (finding, chain) in told.items():
        names = finding.a, finding.b or ""
        if finding.along is not None or not all(
            e in known and e in other for e in names
        ):
            continue
        was, now = (
            _room_mm(finding, *(each[n] for n in names)) for each in (known, other)
        )
        if was is not None and now is not None:
            yield id_, now - was, said(chain, key) * BY_MM


def bent(made: Callable[[], Build], key: Key, *, told: Chains) -> Iterator[Moved]:
    """Yield every room behind a plug likewise, each asked anew by a check."""
    with _moving(key):
        other = {each.id: each for each in check(made()).findings}
    for id_, (finding, chain) in told.items():
        if finding.along is None or id_ not in other or not finding.gap_mm:
            continue
        now = other[id_]
        if now.b == finding.b and now.axis == finding.axis and now.gap_mm:
            yield id_, now.gap_mm - finding.gap_mm, said(chain, key) * BY_MM


def _room_mm(finding: Finding, a: PlacedBody, b: PlacedBody) -> float | None:
    """Return a gap, or how far two bodies must come apart, as a negative number.

    None where a seat lets the two share what the geometry alone would part.
    """
    if finding.overlap is None:
        stands = relation(a.body, b.body)
        return None if stands.state is State.INTERFERING else stands.gap_mm
    way = Direction((finding.overlap.axis, finding.overlap.sign))
    apart = freed(a.body, b.body, way)
    return -apart.mm if abs(apart.mm - finding.overlap.mm) < 1.0 else None


def said(chain: Explanation, key: Key) -> float:
    """Return how often a chain says that a figure goes into the gap."""
    return sum(
        each.mm / each.link.figure.mm
        for each in chain.chain
        if each.link.figure.mm and key_of(each.link.figure) == key
    )
