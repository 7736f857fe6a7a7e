"""How figures are stacked reaches every finding that has a tolerance."""

from __future__ import annotations

from pathlib import Path

import pytest

from layout.files.build_file import read_plan
from layout.questions.checking.check import check
from layout.questions.findings.finding import Verdict
from layout.questions.findings.tolerance import Stacking

CASES = Path(__file__).parents[2] / "cases"


@pytest.mark.parametrize("name", ["newsroom", "archive", "audiobook"])
def test_every_tolerance_is_stacked_as_asked(name: str) -> None:
    _, build = read_plan(CASES / f"{name}-build.yaml")
    usual, wide, worst = (
        {each.id: each for each in check(build, stacking=stacking).findings}
        for stacking in (Stacking(), Stacking(sigma=6.0), Stacking(worst_case=True))
    )
    groups = set()
    for id_, finding in usual.items():
        if not finding.tolerance_mm:
            continue
        groups.add(finding.group)
        assert wide[id_].tolerance_mm == pytest.approx(2 * finding.tolerance_mm), id_
        worst_mm = worst[id_].tolerance_mm
        assert worst_mm is not None
        assert worst_mm >= finding.tolerance_mm - 1e-9, id_
        tight = wide[id_].verdict is Verdict.TIGHT
        margin_mm = finding.margin_mm or 0.0
        if margin_mm >= 0.0:
            assert tight is (margin_mm < 2 * finding.tolerance_mm), id_
    assert {each.value for each in groups} >= {"distance", "reach"}
