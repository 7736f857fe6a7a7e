"""The shortest list of measurements: enough, and none shorter would be."""

from __future__ import annotations

from dataclasses import replace
from itertools import combinations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from layout.questions.checking.check import check
from layout.questions.findings.finding import Finding, Group, Verdict
from layout.questions.findings.measure import EXACT_UP_TO, needed, shortest, told
from layout.questions.findings.tolerance import Assumed
from tests.build.machines import built, tower, tower_case, wet
from tests.questions.builds import link

TAPE_MM = 1.0


def assumed(label: str, off_mm: float, owner: str = "board") -> Assumed:
    return Assumed(owner, link(label, (off_mm, 0.0, 0.0), assumed=True), off_mm)


def finding(name: str, margin_mm: float, **off_mm: float) -> Finding:
    """Return a finding that rests on assumptions, each with its scatter."""
    return Finding(
        id=name,
        rule="rule",
        group=Group.DISTANCE,
        a="a",
        b="b",
        gap_mm=max(margin_mm, 0.0),
        need_mm=0.0,
        tolerance_mm=0.0,
        margin_mm=margin_mm,
        verdict=Verdict.CLEAR if margin_mm >= 0 else Verdict.CLASH,
        axis=None,
        from_mm=None,
        to_mm=None,
        overlap=None,
        assumed=tuple(off_mm),
        why="",
        source="",
        advice="",
        rests_on=tuple(assumed(label, mm) for label, mm in off_mm.items()),
    )


def names(*findings: Finding) -> list[str]:
    return [each.figure for each in shortest(findings)]


def test_what_is_settled_asks_for_nothing() -> None:
    assert names(finding("f", 5.0, socket=5.0)) == []
    assert names(finding("f", -5.0, socket=3.0, pitch=2.0)) == []
    assert names() == []


@pytest.mark.parametrize("margin_mm", [4.9, -4.9])
def test_what_passes_or_fails_only_by_an_assumption_asks_for_it(
    margin_mm: float,
) -> None:
    (measurement,) = shortest([finding("f", margin_mm, socket=5.0)])
    assert (measurement.part, measurement.figure) == ("board", "socket")
    assert (measurement.assumed_mm, measurement.plus_minus_mm) == (1.0, 5.0)
    assert measurement.settles == ("f",)


def test_the_larger_scatter_is_measured_where_one_is_enough() -> None:
    # 8 + 15 may eat 20; with the 15 taped it is 8 + 1.
    assert names(finding("f", 20.0, sink=8.0, socket=15.0)) == ["socket"]


def test_one_that_several_findings_share_is_shorter_than_one_for_each() -> None:
    shared = [
        finding("f", 12.0, left=7.0, socket=6.0),
        finding("g", 12.0, right=7.0, socket=6.0),
    ]
    assert names(*shared) == ["socket"]


def test_equally_short_lists_are_told_by_the_worst_findings_order() -> None:
    tie = [finding("f", 5.0, a=3.0, b=3.0), finding("g", 5.0, b=3.0, a=3.0)]
    assert names(*tie) == ["a"]
    assert names(*reversed(tie)) == ["b"]


def test_what_no_tape_can_tell_asks_for_all_that_a_tape_knows_better() -> None:
    hopeless = finding("f", 0.5, socket=15.0, pitch=4.0, seat=0.5)
    assert names(hopeless) == ["socket", "pitch"]
    assert names(finding("f", 0.2, seat=0.5)) == []


def test_a_finding_without_a_distance_asks_for_nothing() -> None:
    (first,) = (finding("f", 1.0, socket=5.0),)
    missing = Finding(**{**_fields(first), "margin_mm": None})  # type: ignore[arg-type]
    assert names(missing) == []


def _fields(of: Finding) -> dict[str, object]:
    return {name: getattr(of, name) for name in Finding.__dataclass_fields__}


_LABELS = ("a", "b", "c", "d", "e", "f", "g")
_FINDINGS = st.lists(
    st.tuples(
        st.integers(-30, 30),
        st.dictionaries(st.sampled_from(_LABELS), st.integers(1, 20), min_size=1),
    ),
    max_size=6,
).map(
    lambda drawn: [
        finding(f"f{n}", float(margin), **{k: float(v) for k, v in of.items()})
        for n, (margin, of) in enumerate(drawn)
    ]
)


def _left_mm(of: Finding, taped: set[str]) -> float:
    """Return what its assumptions may move it by, beyond its margin, once taped."""
    each_mm = [
        min(one.off_mm, TAPE_MM) if one.link.label in taped else one.off_mm
        for one in of.rests_on
    ]
    return max(0.0, sum(each_mm) - abs(of.margin_mm or 0.0))


