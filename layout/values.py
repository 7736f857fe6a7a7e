"""Value types, made several times faster than the standard decorator makes them.

The standard one compiles six methods for each class, one after the other, in every run:
with two hundred value types that is most of the start-up.  Here they share the methods
that need no code of their own, and one is compiled for each that is made often:
``__init__``.  Of most types a run makes a few values, and those are filled field by
field.  Fields, slots, ``replace``, ``match`` and the rest are those of
:mod:`dataclasses` itself.
"""

from __future__ import annotations

import dataclasses
from collections.abc import Callable, Iterable, Iterator
from itertools import chain
from operator import attrgetter
from typing import (
    TYPE_CHECKING,
    Any,
    ClassVar,
    Final,
    Protocol,
    TypeAlias,
    TypeVar,
    cast,
)

__all__ = ["dataclass"]

_Made = TypeVar("_Made", bound=type)
_LeftOut: TypeAlias = tuple[
    list[tuple[str, object]], list[tuple[str, Callable[[], object]]]
]
"""What fields that a call does not give are then, and what makes it."""

if TYPE_CHECKING:
    from dataclasses import dataclass

    from _typeshed import DataclassInstance
else:

    def dataclass(
        *, frozen: bool, slots: bool = False, kw_only: bool = False, eq: bool = True
    ) -> Callable[[_Made], _Made]:
        """Make a class a dataclass; the options are those of the standard one.

        Notes
        -----
        A field's ``hash`` is not looked at: what is compared is hashed.

        Raises
        ------
        TypeError
            If what may change is to be compared: the standard decorator makes that.
        """
        if eq and not frozen:
            raise TypeError("what may change is not compared here: eq=False")

        def made(cls: _Made) -> _Made:
            done = _fields(cls, slots=slots, kw_only=kw_only)
            return _with(_methods(done, frozen=frozen, eq=eq), done)

        return made


_NO_FIELDS: Final = ("ClassVar", "InitVar", "KW_ONLY")
"""Annotations that name what is no field."""


def _fields(cls: _Made, *, slots: bool, kw_only: bool) -> _Made:
    """Return the class with fields and slots, and no method yet."""
    made = dataclasses.dataclass(
        init=False, repr=False, eq=False, slots=slots, kw_only=kw_only
    )
    # the standard one writes the signature of a class that says nothing of itself
    cls.__doc__ = cls.__doc__ or cls.__name__
    told = vars(cls).get("__annotations__", {})
    if any(name in str(kind) for kind in told.values() for name in _NO_FIELDS):
        return cast("_Made", made(cls))
    # that no annotation names what is no field need not be found out one by one
    cls.__annotations__ = dict.fromkeys(told, object)
    done = cast("_Made", made(cls))
    done.__annotations__ = told
    for each in dataclasses.fields(done):
        each.type = told.get(each.name, each.type)
    return done


def _methods(cls: type, *, frozen: bool, eq: bool) -> dict[str, Any]:
    """Return ``__init__`` and the methods that all share."""
    methods: dict[str, Any] = {"__init__": _init_until_often(cls), "__repr__": _repr}
    if frozen:
        methods |= {"__setattr__": _refuse_to_set, "__delattr__": _refuse_to_delete}
    if hasattr(cls, "__slots__"):
        methods |= {"__getstate__": _state, "__setstate__": _set_state}
    if eq:
        methods |= {"__eq__": _equal, "__hash__": _hash, "__key__": _key(cls)}
    return methods


def _with(methods: dict[str, Any], cls: _Made) -> _Made:
    for name, method in methods.items():
        if name not in vars(cls):  # its own one counts
            setattr(cls, name, method)
    return cls


_UNSAID = dataclasses.MISSING
_set = object.__setattr__

_OFTEN = 60
"""To compile an ``__init__`` takes about as long as filling so many values."""


def _init_until_often(cls: type) -> Callable[..., None]:
    """Return an ``__init__`` that fills fields one by one, and a compiled one later.

    The compiled one takes its place for good when it has been called often, or with
    what it does not take: then that one tells what is wrong.
    """
    calls = 0
    filled: Callable[..., bool] | None = None

    def __init__(self: object, *values: Any, **named: Any) -> None:  # noqa: ANN401, N807
        nonlocal calls, filled
        calls += 1
        if filled is None:
            filled = _filling(cls)
        if calls < _OFTEN and filled(self, values, named):
            return
        compiled = _init(cls)
        setattr(cls, "__init__", compiled)  # noqa: B010  # mypy takes it for unsound
        compiled(self, *values, **named)

    return __init__


