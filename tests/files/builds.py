"""Files for the reader's and the command line's own tests."""

from __future__ import annotations

from pathlib import Path

__all__ = ["BLOCKS", "written"]

BLOCKS = """\
name: two blocks and a bracket
parts:
  bracket:
    kind: block
    at: [120, 40, 0]
    solids:
      - {side: [[0, 0], [60, 0], [60, 25], [0, 40]], z: [0, 30]}
      - {top: [[0, 0], [60, 0], [60, 30], [0, 10]], y: [0, 25]}
  near:
    kind: block
    at: [170, 40, 0]
    solids:
      - {side: [[0, 0], [60, 0], [60, 25], [0, 40]], z: [0, 30]}
  far:
    kind: block
    at: [270, 40, 0]
    solids:
      - {side: [[0, 0], [60, 0], [60, 25], [0, 40]], z: [0, 30]}
"""
"""The bracket reaches 10 mm into the near block; the far one stands 40 mm off."""


def written(folder: Path, text: str, name: str = "build.yaml") -> Path:
    """Return the path of a new file with this text."""
    path = folder / name
    path.write_text(text, encoding="utf-8")
    return path
