"""Run the command line as ``python -m layout``."""

from __future__ import annotations

from layout.cli import main

__all__: list[str] = []

if __name__ == "__main__":
    main()
