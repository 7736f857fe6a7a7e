"""Text to numbers and lengths, with nothing guessed: ``010`` and ``1:30`` are refused.

A length is a bare number of mm, or has its unit; it may say its plus-minus, and that
it was taped; a one-sided plus-minus is centred::

    165    165 mm    6.5 in    6.5"    16.5 cm    210 taped    165 +- 0.5    165 ± 0.5
    36 +0 -0.1    36 +0/-0.1
"""

from __future__ import annotations

import math
import re
from collections.abc import Callable
from typing import Final

from layout.files.errors import FieldError, shown
from layout.files.tree import Scalar
from layout.standards.figure import Figure, Standing, given
from layout.standards.tolerances import TAPED_PLUS_MINUS_MM
from layout.standards.units import MM_PER, MM_PER_INCH
from layout.values import dataclass

__all__ = ["LARGEST_MM", "figure", "found", "length_mm", "number", "whole"]

LARGEST_MM: Final = 1e9
"""Beyond this a double no longer tells two places 1e-6 mm apart."""

_UNITS_MM: Final = {
    **MM_PER,
    "inch": MM_PER_INCH,
    "inches": MM_PER_INCH,
    '"': MM_PER_INCH,
    "″": MM_PER_INCH,
}
_SIZE = r"(?:[0-9]+(?:\.[0-9]*)?|\.[0-9]+)"
_NUMBER = rf"[+-]?{_SIZE}(?:[eE][+-]?[0-9]+)?"
_UNIT = "|".join(sorted(map(re.escape, _UNITS_MM), key=len, reverse=True))
_POWER = re.compile(rf"[+-]?{_SIZE}[eE][+-]?[0-9]+")
_PLAIN = re.compile(_NUMBER)
_LEADING_ZERO = re.compile(r"[+-]?0[0-9_]+")
_LENGTH = re.compile(
    rf"(?P<value>{_NUMBER})\s*(?P<unit>{_UNIT})?"
    rf"(?:\s*(?:\+-|\+/-|±)\s*(?P<scatter>{_NUMBER})\s*(?P<scatter_unit>{_UNIT})?"
    rf"|\s*\+\s*(?P<over>{_SIZE})\s*/?\s*[-\N{{MINUS SIGN}}]\s*"
    rf"(?P<under>{_SIZE})\s*(?P<sides_unit>{_UNIT})?)?"
    r"(?:\s+(?P<taped>taped))?"
)


def found(value: object) -> str:
    """Return what a value is, for a message."""
    if isinstance(value, dict):
        return "a mapping"
    if isinstance(value, list):
        return "a list"
    if isinstance(value, Scalar):
        return "nothing" if value.empty else shown(value.text)
    return shown(str(value))


def number(value: object, right: str = "a number") -> float:
    """Return a finite number.

    Raises
    ------
    FieldError
        If it is anything else, or one that YAML readers disagree about.
    """
    text = _text(value, right)
    if _PLAIN.fullmatch(text) is None or _LEADING_ZERO.match(text):
        raise FieldError(*_trap(text, right))
    return _finite(text, right)


def whole(value: object, *, least: int, most: int) -> int:
    """Return a whole number within bounds."""
    right = f"a whole number from {least} to {most}"
    exact = number(value, right)
    _plainly(_text(value, right), right)
    if exact != int(exact) or not least <= exact <= most:
        raise FieldError(found(value), right)
    return int(exact)


def length_mm(value: object, right: str = "a length") -> float:
    """Return a length in mm that may have its unit, any finite size.

    Coordinates of outlines are written by programs, which write 1e-05.
    """
    ends = {"least_mm": -LARGEST_MM, "most_mm": LARGEST_MM}
    return figure(value, right=right, powers=True, **ends).mm


