"""The developers' page names only what is there."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

ROOT = Path(__file__).parent.parent
PAGE = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
NAMED = sorted(set(re.findall(r"`((?:layout|tests)/[\w/.]+)`", PAGE)))


def test_the_page_names_files() -> None:
    assert len(NAMED) > 10


@pytest.mark.parametrize("name", NAMED)
def test_every_named_file_is_there(name: str) -> None:
    assert (ROOT / name).exists()
