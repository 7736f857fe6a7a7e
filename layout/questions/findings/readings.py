"""What the figures of a finding are measured from, where the trade has several ways."""

from __future__ import annotations

from operator import and_

from layout.geometry.space import Vector
from layout.parts.form.form import Link

__all__ = ["readings"]


def readings(
    links: tuple[tuple[str, Link], ...], along: Vector | None
) -> tuple[str, ...]:
    """Return a line for each such figure that acts along a gap.

    Parameters
    ----------
    links : tuple of (owner, Link)
        From :func:`layout.questions.findings.tolerance.links_between`.
    along : Vector or None
        Unit vector of the gap; None where bodies just touch.
    """
    return tuple(
        dict.fromkeys(
            f"{owner}: {_told(link)}"
            for owner, link in links
            if link.figure.reading and _acts(link, along)
        )
    )


def _acts(link: Link, along: Vector | None) -> bool:
    """Tell whether a figure goes into a gap; one that is exact does so too."""
    counts = (low or high for low, high in zip(link.low, link.high, strict=True))
    return along is None or any(map(and_, map(bool, along), map(bool, counts)))


def _told(link: Link) -> str:
    """Return a figure and its reading; as given, where that was another one."""
    figure = link.figure
    if figure.restated is None:
        return f"{link.label}, {figure.reading}"
    given = f"{figure.restated.mm:g} by '{figure.restated.reading}'"
    return f"{link.label}, {figure.reading} (given as {given})"
