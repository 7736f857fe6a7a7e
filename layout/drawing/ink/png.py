"""A picture as a PNG file (ISO/IEC 15948).

Rows are packed as they are: lines on paper pack better than what the usual filters
make of them, and in a third of the time.
"""

from __future__ import annotations

import struct
import zlib
from collections.abc import Mapping
from typing import Final

import numpy as np
from numpy.typing import NDArray

__all__ = ["png"]

_SIGNATURE: Final = b"\x89PNG\r\n\x1a\n"
_LEVEL: Final = 3
"""How hard it is packed: the next level takes half as long again for 1 %."""
_COLOURS: Final = 3


def png(pixels: NDArray[np.uint8], dpi: float, told: Mapping[str, str]) -> bytes:
    """Return a picture as a file's bytes.

    Parameters
    ----------
    pixels : array (height, width, 3 or more)
        Red, green, blue; what is beside them is left out.
    dpi : float
        Pixels an inch.
    told : mapping
        What the file says of itself, by keywords of the standard.
    """
    height, width = pixels.shape[:2]
    rows = np.zeros((height, 1 + _COLOURS * width), dtype=np.uint8)  # 0: no filter
    for colour in range(_COLOURS):
        rows[:, 1 + colour :: _COLOURS] = pixels[:, :, colour]
    per_m = round(dpi / 0.0254)
    return b"".join(
        [
            _SIGNATURE,
            _chunk(b"IHDR", struct.pack(">2I5B", width, height, 8, 2, 0, 0, 0)),
            *(_text(*each) for each in told.items()),
            _chunk(b"pHYs", struct.pack(">2IB", per_m, per_m, 1)),
            _chunk(b"IDAT", zlib.compress(rows.data, _LEVEL)),
            _chunk(b"IEND", b""),
        ]
    )


def _text(keyword: str, text: str) -> bytes:
    """Return a text, as the kind of chunk that holds its letters."""
    try:
        return _chunk(
            b"tEXt", b"\0".join(each.encode("latin-1") for each in (keyword, text))
        )
    except UnicodeEncodeError:
        return _chunk(b"iTXt", keyword.encode("latin-1") + b"\0" * 5 + text.encode())


def _chunk(kind: bytes, data: bytes) -> bytes:
    """Return a length, a kind, data, and the sum that checks them."""
    return b"".join(
        [
            struct.pack(">I", len(data)),
            kind,
            data,
            struct.pack(">I", zlib.crc32(data, zlib.crc32(kind))),
        ]
    )
