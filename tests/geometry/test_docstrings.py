"""The examples in the kernel's docstrings say what it does."""

from __future__ import annotations

import doctest
import importlib
import pkgutil

import pytest

from layout import geometry

_MODULES = [
    f"layout.geometry.{each.name}" for each in pkgutil.iter_modules(geometry.__path__)
]


@pytest.mark.parametrize("name", _MODULES)
def test_examples_hold(name: str) -> None:
    module = importlib.import_module(name)
    found = doctest.testmod(module)
    assert found.failed == 0
