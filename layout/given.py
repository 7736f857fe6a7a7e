"""What the texts of options ask for, or why that cannot be had."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from datetime import datetime

import typer

from layout.errors import LayoutError
from layout.geometry.space import Axis
from layout.questions.explaining.explain import UnknownFindingError
from layout.questions.findings.finding import Group
from layout.questions.moving.moves import MoveError
from layout.questions.moving.stretch import Travel

__all__ = ["day", "groups", "told_of", "travel"]


def day(date: str) -> str:
    """Return the date as it is stated; the clock is asked for 'today' alone."""
    if date != "today":
        return date
    return datetime.now().astimezone().date().isoformat()


def groups(rules: str) -> frozenset[Group]:
    """Return the groups that ``--rules`` names."""
    known = {group.value: group for group in Group}
    words = [word.strip() for word in rules.split(",")]
    for word in words:
        if word not in known:
            raise typer.BadParameter(
                f"found {word!r}; of {', '.join(known)} would be right",
                param_hint="--rules",
            )
    return frozenset(known[word] for word in words)


@contextmanager
def told_of(option: str) -> Iterator[None]:
    """Name the option that a part, or its move, was asked for by."""
    try:
        yield
    except (MoveError, UnknownFindingError) as error:
        raise type(error)(f"{option}: {error}") from error


def travel(
    along: str | None, axis: str | None, move: Sequence[str]
) -> tuple[Travel | None, Axis | None]:
    """Return the stretch that ``--along`` asks for, and the axis of ``--axis``."""
    axes = {each.value: each for each in Axis}
    if axis is not None and (axis not in axes or along is None):
        right = "--along beside it" if axis in axes else f"one of {', '.join(axes)}"
        raise typer.BadParameter(
            f"found {axis!r}; {right} would be right", param_hint="--axis"
        )
    if along is None:
        return None, None
    if len(move) > 1:
        raise typer.BadParameter(
            "found two parts; one part on a stretch would be right",
            param_hint="--along",
        )
    try:
        first, last, step = map(float, along.split(":"))
        stretch = Travel(first, last, step)
    except ValueError as error:
        told = error if isinstance(error, LayoutError) else None
        text = told or f"found {along!r}; FROM:TO:STEP, as 0:60:2, would be right"
        raise typer.BadParameter(str(text), param_hint="--along") from error
    return stretch, axes[axis] if axis else None
