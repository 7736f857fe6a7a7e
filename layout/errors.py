"""The one base of everything this package raises on purpose."""

from __future__ import annotations

__all__ = ["LayoutError"]


class LayoutError(Exception):
    """Say what was wrong with the input; the command line ends with exit code 2."""
