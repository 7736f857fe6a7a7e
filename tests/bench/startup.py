"""Compare ``case-layout check`` with importing its libraries in a bare interpreter.

The libraries are the modules of other projects that this very check has loaded when it
ends, pydantic's and rich's pieces among them.

Run as ``python -m tests.bench.startup [BUILD.yaml]``; the target is a ratio of 1.5.
"""

from __future__ import annotations

import os
import resource
import subprocess
import sys
from pathlib import Path
from statistics import median
from tempfile import TemporaryDirectory
from typing import Final

__all__ = ["TARGET", "ratio"]

TARGET: Final = 1.5

_LISTED: Final = """
import sys
from layout.cli import main
try:
    main()
finally:
    libraries = {"numpy", "pydantic", "rich", "shapely", "typer", "yaml"}
    loaded = [name for name in sys.modules if name.partition(".")[0] in libraries]
    print(*(name for name in loaded if "-" not in name), file=sys.stderr)
"""
_ROOT: Final = Path(__file__).parents[2]


def ratio(build: Path, runs: int) -> tuple[float, float, float]:
    """Return the ratio and both times in s, each the median of alternating runs.

    Runs next to each other are compared: a busy machine slows both of them alike.
    """
    bare_s, check_s = [], []
    with TemporaryDirectory() as compiled:
        # these runs also compile what an installed program has compiled already
        listed = _run(compiled, "-c", _LISTED, "check", str(build))
        libraries = "\n".join(f"import {name}" for name in listed.split())
        _run(compiled, "-m", "layout", "check", str(build))
        for _ in range(runs):
            begin = _spent_s()
            _run(compiled, "-c", libraries)
            between = _spent_s()
            _run(compiled, "-m", "layout", "check", str(build))
            check_s.append(_spent_s() - between)
            bare_s.append(between - begin)
    ratios = [check / bare for check, bare in zip(check_s, bare_s, strict=True)]
    return median(ratios), median(check_s), median(bare_s)


def _spent_s() -> float:
    """Return the processor time of all runs so far: others may use the machine too."""
    spent = resource.getrusage(resource.RUSAGE_CHILDREN)
    return spent.ru_utime + spent.ru_stime


def _run(compiled: str, *arguments: str) -> str:
    """Return what a fresh interpreter writes to standard error."""
    cached = {"PYTHONPYCACHEPREFIX": compiled, "PYTHONDONTWRITEBYTECODE": ""}
    done = subprocess.run(
        [sys.executable, *arguments],
        capture_output=True,
        check=False,
        cwd=_ROOT,
        env={**os.environ, **cached},
        text=True,
    )
    if done.returncode not in {0, 1} or "Error" in done.stderr:
        raise RuntimeError(done.stderr)
    return done.stderr


def main() -> None:
    """Print the ratio for one build; the first example without one."""
    examples = sorted((_ROOT / "cases").glob("*-build.yaml"))
    build = Path(sys.argv[1]).absolute() if sys.argv[1:] else examples[0]
    found, check_s, bare_s = ratio(build, runs=15)
    print(f"check {build.name}: {check_s:.3f} s")
    print(f"its libraries alone: {bare_s:.3f} s")
    print(f"ratio {found:.2f} (target: at most {TARGET})")


if __name__ == "__main__":
    main()
