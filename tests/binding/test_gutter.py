"""The gutter grows with the book, and the inside margin then is at least what printers ask for."""

from __future__ import annotations

import pytest

from engraver.binding.gutter import gutter

# most pages, least inside margin and least outside margin in inches, as third parties list them for single copies
LEAST = [(150, 0.375, 0.25), (300, 0.5, 0.25), (500, 0.625, 0.25), (700, 0.75, 0.25), (828, 0.875, 0.25)]


@pytest.mark.parametrize(("pages", "inside", "outside"), LEAST)
def test_inner_and_outer_margins_differ_by_what_the_spine_takes(pages: int, inside: float, outside: float) -> None:
    assert 2 * gutter(pages) == pytest.approx((inside - outside) * 25.4, abs=0.1)


def test_a_page_more_than_fits_takes_the_next_gutter() -> None:
    assert gutter(24) == gutter(150) < gutter(151) == gutter(300) < gutter(301)
