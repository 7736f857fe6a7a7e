"""What would let a lead through that finds no way: an opening, or a part gone."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from typing import Final, TypeAlias

from layout.build.placed import Build, PlacedPlug
from layout.geometry.space import Axis, Box, Vector
from layout.parts.form.form import Plug, Role
from layout.questions.clearances.asked import CASE
from layout.questions.findings.advice import spoken
from layout.questions.findings.answered import listed
from layout.questions.findings.holes import Passage, usual_openings
from layout.questions.findings.passages import Passages, passages
from layout.questions.reach.plug_end import plug_ends

__all__ = ["why_shut"]

_NEAREST: Final = 4
"""How many parts beside a lead's start are tried as what shuts it in."""
_BESIDE_MM: Final = 30.0
_FROM_EDGE_MM: Final = 10.0


def why_shut(
    build: Build, space: Passages, *, start: Vector, plugs: Sequence[PlacedPlug]
) -> str:
    """Return that a lead has no way through the tray's openings, and what gives one.

    Each usual opening that the case file does not name is tried, and one beside the
    lead's start; where none helps, the parts beside the start are left out in turn.
    """
    in_tray = [each for each in space.holes if each.axis is Axis.WIDTH]
    named = any(not each.assumed for each in in_tray)
    through = (
        "through the openings that the case file names"
        if named
        else "through the usual openings (the case file names none)"
    )
    ends = [(e.plug, end[-1]) for e in plugs for end in plug_ends(e, space)]
    helps = _help(build, space, start=start, ends=ends)
    return f"{through}{_narrow(space, plugs)}; {helps}; its reach is not asked"


def _narrow(space: Passages, plugs: Sequence[PlacedPlug]) -> str:
    """Return which holes are too narrow for a lead's plug, and how large that is."""
    shut = {each: space.too_narrow(each.plug) for each in plugs}
    least = min(plugs, key=lambda each: len(shut[each]), default=None)
    if least is None or not shut[least]:
        return ""
    names = [each.name for each in shut[least]]
    let = "let" if len(names) > 1 else "lets"
    wide_mm, thick_mm = least.plug.size_mm
    return (
        f", of which {listed(names)} {let} no plug of {wide_mm:g} by {thick_mm:g} mm "
        "through"
    )


_End: TypeAlias = tuple[Plug, Vector]
"""A plug, and where its lead turns before it."""


def _help(build: Build, space: Passages, *, start: Vector, ends: Sequence[_End]) -> str:
    for hole in _candidates(build, space, start):
        if _leads(passages(build, further=(hole,)), start, ends):
            low, high = hole.box.low, hole.box.high
            return (
                f"{hole.name} would let it through: where the case has one, add it "
                f"to 'cut outs' (from rear {low[0]:.0f}, from floor {low[1]:.0f}, "
                f"depth {high[0] - low[0]:.0f}, height {high[1] - low[1]:.0f})"
            )
    for part in _nearest(build, start)[:_NEAREST]:
        others = tuple(each for each in build.bodies if each.part != part)
        if _leads(passages(replace(build, bodies=others)), start, ends):
            return f"{spoken(part)} stands in its way"
    return "no one opening in the tray would let it through: tell where it starts"


def _candidates(build: Build, space: Passages, start: Vector) -> Iterator[Passage]:
    """Yield openings that the tray might have, the usual ones first."""
    known = {each.name for each in space.holes}
    for body in build.bodies:
        if body.role is not Role.TRAY:
            continue
        sheet = body.body.bounds
        usual = (each for each in usual_openings(build, sheet))
        yield from (each for each in usual if each.name not in known)
        x, y = (
            (
                max(sheet.low[k] + _FROM_EDGE_MM, start[k] - _BESIDE_MM),
                min(sheet.high[k] - _FROM_EDGE_MM, start[k] + _BESIDE_MM),
            )
            for k in (0, 1)
        )
        if x[0] < x[1] and y[0] < y[1]:
            yield Passage(
                "an opening beside its start",
                Box((x[0], y[0], sheet.low[2]), (x[1], y[1], sheet.high[2])),
                sheet.high[2],
                assumed=True,
            )


def _leads(space: Passages | None, start: Vector, ends: Sequence[_End]) -> bool:
    """Tell whether a way leads from a start to any of the ends."""
    return space is not None and any(space.way(plug, start, end) for plug, end in ends)


def _nearest(build: Build, start: Vector) -> list[str]:
    """Return the parts in a case, the nearest to a place first."""
    away: dict[str, float] = {}
    for body in build.bodies:
        if body.part == CASE or not body.role.is_matter:
            continue
        low, high = body.body.bounds.low, body.body.bounds.high
        off_mm = sum(
            max(low[k] - start[k], start[k] - high[k], 0.0) ** 2
            for k in (axis.index for axis in Axis)
        )
        away[body.part] = min(off_mm, away.get(body.part, off_mm))
    return sorted(away, key=lambda part: away[part])
