"""What the kernel refuses, each with the builtin that it refines."""

from __future__ import annotations

from layout.errors import LayoutError

__all__ = ["EmptyBodyError", "HoleError", "OutlineError", "SpanError", "TurnError"]


class OutlineError(LayoutError, ValueError):
    """An outline is empty, crosses itself, or holds a number that is not finite."""


class SpanError(LayoutError, ValueError):
    """The two outlines of a solid do not cover the same stretch of depth."""


class EmptyBodyError(LayoutError, ValueError):
    """A body has no solid, or its solids enclose nothing."""


class HoleError(LayoutError, ValueError):
    """A hole is narrower than the screw that is to pass it."""


class TurnError(LayoutError, ValueError):
    """A turn that there is not, or that two outlines cannot tell."""
