"""Every published figure says where it comes from and how far it can be trusted."""

from __future__ import annotations

import dataclasses
import importlib
import math
import pkgutil
from collections.abc import Iterator, Mapping
from enum import Enum

import pytest

import layout.standards
from layout.standards.figure import (
    COMMON_PRACTICE,
    Figure,
    Standing,
    calculated,
    given,
    memory,
    practice,
    secondary,
    seen,
)
from layout.standards.sources import READ_AT

# What holds numbers that are no lengths, with a source of its own beside them.
WITHOUT_FIGURES = frozenset(
    {"bends", "cautions", "figure", "packings", "sources", "tolerances", "units"}
)
MODULES = sorted(each.name for each in pkgutil.iter_modules(layout.standards.__path__))
SUMS = ("75 - 69", "275 - 240", "140.97 - 6.35", "34.80 + 20.32")


def _values(value: object, path: str) -> Iterator[tuple[str, object]]:
    """Yield every leaf of a table with its path; a figure is a leaf."""
    if isinstance(value, Mapping):
        for key, each in value.items():
            yield from _values(each, f"{path}[{key}]")
    elif isinstance(value, tuple):
        for place, each in enumerate(value):
            yield from _values(each, f"{path}[{place}]")
    elif _is_row(value):
        for field in dataclasses.fields(value):  # type: ignore[arg-type]  # it is a row
            yield from _values(getattr(value, field.name), f"{path}.{field.name}")
    else:
        yield path, value


def _is_row(value: object) -> bool:
    return (
        dataclasses.is_dataclass(value)
        and not isinstance(value, type)
        and not isinstance(value, Figure)
    )


def _leaves(module: str) -> Iterator[tuple[str, object]]:
    loaded = importlib.import_module(f"layout.standards.{module}")
    for name in loaded.__all__:
        value = getattr(loaded, name)
        if not isinstance(value, type) and not callable(value):
            yield from _values(value, f"{module}.{name}")


def _figures() -> list[tuple[str, Figure]]:
    return [
        (path, leaf)
        for module in MODULES
        for path, leaf in _leaves(module)
        if isinstance(leaf, Figure)
    ]


FIGURES = _figures()


def test_every_table_holds_figures() -> None:
    holding = {path.split(".", maxsplit=1)[0] for path, _ in FIGURES}
    assert holding == set(MODULES) - WITHOUT_FIGURES


def test_every_length_is_a_figure() -> None:
    bare = [
        path
        for module in MODULES
        if module not in WITHOUT_FIGURES
        for path, leaf in _leaves(module)
        if isinstance(leaf, float) and not path.endswith(".value")
    ]
    assert bare == []


def test_every_figure_is_a_finite_length_with_a_source() -> None:
    wrong = [
        path
        for path, figure in FIGURES
        if not math.isfinite(figure.mm)
        or not figure.source.strip()
        or figure.standing in {Standing.GIVEN, Standing.TAPED}
        or (figure.plus_minus_mm is not None and not figure.plus_minus_mm >= 0.0)
    ]
    assert wrong == []


def test_what_was_seen_names_a_document_with_its_address() -> None:
    nameless = [
        path
        for path, figure in FIGURES
        if figure.standing in {Standing.SEEN, Standing.CALCULATED}
        and figure.mm != 0.0
        and not any(document in figure.source for document in READ_AT)
    ]
    assert nameless == []


def test_what_was_not_read_says_so() -> None:
    silent = [
        path
        for path, figure in FIGURES
        if figure.standing is Standing.MEMORY and "from memory" not in figure.source
    ]
    assert silent == []


def test_common_practice_says_so() -> None:
    silent = [
        path
        for path, figure in FIGURES
        if (figure.standing is Standing.PRACTICE) != (figure.source == COMMON_PRACTICE)
    ]
    assert silent == []


def test_an_assumption_carries_its_scatter_and_is_never_verified() -> None:
    assumed = [(path, figure) for path, figure in FIGURES if figure.assumed]
    assert assumed
    assert [path for path, figure in assumed if not figure.plus_minus_mm] == []
    assert [path for path, figure in assumed if figure.verified] == []


def test_a_sum_of_copied_figures_is_no_better_than_a_copy() -> None:
    sums = [figure for _, figure in FIGURES if figure.source.startswith(SUMS)]
    assert len(sums) == len(SUMS)
    assert not any(figure.verified for figure in sums)


@pytest.mark.parametrize(
    ("figure", "standing", "verified"),
    [
        (seen(1.0, "s"), Standing.SEEN, True),
        (calculated(1.0, "s"), Standing.CALCULATED, True),
        (given(1.0), Standing.GIVEN, True),
        (secondary(1.0, "s"), Standing.SECONDARY, False),
        (memory(1.0, "s"), Standing.MEMORY, False),
        (practice(1.0), Standing.PRACTICE, False),
    ],
)
def test_only_what_was_seen_or_given_is_verified(
    figure: Figure, standing: Standing, *, verified: bool
) -> None:
    assert figure.standing is standing
    assert figure.verified is verified


def test_every_row_that_is_no_length_has_a_standing_and_a_source() -> None:
    rows = [
        leaf
        for module in ("cautions", "drawing")
        for path, leaf in _leaves(module)
        if path.endswith((".standing", ".source"))
    ]
    assert sum(isinstance(each, Enum) for each in rows) * 2 == len(rows)
    assert all(rows)


@pytest.mark.parametrize("module", MODULES)
def test_no_table_can_be_changed(module: str) -> None:
    loaded = importlib.import_module(f"layout.standards.{module}")
    kinds = {type(getattr(loaded, name)) for name in loaded.__all__}
    assert kinds.isdisjoint({dict, list, set})
