"""YAML to a small tree that keeps every value's text and line.

Values stay text until a field says what they are: that ``010``, ``1:30``, ``no`` or
a date mean something else to YAML can then never turn into a wrong number.
"""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import Final, TypeAlias

import yaml

from layout.files.errors import InputError, refuse_if_any, shown
from layout.values import dataclass

__all__ = ["Fields", "Items", "Node", "Plain", "Scalar", "inner", "parse", "plain"]

_DEEPEST: Final = 20
"""The deepest place in a file (a hole's corner) is 8 levels down."""
_MOST_VALUES: Final = 200_000
"""Values after every alias is written out; a large build has a few thousand."""


@dataclass(frozen=True, slots=True)
class Scalar:
    """One value as written; ``line`` counts from 1."""

    text: str
    quoted: bool
    line: int
    size: int = 1
    height: int = 1

    @property
    def empty(self) -> bool:
        """Tell whether nothing is written, or YAML's word for it."""
        return not self.quoted and self.text in {"", "~", "null", "Null", "NULL"}


@dataclass(frozen=True, slots=True)
class Items:
    """A list."""

    items: tuple[Node, ...]
    line: int
    size: int
    height: int


@dataclass(frozen=True, slots=True)
class Fields:
    """A mapping; ``lines`` holds the line of each key."""

    values: dict[str, Node]
    lines: dict[str, int]
    line: int
    size: int
    height: int


Node: TypeAlias = Scalar | Items | Fields
Plain: TypeAlias = "Scalar | list[Plain] | dict[str, Plain]"


def plain(node: Node) -> Plain:
    """Return the tree as dicts and lists of scalars."""
    if isinstance(node, Fields):
        return {key: plain(value) for key, value in node.values.items()}
    if isinstance(node, Items):
        return [plain(item) for item in node.items]
    return node


def inner(node: Node, at: tuple[str | int, ...]) -> tuple[Node | None, int]:
    """Return the node a path leads to and its line.

    Where the path leads to nothing the line is that of the last thing on it; where
    it leads to an empty value the line is that of its key.
    """
    line = node.line
    for step in at:
        if isinstance(node, Fields) and step in node.values:
            line = node.lines[str(step)]
            node = node.values[str(step)]
        elif isinstance(node, Items) and isinstance(step, int):
            node = node.items[step]
            line = node.line
        else:
            return None, line
    exact = isinstance(node, Scalar) and not node.empty
    return node, node.line if exact else line


def parse(text: str, path: Path) -> Fields:
    """Return the mapping that a YAML text holds.

    Raises
    ------
    InputError
        If the text is not YAML, holds no mapping or more than one document, repeats
        a key, or grows out of bounds when its aliases are written out.
    """
    try:
        return _Composer(path, text).document()
    except yaml.YAMLError as error:
        line, found = _complaint(error, text)
        raise InputError(
            path, line, found=f"text that is not YAML ({found})", right=_RIGHT
        ) from error


def _complaint(error: yaml.YAMLError, text: str) -> tuple[int, str]:
    if isinstance(error, yaml.MarkedYAMLError) and error.problem_mark is not None:
        last = text.count("\n")
        return min(error.problem_mark.line, last) + 1, str(error.problem)
    character = getattr(error, "character", None)
    if isinstance(character, int):
        place = text.find(chr(character))
        return text.count("\n", 0, max(place, 0)) + 1, f"character 0x{character:02x}"
    return 1, shown(str(error))


@dataclass(frozen=True, slots=True)
class _Spot:
    """A place in the tree while it grows."""

    path: Path
    field: str = ""
    depth: int = 1

    def item(self, index: int) -> _Spot:
        return _Spot(self.path, f"{self.field}[{index}]", self.depth + 1)

    def key(self, key: str) -> _Spot:
        field = f"{self.field}.{shown(key)}".removeprefix(".")
        return _Spot(self.path, field, self.depth + 1)

    def error(self, event: yaml.Event, found: str, right: str) -> InputError:
        line, field = _line(event), self.field or None
        return InputError(self.path, line, field, found=found, right=right)