def figure(
    value: object,
    *,
    least_mm: float,
    most_mm: float,
    right: str | None = None,
    powers: bool = False,
) -> Figure:
    """Return a length with its plus-minus and standing.

    ``powers`` reads powers of ten, too, such as 1e-05.

    Raises
    ------
    FieldError
        If it is no length, or outside the bounds; where it reads like inches
        without their unit the message says how to write them.
    """
    right = right or f"a length from {least_mm:g} to {most_mm:g} mm"
    text = _text(value, right)
    parts = _LENGTH.fullmatch(text.strip())
    if parts is None or _LEADING_ZERO.match(text):
        raise FieldError(*_trap(text, right))
    if not powers:
        _plainly(text, right)
    unit = parts["unit"] or parts["scatter_unit"] or parts["sides_unit"]
    centre_mm, sides_mm = _centred(parts, unit, right)
    mm = _finite(parts["value"], right) * _UNITS_MM[unit or "mm"] + centre_mm
    if not least_mm <= mm <= most_mm:
        if unit is None and least_mm <= mm * MM_PER_INCH <= most_mm:
            right = f"'{parts['value']} in' (if these are inches) or {right}"
        raise FieldError(_shown_mm(text, mm, unit), right)
    scatter_mm = _scatter_mm(parts, unit, right)
    if parts["taped"]:
        scatter_mm = sides_mm if scatter_mm is None else scatter_mm
        return Figure(
            mm=mm,
            plus_minus_mm=TAPED_PLUS_MINUS_MM if scatter_mm is None else scatter_mm,
            standing=Standing.TAPED,
            source="taped, given in the file",
        )
    if sides_mm is not None:
        return Figure(
            mm=mm,
            plus_minus_mm=sides_mm,
            standing=Standing.GIVEN,
            source=f"given in the file as {text.strip()}, centred",
        )
    return given(mm, scatter_mm)


def _centred(
    parts: re.Match[str], unit: str | None, right: str
) -> tuple[float, float | None]:
    """Return by how much a one-sided plus-minus moves its figure, and half its width.

    Gaps are stacked about the middle of what is allowed: 36 +0 -0.1 is 35.95 ± 0.05
    (mevirtuoso.com, tolerance analysis, RSS and worst case).
    """
    if parts["over"] is None:
        return 0.0, None
    scale = _UNITS_MM[parts["sides_unit"] or unit or "mm"]
    over, under = (_finite(parts[side], right) * scale for side in ("over", "under"))
    return (over - under) / 2, (over + under) / 2


def _scatter_mm(parts: re.Match[str], unit: str | None, right: str) -> float | None:
    if parts["scatter"] is None:
        return None
    scatter = _finite(parts["scatter"], right)
    if scatter < 0:
        raise FieldError(f"a plus-minus of {parts['scatter']}", "0 or more")
    return scatter * _UNITS_MM[parts["scatter_unit"] or unit or "mm"]


def _shown_mm(text: str, mm: float, unit: str | None) -> str:
    if unit is None:
        return f"{shown(text)} mm" if _PLAIN.fullmatch(text) else shown(text)
    return shown(text) if unit == "mm" else f"{shown(text)} ({mm:g} mm)"


def _plainly(text: str, right: str) -> None:
    """Refuse a power of ten: no data sheet writes one, and YAML readers disagree.

    YAML 1.1 reads 1e2 as text, YAML 1.2 as 100.
    """
    if (power := _POWER.search(text)) is not None:
        written = power[0]
        mm = _finite(written, right)
        plain = f"{mm:.12g}"
        better = f"{plain} (written out), or {right}" if "e" not in plain else right
        raise FieldError(f"{shown(text)}, a power of ten", better)


def _text(value: object, right: str) -> str:
    """Return the text of a value that is not empty, a list or a mapping."""
    if not isinstance(value, Scalar) or value.empty:
        raise FieldError(found(value), right)
    return value.text


def _finite(text: str, right: str) -> float:
    value = float(text)
    if not math.isfinite(value):
        raise FieldError(f"{shown(text)}, which is too large for a number", right)
    return value


def _trap(text: str, right: str) -> tuple[str, str]:
    """Return what was found instead of a number, and what would be right."""
    for trap in _TRAPS:
        if re.fullmatch(trap.pattern, text, re.IGNORECASE):
            return f"{shown(text)}{trap.found}", trap.right(text) or right
    return shown(text), right


def _nothing_better(_: str) -> str:
    return ""


@dataclass(frozen=True, slots=True)
class _Trap:
    """Text that some readers take for a number, or for another one than was meant."""

    pattern: str
    found: str = ""
    right: Callable[[str], str] = _nothing_better


_TRAPS: Final = (
    _Trap(
        r"[+-]?0[0-9]{1,20}",
        ", which some programs read as octal",
        lambda text: str(int(text)),
    ),
    _Trap(
        r"[+-]?[0-9]+,[0-9]+",
        right=lambda text: f"{text.replace(',', '.')} (a decimal point)",
    ),
    _Trap(
        r"[+-]?[0-9]+(_[0-9]+)+(\.[0-9]*)?",
        right=lambda text: f"{text.replace('_', '')} (no underscores)",
    ),
    _Trap(r"[0-9]+(:[0-9]+)+", ", which reads like a time"),
    _Trap(r"[+-]?\.?(nan|inf|infinity)", ", which is no finite number"),
    _Trap(r"yes|no|true|false|on|off|y|n", ", which is a yes or no"),
)
