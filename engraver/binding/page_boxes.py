"""Page boxes: a trim size in, the entries of a bound page that say where the paper is."""

from __future__ import annotations

from typing import Any

from engraver.binding.boxes import TrimSize


def page_boxes(trim: TrimSize) -> dict[str, Any]:
    """The trim box is the paper; media, crop and bleed box have the bleed around it (ISO 32000-1, 14.11.2)."""
    (width, height), around = trim.points, trim.margin
    whole = _corners(0, 0, width + 2 * around, height + 2 * around)
    boxes = {
        "/TrimBox": _corners(around, around, width + around, height + around),
        "/MediaBox": whole,
        "/CropBox": whole,
    }
    return {**boxes, "/BleedBox": whole} if around else boxes


def _corners(*lengths: float) -> list[float]:
    return [round(float(length), 4) for length in lengths]
