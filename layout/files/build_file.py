"""Read a build: its file, the case file it names, and every part put in place."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial, reduce
from pathlib import Path
from typing import Final, cast

from layout.build.assemble import CASE, Entry, SeatError
from layout.build.placed import Build, OwnNeed
from layout.build.plan import Plan
from layout.build.remade import Remaker
from layout.errors import LayoutError
from layout.files.case_file import read_case
from layout.files.errors import (
    InputError,
    caught,
    escaped,
    nearest,
    one_of,
    refuse_if_any,
    shown,
)
from layout.files.models import Raw, spec
from layout.files.numbers import found
from layout.files.place import Place
from layout.files.source import read_text
from layout.files.tree import Fields, Scalar, parse, plain
from layout.files.words import Pair, word_of
from layout.parts.case.case import Case
from layout.parts.form import field
from layout.parts.kinds.block import Block
from layout.parts.kinds.kinds import KINDS
from layout.questions.clearances.plug_rules import PLUG_RULES
from layout.questions.clearances.rules import RULES
from layout.questions.reach.reach import REACH_RULES
from layout.standards.figure import Figure
from layout.values import dataclass

__all__ = ["read_build", "read_made", "read_plan"]

_LONGEST_KEY: Final = 60
"""A name has to find room on a drawing."""


@dataclass(frozen=True, slots=True, kw_only=True)
class _OwnNeed:
    """A need that the build file adds."""

    between: Pair = field.nested("the two parts or bodies")
    need: Figure = field.length("room between the two", least_mm=0.0, most_mm=1000.0)
    why: str = field.word("what the room is for")
    source: str = field.word("who says so", "given in the file")


@dataclass(frozen=True, slots=True, kw_only=True)
class _BuildFile:
    """What a build file may hold."""

    name: str | None = field.word("what the build is called", None)
    case: str | None = field.word("the case file, as seen from this one", None)
    parts: tuple[tuple[str, Raw], ...] = field.nested(
        "every part, by a name of your own"
    )
    needs: tuple[tuple[str, Figure], ...] = field.length(
        "rooms to keep, by rule", (), least_mm=0.0, most_mm=1000.0
    )
    own_needs: tuple[_OwnNeed, ...] = field.nested(
        "rooms to keep between two parts", ()
    )


def read_build(path: Path) -> Build:
    """Return the build that a file describes, every part in its place.

    Raises
    ------
    InputError
        With every field that is wrong, each with its file and line.
    """
    return read_made(path).build


def read_plan(path: Path) -> tuple[Plan, Build]:
    """Return the build that a file describes, before and after it is put in place.

    Raises
    ------
    InputError
        With every field that is wrong, each with its file and line.
    """
    made = read_made(path)
    return made.plan, made.build


def read_made(path: Path) -> Remaker:
    """Return the build that a file describes, ready to have its parts made anew.

    Raises
    ------
    InputError
        With every field that is wrong, each with its file and line.
    """
    top = Place(path, parse(read_text(path, "a build file"), path))
    file, entries = _checked(top)
    plan = Plan(
        name=file.name or escaped(path.stem),
        entries=entries,
        case=_case(top / "case", file, entries),
        needs=tuple((rule, figure.mm) for rule, figure in file.needs),
        own_needs=tuple(map(_own_need, file.own_needs)),
    )
    made = _assembled(top, plan)
    refuse_if_any(list(_unknown_bodies(top / "own needs", made.build)))
    return made


def _case(place: Place, file: _BuildFile, entries: tuple[Entry, ...]) -> Case | None:
    """Return the case; only blocks can do without."""
    if file.case is not None:
        return read_case(place.path.parent / file.case, place)
    seated = [entry.key for entry in entries if not isinstance(entry.spec, Block)]
    if seated:
        raise place.error("nothing", f"a case file for {seated[0]} to sit in")
    return None


def _checked(top: Place) -> tuple[_BuildFile, tuple[Entry, ...]]:
    """Return what a build file says, or raise all its errors at once."""
    errors: list[InputError] = []
    file = caught(partial(spec, _BuildFile, top), errors)
    parts = (top / "parts").node
    keys = tuple(parts.values) if isinstance(parts, Fields) else ()
    entries = [
        caught(partial(_entry, key, top / "parts" / key), errors) for key in keys
    ]
    errors += _unknown_rules(top / "needs")
    refuse_if_any(errors)
    return cast("_BuildFile", file), tuple(each for each in entries if each)


def _entry(key: str, place: Place) -> Entry:
    """Return a part as its kind reads it."""
    if key == CASE or "/" in key or not key.isprintable() or len(key) > _LONGEST_KEY:
        right = f"a name of up to {_LONGEST_KEY} characters, without '/', not 'case',"
        raise place.error(f"a part named {shown(key)}", right)
    node = place.node
    if not isinstance(node, Fields):
        raise place.error(found(node and plain(node)), "a mapping that says its kind")
    kind = node.values.get("kind")
    if kind is None:
        raise (place / "kind").error("nothing", f"one of {', '.join(KINDS)}")
    if not isinstance(kind, Scalar) or kind.text not in KINDS:
        name = kind.text if isinstance(kind, Scalar) else ""
        right = one_of(name, tuple(KINDS))
        raise (place / "kind").error(found(plain(kind)), right)
    return Entry(key=key, spec=spec(KINDS[kind.text], place, besides=("kind",)))


def _unknown_rules(place: Place) -> Iterator[InputError]:
    """Yield an error for each need that names no rule."""
    known = tuple(rule.name for rule in (*RULES, *PLUG_RULES)) + REACH_RULES
    if isinstance(place.node, Fields):
        for name in place.node.values:
            if name not in known:
                yield (place / name).error("an unknown rule", nearest(name, known))


def _assembled(top: Place, plan: Plan) -> Remaker:
    """Return every part in place, or say which field keeps it from its seat."""
    try:
        return Remaker.of(plan)
    except SeatError as error:
        part = top / "parts" / error.part
        steps = word_of(error.field).split(".") if error.field else []
        raise reduce(Place.__truediv__, steps, part).error(
            error.found, error.right
        ) from error
    except LayoutError as error:
        raise (top / "parts").error(f"what fails: {error}", "others") from error


def _own_need(need: _OwnNeed) -> OwnNeed:
    a, b = need.between
    return OwnNeed(a=a, b=b, need_mm=need.need.mm, why=need.why, source=need.source)


def _unknown_bodies(place: Place, build: Build) -> Iterator[InputError]:
    """Yield an error for each need between names that no part or body has."""
    known = {name: None for body in build.bodies for name in (body.part, body.name)}
    for index, need in enumerate(build.own_needs):
        between = place / index / "between"
        for side, name in enumerate((need.a, need.b)):
            if name not in known:
                right = nearest(name, tuple(known))
                yield (between / side).error(shown(name), right)
