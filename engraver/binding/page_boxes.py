"""Page boxes: a trim size in, the boxes of a bound page set."""

from __future__ import annotations

from pypdf import PageObject
from pypdf.generic import FloatObject, NameObject, RectangleObject

from engraver.binding.boxes import TrimSize


def set_boxes(page: PageObject, trim: TrimSize) -> None:
    """The trim box is the paper; media, crop and bleed box have the bleed around it (ISO 32000-1, 14.11.2)."""
    (width, height), around = trim.points, trim.margin
    _set(page, ("/TrimBox",), around, around, width + around, height + around)
    _set(page, ("/MediaBox", "/CropBox"), 0, 0, width + 2 * around, height + 2 * around)
    for name in ("/BleedBox", "/ArtBox", "/Rotate", "/UserUnit"):
        page.pop(name, None)
    if around:
        _set(page, ("/BleedBox",), 0, 0, width + 2 * around, height + 2 * around)


def _set(page: PageObject, names: tuple[str, ...], *corners: float) -> None:
    for name in names:
        page[NameObject(name)] = RectangleObject([FloatObject(round(corner, 4)) for corner in corners])
