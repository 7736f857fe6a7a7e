"""What a reader is told who points at a part or a finding."""

from __future__ import annotations

import re

from layout.build.placed import Build
from layout.drawing.paper.lettering import plain
from layout.drawing.paper.scene import Subject
from layout.drawing.paper.words import length, named, outcome, shown_gap
from layout.questions.findings.finding import Check, Finding, Group

__all__ = ["subjects"]


def subjects(build: Build, check: Check) -> tuple[Subject, ...]:
    """Return every body and every finding, by what items of a scene refer to."""
    sizes = {each.key: plain(each.size) for each in build.parts}
    out = []
    for number, body in enumerate(build.bodies, start=1):
        told = [named(body.name), sizes.get(body.part, "")]
        said = ", ".join(each for each in told if each)
        out.append(Subject(ref=body.name, id=_id("part", number, body.name), told=said))
    for number, finding in enumerate(check.findings, start=1):
        told_of = Subject(ref=finding.id, id=f"finding-{number}", told=_told(finding))
        out.append(told_of)
    return tuple(out)


def _id(word: str, number: int, name: str) -> str:
    """Return an id that is unique by its number and readable by its name."""
    letters = re.sub(r"[^a-z0-9]+", "-", name.lower()).strip("-")
    return "-".join(each for each in (word, str(number), letters) if each)


def _told(finding: Finding) -> str:
    bodies = [named(each) for each in (finding.a, finding.b) if each]
    between = " \N{EN DASH} ".join(bodies)
    gap_mm = shown_gap(finding)
    if gap_mm is None or finding.overlap is not None:
        return f"{between}: {outcome(finding)}"
    word = "left" if finding.group is Group.REACH else "gap"
    return f"{between}: {word} {length(gap_mm)} mm, {outcome(finding)}"
