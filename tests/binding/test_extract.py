"""A sample keeps what its pages are called in the book, and what leads out of it is left out."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pypdf

from engraver.binding import Bookmark, Imprint, Numbering, Section, Sheaf, TrimSize, bind, paginate
from engraver.binding.extract import extract, joined

Sheaves = Callable[..., Sheaf]


def book(sheaf: Sheaves) -> tuple[Section, ...]:
    front = sheaf("front", 3, [(1, "engraver:link/two", (72, 700, 100, 710))])
    one = sheaf("one", 2, [(0, "engraver:anchor/one", (72, 700, 90, 710))])
    two = sheaf("two", 2, [(0, "engraver:anchor/two", (72, 700, 90, 710))])
    return (
        Section(front, Numbering.ROMAN, bookmarks=(Bookmark("Front"),)),
        Section(one, starts_recto=True, bookmarks=(Bookmark("One", 0, "one"),)),
        Section(two, bookmarks=(Bookmark("Two", 0, "two"),)),
    )


def test_pages_keep_their_labels_and_lose_the_blanks(sheaf: Sheaves) -> None:
    whole = paginate(book(sheaf))
    assert [page.label for page in whole.pages] == ["i", "ii", "iii", "iv", "1", "2", "3", "4"]
    sample = extract(whole, lambda page: page.label in ("i", "ii", "iv", "3"))
    assert [(page.label, page.index) for page in sample.pages] == [("i", 0), ("ii", 1), ("3", 2)]


def test_bookmarks_and_anchors_of_missing_pages_are_left_out(sheaf: Sheaves) -> None:
    sample = extract(paginate(book(sheaf)), lambda page: page.label in ("ii", "1", "2"))
    assert set(sample.anchors) == {"one"}
    assert [[mark.title for mark in section.bookmarks] for section in sample.sections] == [[], ["One"]]


def test_a_sample_with_a_last_page_of_its_own_is_bound(sheaf: Sheaves, tmp_path: Path, imprint: Imprint) -> None:
    sample = extract(paginate(book(sheaf)), lambda page: page.label in ("ii", "3"))
    last = paginate([Section(sheaf("last"), Numbering.UNNUMBERED)])
    bind(joined(sample, last), tmp_path / "sample.pdf", imprint, TrimSize(210, 297), sample=True)
    reader = pypdf.PdfReader(tmp_path / "sample.pdf", strict=True)
    assert [page.extract_text().strip() for page in reader.pages] == ["front 1", "two 0", "last 0"]
    assert reader.page_labels[:2] == ["ii", "3"]
    assert "/S" not in reader.trailer["/Root"]["/PageLabels"]["/Nums"][-1]
    assert [mark.title for mark in reader.outline] == ["Two"]
    (link,) = reader.pages[0]["/Annots"]
    assert link.get_object()["/Dest"][0] == reader.pages[1].indirect_reference
