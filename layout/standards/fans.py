"""Fans: hole spacing and thickness by frame."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from typing import Final

from layout.standards.figure import Figure, memory, secondary, seen
from layout.standards.sources import FAN_GUIDE, FAN_MODELS, FAN_NOTES, FAN_PATTERNS
from layout.values import dataclass

__all__ = ["FRAMES", "IDEAL_CLEARANCE", "SLIM_THICKNESS", "FanFrame"]

_FRAME_PLUS_MINUS_MM = 0.5
_SPACING_PLUS_MINUS_MM = 0.3


@dataclass(frozen=True, slots=True, kw_only=True)
class FanFrame:
    """A square frame's side, the spacing of its holes, and its usual thickness."""

    size: Figure
    hole_spacing: Figure
    thickness: Figure


def _frame(size_mm: tuple[float, float, float], source: str) -> FanFrame:
    """Return a frame that was seen; its plus-minus is from memory."""
    frame_mm, spacing_mm, thickness_mm = size_mm
    source = f"{source}; plus-minus from memory"
    return FanFrame(
        size=seen(frame_mm, source, _FRAME_PLUS_MINUS_MM),
        hole_spacing=seen(spacing_mm, source, _SPACING_PLUS_MINUS_MM),
        thickness=seen(thickness_mm, source, _FRAME_PLUS_MINUS_MM),
    )


def _unread(size_mm: int, spacing_mm: float, thickness: Figure) -> FanFrame:
    """Return a frame from memory."""
    return FanFrame(
        size=memory(float(size_mm), "from memory", _FRAME_PLUS_MINUS_MM),
        hole_spacing=memory(spacing_mm, "from memory", _SPACING_PLUS_MINUS_MM),
        thickness=thickness,
    )


FRAMES: Final[Mapping[int, FanFrame]] = MappingProxyType(
    {
        40: _frame((40.0, 32.0, 11.0), FAN_MODELS),
        50: _frame((50.0, 40.0, 15.0), FAN_MODELS),
        60: _frame((60.0, 50.0, 25.0), FAN_MODELS),
        70: _frame((70.0, 61.5, 15.0), FAN_MODELS),
        80: _frame((80.0, 71.5, 25.0), f"{FAN_MODELS}; {FAN_PATTERNS}"),
        92: _frame((92.0, 82.5, 25.0), FAN_PATTERNS),
        120: _frame((120.0, 105.0, 25.0), f"{FAN_MODELS}; {FAN_PATTERNS}"),
        # A public page says "usually 125"; the spacing sold is 124.5.
        140: _unread(140, 124.5, memory(25.0, "from memory", 0.5)),
        # Thickness 20 to 30, spacing 170 on some.
        200: _unread(200, 154.0, memory(25.0, "from memory", 5.0, assumed=True)),
    }
)
"""Frames by the size they are sold by."""

SLIM_THICKNESS: Final = secondary(15.0, FAN_GUIDE)
IDEAL_CLEARANCE: Final = seen(100.0, FAN_NOTES)
"""Before an inlet, for noise and flow, when the object is as large as the fan."""
