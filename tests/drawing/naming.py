"""Which names a sheet must tell, and whether it does: beside its parts or by number."""

from __future__ import annotations

import re
from collections.abc import Sequence

from layout.build.placed import Build
from layout.drawing.composed.chosen import Wanted, chosen, style_of
from layout.drawing.composed.picture import base
from layout.drawing.lettered.names import Name
from layout.drawing.paper.boxes import Frame, texts
from layout.drawing.paper.scene import Leader, Point, Scene
from layout.drawing.sheets.aside import opened
from layout.drawing.sheets.sheet import Plan, Sheet
from layout.questions.findings.finding import Check

__all__ = ["unnamed"]

_NUMBER = re.compile(r"P\d+")


def unnamed(build: Build, check: Check, drawn: Scene) -> list[str]:
    """Return the names that a sheet tells neither in their view nor by a number."""
    sheet = Sheet(name="", width_mm=drawn.width_mm, height_mm=drawn.height_mm)
    wanted = Wanted(build=build, check=check, before=None, lines=())
    plan, _ = chosen(wanted, (sheet,))
    assert plan.scale == drawn.scale
    names = base(build, plan, style=style_of(plan)).names
    return min((_untold(names, each, drawn) for each in (plan, opened(plan))), key=len)


def _untold(names: Sequence[Name], plan: Plan, drawn: Scene) -> list[str]:
    return [
        ", ".join(name.lines)
        for name in names
        if not name.again and not _told(name, plan.views[name.view].frame, drawn)
    ]


def _told(name: Name, frame: Frame, drawn: Scene) -> bool:
    """Tell whether lettering of a name lies in its view, or is led to it there."""
    own = [each for each in texts(drawn) if each.ref == name.ref]
    led = [
        each.points[-1]
        for each in drawn.items
        if isinstance(each, Leader) and each.ref == name.ref
    ]
    if not any(_holds(frame, at) for at in (*led, *(each.at for each in own))):
        return False
    numbers = [each.text for each in own if _NUMBER.fullmatch(each.text)]
    listed = {each.text for each in texts(drawn) if not each.ref}
    return all(each in listed and _listed(name, listed) for each in numbers)


def _listed(name: Name, listed: set[str]) -> bool:
    """Tell whether the legend tells a name, in a line or broken into several."""
    whole = ", ".join(name.lines)
    return any(whole.startswith(each) for each in listed if each)


def _holds(frame: Frame, at: Point) -> bool:
    left, bottom, right, top = frame
    return left - 1 <= at[0] <= right + 1 and bottom - 1 <= at[1] <= top + 1
