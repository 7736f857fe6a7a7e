"""Compare ``case-layout check`` with importing its libraries in a bare interpreter.

The libraries are those that check itself loads, pydantic's parts by name, since
pydantic (and typer when it runs) loads them only then.

Run as ``python -m tests.bench.startup [BUILD.yaml]``; the target is a ratio of 1.5.
"""

from __future__ import annotations

import subprocess
import sys
import time
from pathlib import Path
from typing import Final

__all__ = ["TARGET", "ratio"]

TARGET: Final = 1.5

_LIBRARIES: Final = """
import numpy, shapely.geometry, yaml, typer, rich.console, rich.table, rich.text
from pydantic import AfterValidator, BaseModel, PlainValidator, TypeAdapter, create_model
"""
_CASES: Final = Path(__file__).parents[2] / "cases"


def ratio(build: Path, runs: int) -> tuple[float, float, float]:
    """Return the ratio and both times in s, each the least of alternating runs."""
    bare, check = [], []
    for _ in range(runs):
        bare.append(_seconds("-c", _LIBRARIES))
        check.append(_seconds("-m", "layout", "check", str(build)))
    return min(check) / min(bare), min(check), min(bare)


def _seconds(*arguments: str) -> float:
    begin = time.perf_counter()
    done = subprocess.run(
        [sys.executable, *arguments], capture_output=True, check=False
    )
    seconds = time.perf_counter() - begin
    if done.returncode not in {0, 1}:
        raise RuntimeError(done.stderr.decode())
    return seconds


def main() -> None:
    """Print the ratio for one build; the first example without one."""
    examples = sorted(_CASES.glob("*-build.yaml"))
    build = Path(sys.argv[1]) if sys.argv[1:] else examples[0]
    found, check_s, bare_s = ratio(build, runs=9)
    print(f"check {build.name}: {check_s:.3f} s")
    print(f"its libraries alone: {bare_s:.3f} s")
    print(f"ratio {found:.2f} (target: at most {TARGET})")


if __name__ == "__main__":
    main()
