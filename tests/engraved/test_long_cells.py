"""The cell key of a groove whose cells are long: all of each stands on the page, in either design."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

import pypdfium2
import pytest

from engraver import definition
from engraver.engraving import Job, Workshop
from engraver.manuscript.planning import Chapter, plan_chapter
from tests.bench.generated_books import write_book

EDGE = 12 * 72 / 25.4  # points: the outermost 12 mm of a page, which every design leaves white


def chapter(folder: Path, design: str) -> Chapter:
    write_book(folder, 0, long=32)
    (folder / "style.yaml").write_text(f"design: {design}\n")
    book = definition.read(folder)
    return plan_chapter(book.chapters[0], book.style, book.style.say)


@pytest.mark.parametrize("design", ["workbook", "edition"])
def test_cells_of_forty_steps_leave_the_edges_of_the_page_white(
    design: str, shops: Mapping[str, Workshop], tmp_path: Path
) -> None:
    made = chapter(tmp_path, design)
    cards = [card.passage.groove for card in made.plan.cards]
    assert max(groove.length / groove.step for groove in cards) == 40
    [result] = shops[design].engrave([Job("long cells", made.source.parts[0])])
    assert result.pdf, result.failure
    pages = [page.render(scale=1, grayscale=True).to_numpy() for page in pypdfium2.PdfDocument(result.pdf)]
    assert all((page < 128).any() for page in pages)
    assert not [n for n, page in enumerate(pages) if (page[:, -int(EDGE) :] < 250).any()]
