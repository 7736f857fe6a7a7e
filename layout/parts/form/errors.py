"""What a kind of part refuses: figures that make no part."""

from __future__ import annotations

from layout.errors import LayoutError

__all__ = ["PartError"]


class PartError(LayoutError, ValueError):
    """A figure of a part is missing, or does not go with the others.

    Parameters
    ----------
    field : str
        The figure's word in files.
    found, right : str
        What stands there, and what would be right.
    """

    def __init__(self, *, field: str, found: str, right: str) -> None:
        super().__init__(f"{field}: found {found}; right would be {right}")
        self.field = field
        self.found = found
        self.right = right
