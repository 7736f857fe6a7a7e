"""Value types behave as the standard frozen dataclasses do."""

from __future__ import annotations

import copy
import dataclasses
import pickle
from collections.abc import Callable
from dataclasses import field
from functools import cached_property
from typing import Any

import pytest

from layout import values

Decorator = Callable[..., Callable[[type], Any]]


def _pairs(decorator: Decorator) -> dict[str, Any]:
    """Return classes of every form, made by one decorator."""

    @decorator(frozen=True, slots=True)
    class Plain:
        """Two fields."""

        a: int
        b: str = "x"

    @decorator(frozen=True, slots=True, kw_only=True)
    class Named:
        """Fields by name alone, one of them not compared, one not shown."""

        a: int
        b: list[int] = field(default_factory=list)
        c: float = field(default=1.0, compare=False)
        d: float = field(default=2.0, repr=False)

    @decorator(frozen=True, slots=True)
    class Derived:
        """A field that is worked out, and one with a default not asked for."""

        a: int
        twice: int = field(init=False, compare=False)
        three: int = field(init=False, default=3)
        many: tuple[int, ...] = field(init=False, default_factory=tuple)

        def __post_init__(self) -> None:
            object.__setattr__(self, "twice", 2 * self.a)

    @decorator(frozen=True, eq=False)
    class Itself:
        """Equal to itself alone; keeps what it has worked out."""

        a: int = 0

        @cached_property
        def twice(self) -> int:
            return 2 * self.a

    @decorator(frozen=True, slots=True)
    class Empty:
        """No field."""

    return {each.__name__: each for each in (Plain, Named, Derived, Itself, Empty)}


OURS, THEIRS = _pairs(values.dataclass), _pairs(dataclasses.dataclass)
CALLS: list[tuple[str, tuple[Any, ...], dict[str, Any]]] = [
    ("Plain", (1,), {}),
    ("Plain", (1, "y"), {}),
    ("Plain", (), {"b": "z", "a": 2}),
    ("Plain", (), {}),
    ("Plain", (1, "y", 3), {}),
    ("Plain", (1,), {"c": 3}),
    ("Named", (), {"a": 1}),
    ("Named", (), {"a": 1, "b": [4], "c": 9.0, "d": 8.0}),
    ("Named", (1,), {}),
    ("Derived", (4,), {}),
    ("Derived", (4,), {"three": 5}),
    ("Itself", (), {}),
    ("Itself", (3,), {}),
    ("Empty", (), {}),
]


def _told(made: Callable[..., Any], call: Callable[[Any], object]) -> object:
    """Return what a call tells, or the sort of error that it raises."""
    try:
        return call(made())
    except (TypeError, AttributeError, ValueError) as error:
        return type(error)


def _names(value: Any) -> list[str]:  # noqa: ANN401  # any value type
    return [each.name for each in dataclasses.fields(value)]


def _set_all(value: object) -> None:
    for name in _names(value):
        setattr(value, name, 1)


def _delete_all(value: object) -> None:
    for name in _names(value):
        delattr(value, name)


ASKED: dict[str, Callable[[Any], object]] = {
    "repr": repr,
    "fields": _names,
    "as a dict": dataclasses.asdict,
    "match": lambda value: type(value).__match_args__,
    "slots": lambda value: getattr(type(value), "__slots__", None),
    "set": _set_all,
    "delete": _delete_all,
    "hash": lambda value: hash(value) == hash(copy.copy(value)),
    "copy": lambda value: copy.copy(value) == value,
    "deep copy": lambda value: repr(copy.deepcopy(value)),
    "replaced": lambda value: repr(dataclasses.replace(value, a=7)),
    "equal to another sort": lambda value: value == 1,
}


@pytest.mark.parametrize("asked", ASKED)
@pytest.mark.parametrize("call", CALLS, ids=str)
def test_tells_what_the_standard_one_tells(
    call: tuple[str, tuple[Any, ...], dict[str, Any]], asked: str
) -> None:
    name, plain, named = call
    ours, theirs = (
        _told(lambda made=made: made[name](*plain, **named), ASKED[asked])
        for made in (OURS, THEIRS)
    )
    assert ours == theirs


@pytest.mark.parametrize("call", CALLS, ids=str)
def test_is_made_alike_whether_made_seldom_or_often(
    call: tuple[str, tuple[Any, ...], dict[str, Any]],
) -> None:
    name, plain, named = call
    made = _pairs(values.dataclass)[name]
    told = {str(_told(lambda: made(*plain, **named), repr)) for _ in range(100)}
    assert told == {str(_told(lambda: THEIRS[name](*plain, **named), repr))}


def test_equal_where_what_is_compared_is_equal() -> None:
    plain, named = OURS["Plain"], OURS["Named"]
    assert plain(1) == plain(1, "x")
    assert plain(1) != plain(2)
    assert hash(plain(1)) == hash(plain(1, "x"))
    assert named(a=1, c=5.0) == named(a=1, c=6.0)
    assert named(a=1, d=5.0) != named(a=1, d=6.0)
    assert plain(1) != OURS["Empty"]()
    assert OURS["Itself"](1) != OURS["Itself"](1)
    assert OURS["Itself"](4).twice == 8


def test_takes_no_other_attribute() -> None:
    with pytest.raises(dataclasses.FrozenInstanceError, match="'other'"):
        OURS["Plain"](1).other = 2


def test_a_factory_makes_a_new_value_each_time() -> None:
    named = OURS["Named"]
    assert named(a=1).b is not named(a=1).b


@values.dataclass(frozen=True, slots=True)
class Pickled:
    """A class that can be found by its name."""

    a: int
    b: tuple[int, ...] = ()


def test_comes_back_from_a_pickle() -> None:
    value = Pickled(1, (2, 3))
    assert pickle.loads(pickle.dumps(value)) == value  # noqa: S301  # our own bytes


def test_what_may_change_keeps_what_it_is_set_to_and_equals_itself_alone() -> None:
    @values.dataclass(frozen=False, eq=False, slots=True)
    class Changing:
        a: int
        b: list[int] = field(default_factory=list)

    one, other = Changing(1), Changing(1)
    one.a = 2
    one.b.append(3)
    assert repr(one).endswith("Changing(a=2, b=[3])")
    assert (other.a, other.b) == (1, [])
    assert one == one  # noqa: PLR0124  # that is what is asked
    assert other != Changing(1)


def test_what_may_change_is_not_compared_field_by_field() -> None:
    with pytest.raises(TypeError, match="eq=False"):
        values.dataclass(frozen=False)
