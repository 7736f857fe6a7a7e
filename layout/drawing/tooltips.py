"""What an SVG says of each part and finding when it is pointed at."""

from __future__ import annotations

import html
from collections.abc import Iterator, Sequence

from layout.drawing.strokes import Group

__all__ = ["with_tooltips"]


def with_tooltips(svg: bytes, drawn: Sequence[Group]) -> bytes:
    """Return the SVG with a tooltip in every group that stands for something."""
    text = svg.decode("utf-8")
    pieces: list[str] = []
    end = 0
    for before, tag, group in _opened(text, drawn):
        pieces += [before, tag[:-1], f' class="{group.subject}">']
        pieces.append(f"<title>{html.escape(group.told, quote=False)}</title>")
        end += len(before) + len(tag)
    return "".join([*pieces, text[end:]]).encode("utf-8")


def _opened(text: str, drawn: Sequence[Group]) -> Iterator[tuple[str, str, Group]]:
    at = 0
    for group in drawn:
        if group.id:
            tag = f'<g id="{group.id}">'
            found = text.index(tag, at)
            yield text[at:found], tag, group
            at = found + len(tag)
