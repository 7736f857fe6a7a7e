from __future__ import annotations

from pathlib import Path

import pytest

from tests.bench.startup import ratio
from tests.files.builds import BLOCKS, written


def test_the_ratio_is_that_of_its_two_times(tmp_path: Path) -> None:
    found, check_s, bare_s = ratio(written(tmp_path, BLOCKS), runs=1)
    assert found == pytest.approx(check_s / bare_s)
    assert min(check_s, bare_s) > 0.05


def test_a_build_that_cannot_be_read_is_no_measurement(tmp_path: Path) -> None:
    with pytest.raises(RuntimeError, match="would be right"):
        ratio(written(tmp_path, "parts: {}"), runs=1)