def _filling(cls: type) -> Callable[..., bool]:
    """Return what fills a value's fields and tells whether it was given what they take.

    What a call leaves out is found out once for all that give the same fields.
    """
    fields = dataclasses.fields(cls)
    in_order = tuple(each.name for each in fields if each.init and not each.kw_only)
    settles = hasattr(cls, "__post_init__")
    known: dict[tuple[int, tuple[str, ...]], _LeftOut | None] = {}

    def filled(self: object, values: tuple[Any, ...], named: dict[str, Any]) -> bool:
        given = (len(values), tuple(named))
        if given not in known:
            known[given] = _left_out(fields, *given)
        left_out = known[given]
        if left_out is None:
            return False
        usual, made = left_out
        in_turn = zip(in_order, values, strict=False)
        for name, value in chain(in_turn, named.items(), usual):
            _set(self, name, value)
        for name, make in made:
            _set(self, name, make())
        if settles:
            cast("_Settling", self).__post_init__()
        return True

    return filled


def _left_out(
    fields: Iterable[dataclasses.Field[Any]],
    count: int,
    named: tuple[str, ...],
) -> _LeftOut | None:
    """Return what a call leaves out, or None where it gives what no field takes.

    The call gives so many values in order, and others by name.
    """
    taken = {each.name: each.kw_only for each in fields if each.init}
    in_order = [name for name, only_by_name in taken.items() if not only_by_name]
    told = (*in_order[:count], *named)
    left = [each for each in fields if each.name not in told]
    usual = [(each.name, each.default) for each in left if each.default is not _UNSAID]
    made = [
        (each.name, each.default_factory)
        for each in left
        if each.default_factory is not _UNSAID
    ]
    wanting = taken.keys() - {*told, *dict(usual), *dict(made)}
    if wanting or len({*told}) < count + len(named) or not taken.keys() >= {*told}:
        return None
    return usual, made


class _Settling(Protocol):
    def __post_init__(self) -> None: ...


def _init(cls: type) -> Callable[..., None]:
    """Compile ``__init__``: the one method that differs from class to class."""
    given: dict[str, Any] = {"set_": object.__setattr__, "none_": dataclasses.MISSING}
    for each in dataclasses.fields(cls):
        given[f"default_{each.name}"] = each.default
        given[f"factory_{each.name}"] = each.default_factory
    fields = [each for each in dataclasses.fields(cls) if each.init]
    by_name = [_parameter(each) for each in fields if each.kw_only]
    head = ["self", *(_parameter(each) for each in fields if not each.kw_only)]
    head += ["*", *by_name] if by_name else []
    body = [*_assignments(cls)]
    if hasattr(cls, "__post_init__"):
        body.append("self.__post_init__()")
    lines = "\n ".join(body or ["pass"])
    source = f"def __init__({', '.join(head)}):\n {lines}"
    exec(source, given)  # noqa: S102  # names of fields, as the standard one does
    init: Callable[..., None] = given["__init__"]
    init.__qualname__ = f"{cls.__qualname__}.__init__"
    return init


def _parameter(field: dataclasses.Field[Any]) -> str:
    if field.default is not dataclasses.MISSING:
        return f"{field.name}=default_{field.name}"
    if field.default_factory is not dataclasses.MISSING:
        return f"{field.name}=none_"
    return field.name


def _assignments(cls: type) -> Iterator[str]:
    for each in dataclasses.fields(cls):
        name, value = each.name, each.name
        if each.default_factory is not dataclasses.MISSING:
            value = f"factory_{name}()"
            if each.init:
                value += f" if {name} is none_ else {name}"
        elif not each.init:
            if each.default is dataclasses.MISSING:
                continue
            value = f"default_{name}"
        yield f"set_(self, {name!r}, {value})"


def _refuse_to_set(_self: object, name: str, _value: object) -> None:
    raise dataclasses.FrozenInstanceError(f"cannot assign to field {name!r}")


def _refuse_to_delete(_self: object, name: str) -> None:
    raise dataclasses.FrozenInstanceError(f"cannot delete field {name!r}")


def _repr(self: DataclassInstance) -> str:
    shown = (each.name for each in dataclasses.fields(self) if each.repr)
    told = ", ".join(f"{name}={getattr(self, name)!r}" for name in shown)
    return f"{type(self).__qualname__}({told})"


class _Keyed(Protocol):
    __key__: ClassVar[Callable[[object], object]]


def _key(cls: type) -> Callable[[object], object]:
    """Return what tells a value's compared fields."""
    names = [each.name for each in dataclasses.fields(cls) if each.compare]
    return attrgetter(*names) if names else attrgetter("__class__")


def _equal(self: _Keyed, other: object) -> bool:
    key = type(self).__key__
    return key(self) == key(other) if type(other) is type(self) else NotImplemented


def _hash(self: _Keyed) -> int:
    return hash(type(self).__key__(self))


def _state(self: DataclassInstance) -> list[object]:
    return [getattr(self, each.name) for each in dataclasses.fields(self)]


def _set_state(self: DataclassInstance, state: list[object]) -> None:
    for each, value in zip(dataclasses.fields(self), state, strict=True):
        object.__setattr__(self, each.name, value)
