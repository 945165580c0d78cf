"""Page labels against ISO 32000-1 and against a second reader's numerals."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pypdfium2
import pytest

from engraver.binding import Folio, Imprint, Numbering, Section, Sheaf, TrimSize, bind, paginate
from engraver.binding.label_tree import label_tree
from engraver.binding.page_labels import roman

# 1 to 10, and the subtractive forms: common practice, values from memory; checked against a reader below.
SMALL = ["i", "ii", "iii", "iv", "v", "vi", "vii", "viii", "ix", "x"]


def test_small_roman_numerals() -> None:
    assert [roman(number) for number in range(1, 11)] == SMALL
    assert [roman(number) for number in (14, 40, 49, 90, 400, 944, 1999)] == (
        ["xiv", "xl", "xlix", "xc", "cd", "cmxliv", "mcmxcix"]
    )


def test_the_label_tree_of_the_standard() -> None:
    """ISO 32000-1:2008, 12.4.2, EXAMPLE (from memory): 0 <</S/r>> 4 <</S/D>> gives i ii iii iv 1 2 3.

    The example's third range, A-8 A-9, has a prefix, which a book here never has; ``St`` is shown by the last range.
    """
    folios = [Folio(Numbering.ROMAN, n) for n in (1, 2, 3, 4)] + [Folio(Numbering.ARABIC, n) for n in (1, 2, 3)]
    folios += [Folio(Numbering.ARABIC, n) for n in (8, 9)]
    assert label_tree(folios)["/Nums"] == [0, {"/S": "/r"}, 4, {"/S": "/D"}, 7, {"/S": "/D", "/St": 8}]
    assert [str(folio) for folio in folios] == ["i", "ii", "iii", "iv", "1", "2", "3", "8", "9"]


def test_a_second_reader_calls_every_page_the_same(
    sheaf: Callable[..., Sheaf], tmp_path: Path, imprint: Imprint, a4: TrimSize
) -> None:
    front, body = Section(sheaf("front", 110), Numbering.ROMAN), Section(sheaf("body", 12), starts_recto=True)
    pagination = paginate([front, body, Section(sheaf("back", 2), starts_recto=True)])
    bind(pagination, tmp_path / "book.pdf", imprint, a4)
    reader = pypdfium2.PdfDocument(tmp_path / "book.pdf")
    assert [reader.get_page_label(n) for n in range(len(reader))] == [page.label for page in pagination.pages]
    assert (pagination.pages[109].label, pagination.pages[110].label) == ("cx", "1")


def test_numerals_begin_at_one() -> None:
    with pytest.raises(AssertionError):
        roman(0)
