"""Programs from outside that some tests need: found, or the test is skipped by name.

``.ci/run`` sets CASE_LAYOUT_EVERY_CHECK, and then a missing program is a failure.
"""

from __future__ import annotations

import os
import shutil

import pytest

__all__ = ["needed"]


def needed(program: str, package: str) -> str:
    """Return the program's path; ``package`` is Debian's name of what holds it."""
    path = shutil.which(program)
    if path is None:
        told = f"{program} is not installed: apt-get install {package}"
        if os.environ.get("CASE_LAYOUT_EVERY_CHECK"):
            pytest.fail(told)
        pytest.skip(told)
    return path
