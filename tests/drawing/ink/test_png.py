from __future__ import annotations

import io
import struct
import zlib

import numpy as np
from matplotlib.image import imread
from numpy.random import default_rng

from layout.drawing.ink.png import png

_PIXELS = default_rng(3).integers(0, 256, (37, 53, 4), dtype=np.uint8)


def test_another_program_reads_every_pixel_as_it_was() -> None:
    made = io.BytesIO(png(_PIXELS, 150, {}))
    read = np.round(255 * imread(made, format="png")).astype(np.uint8)
    assert read.shape == (37, 53, 3)
    assert (read == _PIXELS[..., :3]).all()


def _chunks(made: bytes) -> dict[bytes, bytes]:
    """Return the chunks of a file by their kinds, their sums checked."""
    assert made[:8] == b"\x89PNG\r\n\x1a\n"
    out, at = {}, 8
    while at < len(made):
        size, kind = struct.unpack(">I4s", made[at : at + 8])
        out[kind] = made[at + 8 : at + 8 + size]
        told = struct.unpack(">I", made[at + 8 + size : at + 12 + size])
        assert told == (zlib.crc32(kind + out[kind]),)
        at += 12 + size
    return out


def test_a_file_tells_its_size_on_paper_and_its_texts_in_any_letters() -> None:
    chunks = _chunks(png(_PIXELS, 150, {"Title": "Straße, 4 Lüfter"}))
    assert [*chunks] == [b"IHDR", b"tEXt", b"pHYs", b"IDAT", b"IEND"]
    assert struct.unpack(">2IB", chunks[b"pHYs"]) == (5906, 5906, 1)  # a metre
    assert chunks[b"tEXt"] == "Title\0Straße, 4 Lüfter".encode("latin-1")
    chunks = _chunks(png(_PIXELS, 150, {"Title": "塔式机箱"}))
    assert chunks[b"iTXt"] == b"Title\0\0\0\0\0" + "塔式机箱".encode()


def test_a_blank_sheet_takes_next_to_nothing() -> None:
    assert len(png(np.full((1000, 1000, 3), 255, dtype=np.uint8), 150, {})) < 20_000
