"""What a figure is measured from: its usual reading, and the others by name.

A reading belongs to a field and is declared there.  Where a part says that a figure is
given in another one, the figure is restated in its usual reading when the part is
made for its seat: what lies between the two is subtracted or added, and its scatter
joins the figure's.
"""

from __future__ import annotations

import dataclasses
from collections.abc import Callable, Iterator, Mapping
from functools import cache
from typing import Any, TypeAlias, TypeVar

from layout.parts.form.errors import PartError
from layout.parts.form.form import Seat
from layout.standards.figure import Figure, Restated
from layout.values import dataclass

__all__ = [
    "MEASURED_FROM",
    "Reading",
    "Readings",
    "Told",
    "as_given",
    "checked",
    "of",
    "restated",
    "usual",
    "word_of",
]

Told: TypeAlias = tuple[tuple[str, str], ...]
"""Field and reading, in words, of each figure that is not given in its usual one."""

MEASURED_FROM = "measured_from"
"""Name of the field in which a part says so."""

_Spec = TypeVar("_Spec")
Found: TypeAlias = Callable[[Any, Seat | None], Figure | None]


def _nothing(spec: object, seat: Seat | None) -> None:
    del spec, seat


@dataclass(frozen=True, slots=True, kw_only=True)
class Reading:
    """One way in which the trade measures a figure, beside its usual one.

    Parameters
    ----------
    name : str
        The word that files use.
    meaning : str
        From what to what.
    step : Figure or None
        What usually lies between this reading and the usual one; None for what is
        counted, not measured.
    sign : int
        1 where the step is added to give the usual reading, -1 where it is taken off.
    between : str
        What the step is called; default: from this reading.
    found : callable
        Returns the step of one part on its seat, where it is known there; the seat
        is None while the part has none.
    """

    name: str
    meaning: str
    step: Figure | None = None
    sign: int = -1
    between: str = ""
    found: Found = _nothing

    def usual_of(self, figure: Figure, spec: object, seat: Seat | None) -> Figure:
        """Return a figure of this reading in the usual one."""
        step = self.found(spec, seat) or self.step
        if step is None:
            raise TypeError(f"nothing lies between {self.name} and the usual reading")
        return dataclasses.replace(
            figure,
            mm=figure.mm + self.sign * step.mm,
            assumed=figure.assumed or step.assumed,
            restated=Restated(
                mm=figure.mm,
                reading=self.name,
                step=step,
                sign=self.sign,
                between=self.between or f"from the {self.name}",
                assumed=figure.assumed,
            ),
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Readings:
    """The usual reading of a figure, and the others.

    ``plus_minus_mm`` is what the usual reading leaves open where a data sheet states
    no plus-minus: makers do not all mean the same two points.
    """

    usual: str
    others: tuple[Reading, ...] = ()
    plus_minus_mm: float | None = None

    def of_usual(self, figure: Figure) -> Figure:
        """Return a figure that no file gave, which is one of the usual reading."""
        return (
            figure
            if figure.reading
            else dataclasses.replace(figure, reading=self.usual)
        )

    @property
    def names(self) -> tuple[str, ...]:
        """Return all names, the usual one first."""
        return (self.usual, *(each.name for each in self.others))

    def other(self, name: str) -> Reading | None:
        """Return the reading of this name; None for the usual one or none at all."""
        return next((each for each in self.others if each.name == name), None)

    def explaining(
        self, figure: Figure, off_mm: float, *, within_mm: float
    ) -> str | None:
        """Return the reading in which a figure would agree with another one.

        Parameters
        ----------
        figure : Figure
            In the usual reading, restated or not.
        off_mm : float
            By how much the other figure is larger.
        within_mm : float
            Up to which difference two figures agree.
        """
        given_mm = figure.restated.mm if figure.restated else figure.mm
        was = figure.restated.reading if figure.restated else self.usual
        meant_mm = {self.usual: given_mm} | {
            each.name: given_mm + each.sign * each.step.mm
            for each in self.others
            if each.step
        }
        fits = {
            name: abs(figure.mm + off_mm - mm)
            for name, mm in meant_mm.items()
            if name != was
        }
        best = min(fits, key=fits.__getitem__, default=None)
        return best if best is not None and fits[best] <= within_mm else None


def word_of(name: str) -> str:
    """Return a field's name as files write it.

    Examples
    --------
    >>> word_of("room_over_memory"), word_of("at_mm")
    ('room over memory', 'at')
    """
    return name.removesuffix("_mm").replace("_", " ")


def of(kind: Any) -> Mapping[str, Readings]:  # noqa: ANN401  (a dataclass or its type)
    """Return the readings of a kind's figures, by the field's word in files."""
    return _of_type(kind if isinstance(kind, type) else type(kind))


@cache
def _of_type(kind: type) -> Mapping[str, Readings]:
    if not dataclasses.is_dataclass(kind):
        return {}
    return {
        word_of(each.name): each.metadata["readings"]
        for each in dataclasses.fields(kind)
        if "readings" in each.metadata
    }


def restated(spec: _Spec, seat: Seat | None) -> _Spec:
    """Return a part with every figure in its usual reading, which it then bears.

    Parameters
    ----------
    spec : dataclass
        A part, a case, or what either of them is described by.
    seat : Seat or None
        The seat the part is made for; None before it has one.

    Raises
    ------
    PartError
        If a figure has no such reading, or the reading does not go with the part.
    """
    declared: Any = spec
    told = checked(declared)
    changes: dict[str, Any] = dict(_changes(declared, told, seat))
    if told:
        changes[MEASURED_FROM] = ()
    return dataclasses.replace(declared, **changes) if changes else spec


def as_given(figure: Figure) -> str:
    """Return a figure as it was given, with its reading where that is unusual.

    Examples
    --------
    >>> from layout.standards.figure import given
    >>> as_given(given(164.0))
    '164'
    """
    if figure.restated is None:
        return f"{figure.mm:g}"
    return f"{figure.restated.mm:g} ({figure.restated.reading})"


def usual(spec: Any, name: str) -> Figure | None:  # noqa: ANN401  (any dataclass)
    """Return one figure of a part without a seat, in its usual reading."""
    told, figure, word = checked(spec), getattr(spec, name), word_of(name)
    known = of(spec).get(word)
    if known is None or not isinstance(figure, Figure):
        return None
    reading = known.other(told.get(word, ""))
    return _usual(figure, known, reading, spec=spec, seat=None)


def checked(spec: Any) -> dict[str, str]:  # noqa: ANN401  (any dataclass)
    """Return the readings a part names; refuse one of a figure that has it not."""
    told, known = dict(getattr(spec, MEASURED_FROM, ())), of(spec)
    for field, name in told.items():
        if field not in known:
            raise PartError(
                field="measured from",
                found=f"a reading of {field}",
                right=f"one of {', '.join(w for w, r in known.items() if r.others)}",
            )
        if name not in known[field].names:
            raise PartError(
                field=f"measured from.{field}",
                found=name,
                right=f"one of {', '.join(known[field].names)}",
            )
    if told:
        _check_given(spec, told)
    return told


def _check_given(spec: Any, told: dict[str, str]) -> None:  # noqa: ANN401  (any dataclass)
    """Refuse a reading of a figure that the file leaves to its default."""
    for each in dataclasses.fields(spec):
        field, value = word_of(each.name), getattr(spec, each.name)
        # a default is told in the usual reading, whatever the file says
        defaulted = isinstance(value, Figure) and value is each.default
        if field in told and (value is None or defaulted):
            raise PartError(
                field=f"measured from.{field}",
                found=f"a reading of a {field} that is not given",
                right=f"'{field}' beside it",
            )


def _changes(
    spec: Any,  # noqa: ANN401  (any dataclass)
    told: dict[str, str],
    seat: Seat | None,
) -> Iterator[tuple[str, object]]:
    """Yield the fields that hold a figure with readings, in the usual one."""
    known = of(spec)
    for each in dataclasses.fields(spec):
        value = getattr(spec, each.name)
        if isinstance(value, Figure) and (word := word_of(each.name)) in known:
            reading = known[word].other(told.get(word, ""))
            yield each.name, _usual(value, known[word], reading, spec=spec, seat=seat)
        elif _has_readings(value):
            yield each.name, restated(value, seat)
        elif isinstance(value, tuple) and any(map(_has_readings, value)):
            yield each.name, tuple(restated(one, seat) for one in value)


def _has_readings(value: object) -> bool:
    return bool(of(value))


def _usual(
    figure: Figure,
    readings: Readings,
    reading: Reading | None,
    *,
    spec: object,
    seat: Seat | None,
) -> Figure:
    known_mm = figure.plus_minus_mm
    if reading is None and known_mm is None:
        known_mm = readings.plus_minus_mm
    borne = dataclasses.replace(figure, reading=readings.usual, plus_minus_mm=known_mm)
    return borne if reading is None else reading.usual_of(borne, spec, seat)
