from __future__ import annotations

from dataclasses import replace

import pytest

from layout.parts.form.form import Role
from layout.questions.checking.check import check
from layout.questions.findings.finding import Check, Verdict
from layout.table import as_table
from tests.questions.builds import build_of, panel_and_cooler, placed


def clashing(key: str = "cooler") -> Check:
    panel = placed("case/side panel", Role.SIDE_PANEL, ((0, 400), (0, 400), (170, 171)))
    cooler = placed(key, Role.COOLER, ((50, 150), (200, 320), (15, 175)))
    memory = placed("memory/module 1", Role.MEMORY, ((150, 158), (200, 330), (10, 40)))
    return check(build_of(panel, cooler, memory))


@pytest.mark.parametrize("width", [80, 100, 140])
def test_no_line_is_wider_than_the_page(width: int) -> None:
    lines = as_table(clashing(), width=width).splitlines()
    assert max(map(len, lines)) <= width
    assert all(line == line.rstrip() for line in lines)


def test_a_narrow_page_keeps_every_figure_and_verdict() -> None:
    told = as_table(clashing(), width=50)
    columns = ("no", "what", "gap mm", "need", "margin", "verdict", "where and")
    assert all(title in told.splitlines()[0] for title in columns)
    assert "clash" in told.splitlines()[2]


def test_it_reads_from_the_worst_to_the_verdict_on_the_whole() -> None:
    told = as_table(clashing())
    places = [
        told.index(word)
        for word in ("gap mm", "case/side", "memory/module", "What to do", "boxes:")
    ]
    assert places == sorted(places)
    assert told.splitlines()[-1] == "boxes: clash (1 clash, 1 short)"
    assert told.count(" mm  need") == 1


def test_no_word_is_broken_however_long_the_names() -> None:
    told = as_table(clashing("a-rather-long-cooler"), width=80)
    words = {"a-rather-long-cooler", "memory/module", "pressing", "panel"}
    assert words <= set(told.split())


def test_names_are_text_and_never_markup() -> None:
    told = as_table(clashing("[red]:cat:[/x]"))
    assert "[red]:cat:[/x]" in told


def test_colour_only_where_asked_for(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("TERM", "xterm-256color")
    monkeypatch.delenv("NO_COLOR", raising=False)
    assert "\x1b[" not in as_table(clashing())
    assert "\x1b[" in as_table(clashing(), in_colour=True)


def test_what_is_clear_by_far_is_counted_unless_every_row_is_asked_for() -> None:
    build = panel_and_cooler(150.0)
    roomy = replace(
        build, bodies=(*build.bodies, placed("far", Role.COOLER, _FAR_FROM_THE_PANEL))
    )
    found = check(roomy)
    assert max(each.margin_mm or 0.0 for each in found.findings) >= 50.0
    assert "far" in as_table(found)
    short = as_table(found, every=False)
    assert "far \N{EN DASH} case/side panel" not in short
    assert "1 more place has 50 mm or more to spare; --all lists them." in short


_FAR_FROM_THE_PANEL = ((300.0, 350.0), (0.0, 50.0), (0.0, 40.0))


def test_nothing_to_tell_but_the_verdict() -> None:
    empty = Check(build="b", verdict=Verdict.CLEAR, findings=(), notes=())
    assert as_table(empty) == "b: clear (nothing was asked that could fail)"


def test_notes_are_told_once() -> None:
    answer = check(panel_and_cooler(100))
    noted = Check(
        build="b",
        verdict=answer.verdict,
        findings=answer.findings,
        notes=("derived from the case's limits",) * 2,
    )
    assert as_table(noted).count("derived from") == 1
