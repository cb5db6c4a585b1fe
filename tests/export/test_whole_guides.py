"""What is drawn beside a piece on the pages to join is there whole, or not at all."""

import numpy as np
import pytest

from sizer.drawing.record import Path, Text
from sizer.export.pdf_canvas import register_faces
from sizer.export.tile_layout import laid
from sizer.export.tiles import PAPERS_MM

NAME = "keel's end from below"


@pytest.mark.parametrize("base", ["teaching-boat", "steady-boat", "surf-runner"])
def test_the_keels_end_from_below_is_on_a_page_whole_with_its_name_or_on_none(
        base, middle_job, middle_bench):
    register_faces()
    job, bench = middle_job(base), middle_bench(base)
    for drawing in bench.drawings[len(bench.frames):]:
        for size_mm in PAPERS_MM.values():
            piece = laid("boat", drawing, job.imprint, size_mm)
            ends = [one.points_m * 1000.0 for one in piece.drawing.strokes
                    if isinstance(one, Path) and one.pen == "guide" and len(one.points_m) == 6]
            named = sum(isinstance(one, Text) and one.text == NAME
                        for one in piece.drawing.strokes)
            assert named <= len(ends) <= 1
            pages = [np.array(tile.box_mm(piece.page.window_mm)) for tile in piece.tiles.tiles]
            for points in ends:
                assert any((points >= page[:2]).all() and (points <= page[2:]).all()
                           for page in pages)
