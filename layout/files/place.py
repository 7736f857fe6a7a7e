"""Where in a file a value is written, for errors that point at it."""

from __future__ import annotations

from pathlib import Path

from layout.files.errors import InputError, shown
from layout.files.tree import Fields, Node, inner
from layout.values import dataclass

__all__ = ["Place", "Steps"]

Steps = tuple[str | int, ...]
"""Keys and indices that lead from a file's top to a value."""


@dataclass(frozen=True, slots=True)
class Place:
    """A value in a file.

    Parameters
    ----------
    path : Path
        The file, as the user named it.
    tree : Fields
        All that the file holds.
    at : tuple of str or int
        Where in it; empty for the top.
    """

    path: Path
    tree: Fields
    at: Steps = ()

    def __truediv__(self, step: str | int) -> Place:
        return Place(self.path, self.tree, (*self.at, step))

    @property
    def node(self) -> Node | None:
        """Return what is written there, if anything is."""
        return inner(self.tree, self.at)[0]

    @property
    def field(self) -> str | None:
        """Return the place as a person reads it: ``parts.bracket.solids[0].side``."""
        text = ""
        for step in self.at:
            text += f"[{step}]" if isinstance(step, int) else f".{shown(step)}"
        return text.removeprefix(".") or None

    def error(self, found: str, right: str) -> InputError:
        """Return the error that something else should be written there."""
        line = inner(self.tree, self.at)[1]
        return InputError(self.path, line, self.field, found=found, right=right)