def _enough(findings: list[Finding], taped: set[str]) -> bool:
    """Tell whether no finding could be told any better by more of a tape."""
    all_of_them = set(_LABELS)
    return all(_left_mm(f, taped) <= _left_mm(f, all_of_them) + 1e-9 for f in findings)


@given(_FINDINGS)
def test_the_list_is_enough_and_none_shorter_is(findings: list[Finding]) -> None:
    doubtful = [each for each in findings if _left_mm(each, set()) > 0.0]
    found = names(*findings)
    assert _enough(doubtful, set(found))
    shorter = combinations(_LABELS, max(0, len(found) - 1)) if found else ()
    assert not any(_enough(doubtful, set(each)) for each in shorter)


@given(_FINDINGS)
def test_the_list_is_the_same_every_time(findings: list[Finding]) -> None:
    assert names(*findings) == names(*findings)


def test_of_very_many_the_one_that_settles_most_is_taken_first() -> None:
    many = [
        finding(f"f{n}", 4.0, **{f"own {n}": 4.0, "socket": 4.0})
        for n in range(EXACT_UP_TO + 1)
    ]
    assert names(*many)[0] in {"own 0", "socket"}
    assert "socket" in names(*many)
    taped = set(names(*many))
    assert all(
        _left_mm(each, taped) <= _left_mm(each, {*taped, *each.assumed})
        or not _left_mm(each, taped)
        for each in many
    )


def test_a_finding_names_the_fewest_of_its_own() -> None:
    both = (assumed("sink", 8.0), assumed("socket", 15.0))
    assert [each.name for each in needed(20.0, both)] == ["board: socket"]
    assert [each.name for each in needed(-5.0, both)] == [
        "board: socket",
        "board: sink",
    ]
    assert needed(23.0, both) == ()


def test_a_tape_that_reaches_past_another_makes_that_one_needless() -> None:
    socket, slots = assumed("socket", 15.0), assumed("slots", 8.0)
    slots = replace(slots, link=replace(slots.link, instead=(socket.link,)))
    for both in ((socket, slots), (slots, socket)):
        assert [each.name for each in needed(5.0, both)] == ["board: slots"]
        tied = replace(finding("f", 5.0), rests_on=both)
        assert [each.figure for each in shortest([tied])] == ["slots"]
        # with what else must be known, the socket's place serves as well
        two = (replace(tied, margin_mm=10.0), finding("g", 5.0, socket=15.0))
        assert [each.figure for each in shortest(two)] == ["socket"]


def test_a_tape_from_elsewhere_asks_for_what_had_cancelled_too() -> None:
    socket, slots = assumed("socket", 15.0), assumed("slots", 8.0)
    slots = replace(slots, link=replace(slots.link, instead=(socket.link,)))
    beside_cooler = replace(finding("f", 5.0), rests_on=(slots,))
    both = ["board: slots", "board: socket"]
    assert [each.name for each in needed(5.0, (slots,))] == both
    assert names(beside_cooler) == ["socket", "slots"]
    # what was settled while both cancelled is not, once the slots alone are taped
    settled = replace(beside_cooler, margin_mm=9.0)
    under_fan = replace(finding("g", 5.0), rests_on=(socket, slots))
    assert needed(9.0, (slots,)) == ()
    told_ = {each.figure: each.settles for each in shortest([under_fan, settled])}
    assert told_ == {"slots": ("g",), "socket": ("f",)}
    assert names(under_fan, replace(settled, margin_mm=16.0)) == ["slots"]


def test_the_tapes_two_ends_are_told_with_what_was_assumed() -> None:
    assert told(assumed("socket", 15.0)) == "board: socket (1 ± 15 assumed)"
    assert told(assumed("lead", 100.0)) == "board: lead (1 ± 100 assumed)"


@pytest.mark.parametrize("parts", [tower(), wet()])
def test_an_assumption_never_lies_within_the_general_tolerances(
    parts: dict[str, object],
) -> None:
    build = built(tower_case(), parts)  # type: ignore[arg-type]
    links = {each for body in build.bodies for each in body.chain}
    taken = [(owner, one) for owner, one in links if one.figure.assumed]
    assert taken
    for owner, one in taken:
        stated = one.figure.plus_minus_mm is not None
        assert stated or one.figure.restated, (owner, one.label)
        assert max(one.plus_minus_mm) >= 0.5, (owner, one.label)


def test_a_machines_measurements_say_where_the_tape_goes() -> None:
    build = built(tower_case(), tower())
    links = {
        (owner, one.label): one
        for body in build.bodies
        for owner, one in body.chain
        if one.figure.assumed and max(one.plus_minus_mm) > TAPE_MM
    }
    bare = [key for key, one in links.items() if not one.tape]
    assert bare == []
    for each in shortest(check(build).findings):
        assert " to " in each.tape
