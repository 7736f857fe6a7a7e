from __future__ import annotations

import io

import numpy as np
from PIL import Image

from layout.drawing.packed import png


def test_another_program_reads_dots_size_and_texts_as_they_were() -> None:
    dots = np.random.default_rng(1).integers(0, 256, (7, 5, 3), dtype=np.uint8)
    told = {"Title": "Łódź, 5 mm", "Source": "sheet 1", "Software": None}
    picture = Image.open(io.BytesIO(png(dots, dots_an_inch=150, told=told)))
    assert picture.mode == "RGB"
    assert np.array_equal(np.asarray(picture), dots)
    assert [round(each, 1) for each in picture.info["dpi"]] == [150.0, 150.0]
    said = {key: picture.info[key] for key in ("Title", "Source")}
    assert said == {"Title": "Łódź, 5 mm", "Source": "sheet 1"}
    assert "Software" not in picture.info
