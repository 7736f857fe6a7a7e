from __future__ import annotations

from pathlib import Path

from layout.build.remade import Remaker
from layout.files.build_file import read_plan
from layout.questions.bends.cables import Cables
from layout.questions.checking.check import check
from layout.questions.findings.finding import Verdict
from layout.questions.mending.sizes import Size, Sizes

_SURVEY = Path(__file__).parents[3] / "cases" / "survey-build.yaml"


def _told() -> list[Size]:
    """Return the sizes to look for where a card meets the front radiator's fan."""
    plan, build = read_plan(_SURVEY)
    clash = next(e for e in check(build).findings if e.verdict is Verdict.CLASH)
    specs = {each.key: each.spec for each in plan.entries}
    keys = [(key, specs[key]) for key in clash.parts]
    return list(Sizes(Remaker.of(plan), Cables()).smaller(clash, keys))


def test_the_least_change_comes_first() -> None:
    shares = [1.0 - mm / each.now_mm for _, each, mm in _told()]
    assert shares == sorted(shares)


def test_a_part_of_less_than_half_the_figure_is_not_looked_for() -> None:
    # a card under 16 mm high would pass below the fan, and nobody sells one
    told = [(each.name, mm / each.now_mm) for _, each, mm in _told()]
    assert told
    assert min(share for _, share in told) >= 0.5
