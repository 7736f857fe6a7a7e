"""What a drawing's file says: of itself, and of a part that is pointed at."""

from __future__ import annotations

import html
from collections.abc import Iterator, Sequence

from layout.drawing.ink.strokes import Group
from layout.drawing.paper.scene import Scene
from layout.drawing.sheets.sheet import SHEET_MARK

__all__ = ["metadata", "with_tooltips"]


def metadata(
    scene: Scene, kind: str, sheet: tuple[int, int] = (1, 1)
) -> dict[str, str | None]:
    """Return what a file says of itself: no date, no version."""
    source = SHEET_MARK.format(*sheet)
    match kind:
        case "svg":
            told = {"Title": scene.title, "Description": scene.description}
            told["Source"] = source
            return {**told, "Date": None, "Creator": None}
        case "pdf":
            told = {"Title": scene.title, "Subject": scene.description}
            return {**told, "CreationDate": None, "Creator": None, "Producer": None}
        case _:
            return {"Title": scene.title, "Source": source, "Software": None}


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
