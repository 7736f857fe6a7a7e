"""Compare the examples' scenes with the stored ones; ``--accept`` stores them anew.

Run as ``python -m tests.golden [--accept]`` and review the difference.
"""

from __future__ import annotations

import sys
from pathlib import Path
from typing import Final

from tests.golden.scenes import DRAWINGS, STORED, drawn

_ACCEPT: Final = "--accept"


def main(words: list[str]) -> int:
    """Return 0 where every scene is as it is stored, or has been stored now."""
    if words not in ([], [_ACCEPT]):
        print(f"found {' '.join(words)}; {_ACCEPT} or nothing would be right")
        return 2
    now = {path: text for each in DRAWINGS for path, text in drawn(each).items()}
    gone = sorted(set(STORED.glob("*.json")) - set(now))
    other = [path for path, text in now.items() if not _same(path, text)]
    for path in (*other, *gone):
        print(path.relative_to(STORED.parents[2]))
    if words != [_ACCEPT]:
        return 1 if other or gone else 0
    STORED.mkdir(exist_ok=True)
    for path in other:
        path.write_text(now[path], encoding="utf-8")
    for path in gone:
        path.unlink()
    return 0


def _same(path: Path, text: str) -> bool:
    return path.exists() and path.read_text(encoding="utf-8") == text


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
