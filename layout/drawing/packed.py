"""A picture's dots as the bytes of a PNG, packed for speed.

The format is that of *Portable Network Graphics (PNG) Specification*, W3C (ISO/IEC
15948): https://www.w3.org/TR/png-3/.  Rows are not filtered: lines on paper pack as
well without, and looking for each row's best filter takes longer than all the rest.
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
_LEVEL: Final = 2
_MM_PER_INCH: Final = 25.4


def png(
    dots: NDArray[np.uint8], *, dots_an_inch: float, told: Mapping[str, str | None]
) -> bytes:
    """Return a picture as a file's bytes.

    Parameters
    ----------
    dots : array (height, width, 3)
        Red, green, blue, from the top.
    told : mapping
        What the file says of itself; None is left out.
    """
    height, width, _ = dots.shape
    rows = np.zeros((height, 1 + 3 * width), dtype=np.uint8)  # 0: without a filter
    rows[:, 1:] = dots.reshape(height, -1)
    a_metre = round(dots_an_inch * 1000 / _MM_PER_INCH)
    texts = [_text(key, text) for key, text in told.items() if text is not None]
    pieces = [
        _chunk(b"IHDR", struct.pack(">IIBBBBB", width, height, 8, 2, 0, 0, 0)),
        _chunk(b"pHYs", struct.pack(">IIB", a_metre, a_metre, 1)),
        *(_chunk(b"iTXt", each) for each in texts),
        _chunk(b"IDAT", zlib.compress(rows.data, _LEVEL)),
        _chunk(b"IEND", b""),
    ]
    return b"".join([_SIGNATURE, *pieces])


def _text(key: str, text: str) -> bytes:
    """Return what one text says: not packed, in no certain language."""
    return key.encode("latin-1") + bytes(5) + text.encode()


def _chunk(kind: bytes, said: bytes) -> bytes:
    return b"".join(
        [
            struct.pack(">I", len(said)),
            kind,
            said,
            struct.pack(">I", zlib.crc32(kind + said)),
        ]
    )
