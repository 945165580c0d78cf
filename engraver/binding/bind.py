"""Binding: sheaves and furniture joined into one book.

In: a pagination, the engraved furniture sheet (one page for each page of the book) and the imprint. Out: the PDF.
"""

from __future__ import annotations

from pathlib import Path

from engraver.binding.boxes import TrimSize
from engraver.binding.cuttings import Cut, cuttings
from engraver.binding.imprint import Imprint
from engraver.binding.inks import Tone
from engraver.binding.pagination import Pagination
from engraver.binding.sheaf import Descriptions, Sheaf


def load_binder() -> None:
    """What binds is not needed for a book that did not change: a time to wait is the time to load it."""
    import engraver.binding.assembly  # noqa: F401


def bind(
    pagination: Pagination,
    out: Path,
    imprint: Imprint,
    trim: TrimSize,
    furniture: Sheaf | None = None,
    *,
    sample: bool = False,
    links: bool = True,
    tone: Tone | None = None,
    descriptions: Descriptions | None = None,
    cut: Cut = cuttings,
) -> None:
    """Write the book. Page i of ``furniture`` is printed over page i of the book, blank pages too.

    A link to an anchor that is not in the book is a fault, except in a ``sample``, where it is left as plain text.
    Without ``links`` all are. With a ``tone`` the book is printed in one ink. With ``descriptions`` it is tagged for
    screen readers, and scores are described by them. ``cut`` may remember the cuttings of a sheaf's PDF.
    Raises EngravingError; a book that was there before is then left as it was.
    """
    from engraver.binding.assembly import assemble  # see load_binder

    assemble(
        pagination,
        out,
        imprint,
        trim,
        furniture,
        cut,
        sample=sample,
        links=links,
        tone=tone,
        descriptions=descriptions,
    )
