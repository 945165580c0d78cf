"""Page boxes: a trim size in, the entries of a bound page that say where the paper is."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache

from engraver.binding.boxes import TrimSize
from engraver.binding.syntax import Verbatim, written


@cache  # the pages of a book have the same
def page_boxes(trim: TrimSize) -> Mapping[str, Verbatim]:
    """The trim box is the paper; media, crop and bleed box have the bleed around it (ISO 32000-1, 14.11.2)."""
    (width, height), around = trim.points, trim.margin
    paper = _corners(around, around, width + around, height + around)
    whole = _corners(0, 0, width + 2 * around, height + 2 * around)
    boxes = {"/TrimBox": paper, "/MediaBox": whole, "/CropBox": whole}
    return {**boxes, "/BleedBox": whole} if around else boxes


def _corners(*lengths: float) -> Verbatim:
    return Verbatim(written([round(float(length), 4) for length in lengths]))
