"""Which fans stand on a face together, in a build and at all."""

from __future__ import annotations

from dataclasses import replace

import pytest

from layout.answers.roomy import as_json, as_table
from layout.build.assemble import Entry
from layout.build.placed import Build
from layout.build.plan import Plan
from layout.parts.case.case_fields import Mount, Takes
from layout.parts.cooling.fan import Fan
from layout.parts.cooling.radiator import Radiator
from layout.parts.kinds.kinds import Spec
from layout.questions.case.faces import faces
from layout.questions.checking.check import check
from layout.questions.findings.finding import Check, Finding, Group, Verdict
from layout.questions.growing.headroom import headroom
from tests.build.machines import body, built, mm, small_case

HOLES = frozenset({Group.HOLES})


def on_front(slots_mm: float = 0.0, **parts: Spec) -> Build:
    """Return a case for two of 120 from 20 on, or two of 140 from 30 on."""
    slots = mm(slots_mm) if slots_mm else None
    takes = (
        Takes(size=120, count=2, start=mm(20), slots=slots),
        Takes(size=140, count=2, start=mm(30), slots=slots),
    )
    return built(replace(small_case(), mounts=(("front", Mount(takes=takes)),)), parts)


def shared(found: Check) -> list[Finding]:
    return [each for each in found.findings if each.rule == "fans-on-face"]


LOW = Fan(size=120, mount="front")
HIGH = Fan(size=140, mount="front", place=2)


def test_fans_that_overlap_are_a_finding_that_tells_what_would_fit() -> None:
    second = replace(LOW, place=2)  # from 140 to 260; the large one from 30 to 170
    build = on_front(low=second, high=replace(HIGH, place=1))
    (one,) = shared(check(build, groups=HOLES))
    assert (one.id, one.verdict) == ("fans-on-face:high:low", Verdict.MISSING)
    assert (one.gap_mm, one.group) == (None, Group.HOLES)
    assert one.why == "they share 30.0 mm of the front mount"
    assert "1 of 120 and 1 of 140, or 2 of 120, or 2 of 140" in one.advice
    assert check(build).verdict.fails


def test_frames_side_by_side_are_clear_and_told_only_when_asked() -> None:
    build = on_front(low=LOW, high=HIGH)  # to 140, and from 170 on
    assert not shared(check(build, groups=HOLES))
    (one,) = shared(check(build, groups=HOLES, every_pair=True))
    assert one.verdict is Verdict.CLEAR


@pytest.mark.parametrize(("slots_mm", "stands"), [(29.0, False), (30.0, True)])
def test_slots_let_both_fans_give_way_by_half_their_length(
    slots_mm: float, *, stands: bool
) -> None:
    """The small one from 140 on, the large one up to 170: 30 too much."""
    small = replace(LOW, place=2)
    build = on_front(slots_mm, low=replace(HIGH, place=1), high=small)
    found = check(build)
    assert (not shared(found)) is stands
    low, high = (body(build, name).body.bounds for name in ("low", "high"))
    assert low.high[1] == pytest.approx(155.0 if stands else 170.0)
    assert high.low[1] == pytest.approx(155.0 if stands else 140.0)
    holes = [each for each in found.findings if each.rule == "fans-to-mount"]
    assert all(each.verdict is Verdict.CLEAR for each in holes)


def test_a_radiator_is_asked_like_its_fans() -> None:
    build = on_front(wet=Radiator(size=240, mount="front"), high=HIGH)
    (one,) = shared(check(build, groups=HOLES))
    assert one.parts == {"wet", "high"}


def test_headroom_tells_what_stands_together_on_every_face() -> None:
    case = replace(
        small_case(),
        mounts=(
            (
                "front",
                Mount(
                    takes=(
                        Takes(size=120, count=2, start=mm(20)),
                        Takes(size=140, count=2, start=mm(30)),
                    )
                ),
            ),
        ),
    )
    plan = Plan(name="fans", entries=(Entry(key="low", spec=LOW),), case=case)
    told = headroom(plan)
    (face,) = told.faces
    assert face.told == "2 of 140, or 1 of 120 and 1 of 140, or 2 of 120"
    assert f"front: {face.told}" in as_table(told)
    assert as_json(told)["faces"] == [
        {
            "mount": "front",
            "together": [
                [{"size": size, "count": count} for size, count in choice]
                for choice in face.choices
            ],
        }
    ]
    assert headroom(plan, part="low").faces == ()


def test_a_seat_that_is_no_mount_has_no_face() -> None:
    assert faces(each for each in small_case().form().seats if not each.rows) == ()
