"""The command line: the only room that prints."""

from __future__ import annotations

from layout.cli.program import app, main

__all__ = ["app", "main"]
