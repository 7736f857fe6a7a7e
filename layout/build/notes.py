"""What a build rests on that nobody verified: one line for each part."""

from __future__ import annotations

from collections.abc import Collection, Iterable
from typing import Final

from layout.build.placed import PlacedBody
from layout.parts.form.form import Link, Role
from layout.parts.form.link import said_mm

__all__ = ["not_there", "unverified"]

_EVERY_MACHINE: Final = (
    ("a board", frozenset({"board"})),
    ("memory", frozenset({"memory"})),
    (
        "a cooler",
        frozenset({"tower cooler", "twin tower", "low cooler", "liquid cooler"}),
    ),
    ("a supply", frozenset({"supply"})),
)
"""What no machine runs without, and the kinds that are it."""


def not_there(kinds: Collection[str]) -> tuple[str, ...]:
    """Return a line on what a machine needs and a build leaves out.

    Examples
    --------
    >>> not_there({"board", "memory", "low cooler"})
    ('not in the build, so nothing is asked of it: a supply',)
    >>> not_there({"board", "memory", "low cooler", "supply"})
    ()
    """
    lacking = [name for name, mine in _EVERY_MACHINE if mine.isdisjoint(kinds)]
    if not lacking:
        return ()
    of_it = "it" if len(lacking) == 1 else "them"
    return (f"not in the build, so nothing is asked of {of_it}: {', '.join(lacking)}",)


_DETAILS = frozenset({Role.BOARD_CONNECTOR})
"""Bodies whose every figure is usual and assumed; findings that rest on one say so."""


def unverified(bodies: Iterable[PlacedBody]) -> tuple[str, ...]:
    """Return a line for each part with the figures it takes by default.

    Those with a scatter of their own are assumptions; the others were not read in
    their source, or have none.
    """
    links = {
        (owner, link.label): link
        for body in bodies
        if body.role not in _DETAILS
        for owner, link in body.chain
        if (any(link.plus_minus_mm) or link.figure.assumed) and not link.figure.verified
    }
    owners = dict.fromkeys(owner for owner, _ in links)
    return tuple(
        line
        for owner in owners
        for word, assumed in (("assumed", True), ("not verified", False))
        if (line := _line(owner, word, _of(links, owner, assumed=assumed)))
    )


def _of(links: dict[tuple[str, str], Link], owner: str, *, assumed: bool) -> list[Link]:
    return [
        link
        for (each, _), link in links.items()
        if each == owner and link.figure.assumed is assumed
    ]


def _line(owner: str, word: str, links: list[Link]) -> str:
    if not links:
        return ""
    return f"{owner}, {word}: {', '.join(map(_told, links))}"


def _told(link: Link) -> str:
    """Return a figure with its scatter; places that only scatter have no figure."""
    figure = f" {link.figure.mm:.4g}" if link.figure.mm else ""
    off_mm = max(link.plus_minus_mm) or link.figure.plus_minus_mm
    return f"{link.label}{figure}" + (f" ± {said_mm(off_mm)}" if off_mm else "")