class _Composer:
    """Turn libyaml's events into nodes, one document only."""

    def __init__(self, path: Path, text: str) -> None:
        self._top = _Spot(path)
        self._events: Iterator[yaml.Event] = yaml.parse(text, Loader=yaml.CSafeLoader)
        self._anchors: dict[str, Node | None] = {}
        self._twice: list[InputError] = []

    def document(self) -> Fields:
        """Return the one document's mapping."""
        next(self._events)
        first = next(self._events)
        if isinstance(first, yaml.StreamEndEvent):
            raise self._top.error(first, "an empty file", _MAPPING)
        node = self._node(next(self._events), self._top)
        next(self._events)
        more = next(self._events)
        if not isinstance(more, yaml.StreamEndEvent):
            raise self._top.error(more, "a second document", "one document in a file")
        if isinstance(node, Fields):
            refuse_if_any(self._twice)
            return node
        raise self._top.error(first, _instead_of_mapping(node), _MAPPING)

    def _node(self, event: yaml.Event, spot: _Spot) -> Node:
        if spot.depth > _DEEPEST:
            raise spot.error(event, *_TOO_DEEP)
        if isinstance(event, yaml.AliasEvent):
            return self._alias(event, spot)
        if not isinstance(event, yaml.ScalarEvent | yaml.CollectionStartEvent):
            raise spot.error(event, "nothing", "a value")
        if event.tag is not None:
            raise spot.error(event, f"the tag {shown(event.tag)}", "a plain value")
        if event.anchor is not None:
            self._anchors[event.anchor] = None
        node = self._new(event, spot)
        if event.anchor is not None:
            self._anchors[event.anchor] = node
        return node

    def _new(self, event: yaml.Event, spot: _Spot) -> Node:
        if isinstance(event, yaml.ScalarEvent):
            return Scalar(event.value, bool(event.style), _line(event))
        if isinstance(event, yaml.SequenceStartEvent):
            return self._items(event, spot)
        return self._fields(event, spot)

    def _alias(self, event: yaml.AliasEvent, spot: _Spot) -> Node:
        name = f"*{shown(str(event.anchor))}"
        if event.anchor not in self._anchors:
            raise spot.error(event, f"{name} without its anchor", "a known anchor")
        node = self._anchors[event.anchor]
        if node is None:
            raise spot.error(event, f"{name} inside itself", "an anchor elsewhere")
        if spot.depth + node.height > _DEEPEST + 1:
            raise spot.error(event, *_TOO_DEEP)
        return node

    def _items(self, start: yaml.Event, spot: _Spot) -> Items:
        items: list[Node] = []
        size = 1
        while not isinstance(event := next(self._events), yaml.SequenceEndEvent):
            here = spot.item(len(items))
            items.append(self._node(event, here))
            size += items[-1].size
            if size > _MOST_VALUES:
                raise here.error(event, *_TOO_MANY)
        height = 1 + max((item.height for item in items), default=0)
        return Items(tuple(items), _line(start), size, height)

    def _fields(self, start: yaml.Event, spot: _Spot) -> Fields:
        values: dict[str, Node] = {}
        lines: dict[str, int] = {}
        size = 1
        while not isinstance(event := next(self._events), yaml.MappingEndEvent):
            key = _key(event, spot)
            here = spot.key(key)
            value = self._node(next(self._events), here)
            size += value.size
            if size > _MOST_VALUES:
                raise here.error(event, *_TOO_MANY)
            if key in values:
                found = f"the key a second time (first on line {lines[key]})"
                self._twice.append(here.error(event, found, "one of the two"))
            values[key] = value
            lines[key] = _line(event)
        height = 1 + max((value.height for value in values.values()), default=0)
        return Fields(values, lines, _line(start), size, height)


_MAPPING: Final = "a mapping of 'key: value' lines"
_RIGHT: Final = "'key: value' lines with their indents, brackets and quotes in order"
_TOO_DEEP: Final = (f"more than {_DEEPEST} levels", "a flatter file")
_TOO_MANY: Final = (
    f"more than {_MOST_VALUES} values once aliases are written out",
    "a file that repeats itself less",
)


def _key(event: yaml.Event, spot: _Spot) -> str:
    if not isinstance(event, yaml.ScalarEvent):
        raise spot.error(event, "a key that is no plain word", "a word")
    if event.tag is not None or event.anchor is not None:
        raise spot.error(event, "a key with a tag or an anchor", "a plain word")
    if event.value == "<<":
        raise spot.error(event, "the merge key <<", "every field written out")
    if not event.value.strip():
        raise spot.error(event, "a key that is empty", "a word")
    return str(event.value)


def _instead_of_mapping(node: Scalar | Items) -> str:
    if isinstance(node, Items):
        return "a list"
    return "an empty file" if node.empty else shown(node.text)


def _line(event: yaml.Event) -> int:
    return event.start_mark.line + 1 if event.start_mark is not None else 1
