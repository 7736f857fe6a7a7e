"""Specs from files, checked by what the dataclasses of the parts declare.

A part declares each field once (type, default, bounds, meaning).  The schema that
pydantic checks a file with is made from that, and its result becomes the dataclass at
once.  It is handed to pydantic's core as it is: a ``BaseModel`` for each of twenty
kinds would take as long to make as the whole check takes to answer.
"""

from __future__ import annotations

import dataclasses
import sys
from collections.abc import Callable, Collection, Mapping
from enum import Enum
from functools import cache, partial
from types import SimpleNamespace
from typing import (
    Any,
    Final,
    TypeVar,
    get_type_hints,
)

from pydantic_core import (
    CoreSchema,
    ErrorDetails,
    SchemaValidator,
    ValidationError,
    core_schema,
)
from shapely.geometry import Polygon

from layout.errors import LayoutError
from layout.files.errors import FieldError, InputError, nearest, refuse_if_any
from layout.files.numbers import figure, found, number, whole
from layout.files.outlines import SolidForm, Span, interval, outline, solid, vector
from layout.files.place import Place, Steps
from layout.files.tree import Plain, Scalar, plain
from layout.files.words import Pair, choice, flag, pair, text
from layout.geometry.solids.solid import Solid
from layout.geometry.space import Vector
from layout.parts.form.errors import PartError
from layout.parts.form.hints import Hint, Raw, each_of, named_of, sort_of, without_none
from layout.parts.form.reading import (
    MEASURED_FROM,
    Readings,
    Told,
    of,
    restated,
    word_of,
)
from layout.standards.figure import Figure

__all__ = ["Raw", "spec"]


_Spec = TypeVar("_Spec")
_LEAVES: Final[Mapping[Any, Callable[[Any], Any]]] = {
    Raw: lambda value: value,
    str: text,
    bool: flag,
    float: number,
    Vector: vector,
    Span: interval,
    Pair: pair,
    Polygon: outline,
}


def spec(kind: type[_Spec], place: Place, *, besides: tuple[str, ...] = ()) -> _Spec:
    """Return the dataclass that a mapping in a file describes.

    Parameters
    ----------
    kind : type
        The dataclass; its fields say what is allowed.
    place : Place
        Where the mapping is written.
    besides : tuple of str
        Keys that belong to the mapping but not to the dataclass.

    Raises
    ------
    InputError
        With every field that is wrong, each with its line.
    """
    node = place.node
    given = plain(node) if node is not None else {}
    if isinstance(given, dict):
        given = {key: value for key, value in given.items() if key not in besides}
    declared: Hint = kind
    try:
        checked: _Spec = _checked(declared, given)
    except ValidationError as refused:
        details = _told_once(kind, refused.errors(include_url=False))
        refuse_if_any([_error(kind, place, each) for each in details])
        raise
    return checked


def _told(kind: Hint, given: Plain) -> Told:
    """Return the readings that a mapping in a file names, as far as there are any.

    They decide between which bounds a figure must lie, so they are looked at first;
    the others are refused when the part is made.
    """
    told = given.get(word_of(MEASURED_FROM)) if isinstance(given, dict) else None
    if not isinstance(told, dict):
        return ()
    known = of(kind)
    return tuple(
        (word, name.text)
        for word, name in told.items()
        if word in known and isinstance(name, Scalar) and known[word].other(name.text)
    )


def _checked(kind: Hint, given: Plain) -> Any:  # noqa: ANN401  (a value of that kind)
    """Return the dataclass that a mapping describes, or what is wrong with it."""
    named = frozenset(given) if isinstance(given, dict) else frozenset[str]()
    return _validator(kind, named, _told(kind, given)).validate_python(given)


@cache
def _validator(kind: Hint, named: frozenset[str], told: Told) -> SchemaValidator:
    """Return what checks a dataclass of which a file names these fields.

    Most files name few of a part's many fields: the others are looked at only where
    they must be there.
    """
    readings = dict(told)
    asked = [
        each
        for each in dataclasses.fields(kind)
        if word_of(each.name) in named or _is_required(each)
    ]
    hints = _hints(kind, {each.name for each in asked})
    fields = {}
    for each in asked:
        reading = readings.get(word_of(each.name))
        declared = _bounds_in(reading, each.metadata) if reading else each.metadata
        schema = _schema(hints[each.name], declared)
        if _is_required(each) and each_of(hints[each.name]) is not None:
            schema = _then(_some, schema)
        fields[word_of(each.name)] = core_schema.typed_dict_field(
            schema, required=_is_required(each)
        )
    mapping = core_schema.typed_dict_schema(fields, extra_behavior="forbid")
    return SchemaValidator(_then(partial(_made, kind), mapping))


def _is_required(field: dataclasses.Field[Any]) -> bool:
    return (field.default, field.default_factory) == _NO_DEFAULT


def _hints(kind: Hint, names: Collection[str]) -> dict[str, Hint]:
    """Return the types of some fields: to make out those of all takes far longer."""
    hints: dict[str, Hint] = {}
    for each in kind.__mro__[::-1]:
        told = vars(each).get("__annotations__", {})
        some = SimpleNamespace(__annotations__={n: told[n] for n in told if n in names})
        hints |= get_type_hints(some, vars(sys.modules[each.__module__]))
    return hints


def _bounds_in(name: str, declared: Mapping[str, Any]) -> Mapping[str, Any]:
    """Return what a field declares, with the bounds of another of its readings."""
    readings: Readings = declared["readings"]
    reading = readings.other(name)
    if reading is None or reading.step is None:
        return declared
    more_mm = -reading.sign * reading.step.mm
    least_mm, most_mm = (declared[key] + more_mm for key in ("least_mm", "most_mm"))
    least_mm = max(0.0, least_mm)
    right = f"a length from {least_mm:g} to {most_mm:g} mm in the reading '{name}'"
    return {**declared, "least_mm": least_mm, "most_mm": most_mm, "right": right}


_UNKNOWN: Final = "extra_forbidden"
_NO_DEFAULT: Final = (dataclasses.MISSING, dataclasses.MISSING)


def _made(kind: Hint, given: dict[str, object]) -> Hint:
    """Return the dataclass with the values of a mapping; it may refuse them in turn."""
    names = {word_of(each.name): each.name for each in dataclasses.fields(kind)}
    try:
        made = kind(**{names[word]: value for word, value in given.items()})
        if getattr(made, MEASURED_FROM, ()):
            restated(made, None)
    except PartError as error:
        at = tuple(error.field.split("."))
        raise FieldError(error.found, error.right, at) from error
    except LayoutError as error:
        raise FieldError(f"what fails ({error})", "other figures") from error
    return made


def _schema(hint: Hint, declared: Mapping[str, Any]) -> CoreSchema:
    """Return how pydantic checks a field's type."""
    hint = without_none(hint)
    if hint is Solid:
        return _then(solid, _schema(SolidForm, {}))
    if isinstance(hint, type) and dataclasses.is_dataclass(hint) and hint != Figure:
        return core_schema.no_info_plain_validator_function(partial(_checked, hint))
    each = each_of(hint)
    if each is None:
        leaf = _leaf(hint, declared)
        return core_schema.no_info_plain_validator_function(leaf)
    named = named_of(each)
    if named is None:
        return _then(tuple, core_schema.list_schema(_schema(each, declared)))
    inside = _schema(named, declared)
    return _then(_pairs, core_schema.dict_schema(values_schema=inside))


def _then(make: Callable[[Any], Any], schema: CoreSchema) -> CoreSchema:
    return core_schema.no_info_after_validator_function(make, schema)


def _some(values: tuple[object, ...]) -> tuple[object, ...]:
    if not values:
        raise FieldError("none", "one or more")
    return values


def _pairs(values: dict[str, object]) -> tuple[tuple[str, object], ...]:
    return tuple(values.items())


def _leaf(hint: Hint, declared: Mapping[str, Any]) -> Callable[[Any], Any]:
    if hint in _LEAVES:
        return _LEAVES[hint]
    if hint is Figure:
        return partial(
            figure,
            least_mm=declared["least_mm"],
            most_mm=declared["most_mm"],
            right=declared.get("right"),
        )
    if hint is int:
        return partial(whole, least=declared["least"], most=declared["most"])
    if isinstance(hint, type) and issubclass(hint, Enum):
        return partial(choice, kinds=hint, among=declared.get("among"))
    raise TypeError(f"no reading of {hint} from a file")


def _told_once(kind: type, details: list[ErrorDetails]) -> list[ErrorDetails]:
    """Return the errors without missing keys that are there, but misspelt."""
    meant = {
        (*at[:-1], nearest(str(at[-1]), _known(kind, at[:-1])))
        for at in (e["loc"] for e in details if e["type"] == _UNKNOWN)
    }
    return [e for e in details if e["type"] != "missing" or e["loc"] not in meant]


def _error(kind: type, place: Place, detail: ErrorDetails) -> InputError:
    """Return what pydantic says in our words, with its line."""
    at, refused = detail["loc"], detail.get("ctx", {}).get("error")
    if isinstance(refused, FieldError):
        right = _right(kind, at) if _inside(kind, at)[0] is int else refused.right
        return _deeper(place, (*at, *refused.at)).error(refused.found, right)
    where = _deeper(place, at)
    if detail["type"] == _UNKNOWN:
        known = _known(kind, at[:-1])
        return where.error("an unknown key", nearest(str(at[-1]), known))
    right = _right(kind, at)
    if detail["type"] == "missing":
        return where.error("nothing", right)
    return where.error(found(detail["input"]), right)


def _deeper(place: Place, at: Steps) -> Place:
    for step in at:
        place = place / step
    return place


def _inside(kind: Hint, at: Steps) -> tuple[Hint, Mapping[str, Any]]:
    """Return the type that a path leads to, and what its field declares."""
    hint, declared = without_none(kind), {}
    for step in at:
        each = each_of(hint)
        if each is not None:
            hint = without_none(named_of(each) or each)
            continue
        hint = SolidForm if hint is Solid else hint
        for field in dataclasses.fields(hint):
            if word_of(field.name) == step:
                declared = dict(field.metadata)
                hint = without_none(get_type_hints(hint)[field.name])
                break
    return (SolidForm if hint is Solid else hint), declared


def _known(kind: type, at: Steps) -> tuple[str, ...]:
    inside, _ = _inside(kind, at)
    return tuple(word_of(each.name) for each in dataclasses.fields(inside))


def _right(kind: type, at: Steps) -> str:
    """Return what belongs in a field, with its meaning."""
    hint, declared = _inside(kind, at)
    meaning = f" ({declared['meaning']})" if "meaning" in declared else ""
    return f"{sort_of(hint, declared)}{meaning}"
