"""Which page is which: recto starts, the two series of numbers, anchors. Common practice, no source, unless said."""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from engraver.binding import Numbering, Pagination, Section, Sheaf, Spot, paginate
from engraver.errors import EngravingError

ROMAN, ARABIC = Numbering.ROMAN, Numbering.ARABIC


def spot(kind: str, name: str, page: int = 0) -> Spot:
    return Spot(kind, name, page, 0, 0, 10, 10, 842)


def section(pages: int, numbering: Numbering = ARABIC, recto: bool = False, spots: tuple[Spot, ...] = ()) -> Section:
    return Section(Sheaf(Path("a.pdf"), pages, spots), numbering, recto)


def labels(pagination: Pagination) -> str:
    return " ".join(f"({page.label})" if page.is_blank else page.label for page in pagination.pages)


def test_front_matter_is_roman_and_the_body_starts_again_at_one() -> None:
    assert labels(paginate([section(4, ROMAN), section(2), section(1)])) == "i ii iii iv 1 2 3"


def test_a_recto_start_leaves_a_blank_verso_that_is_counted_with_what_it_follows() -> None:
    book = paginate([section(3, ROMAN), section(3, recto=True), section(2, recto=True)])
    assert labels(book) == "i ii iii (iv) 1 2 3 (4) 5 6"
    assert book.first_pages == (0, 4, 8)
    assert [page.section for page in book.pages if page.is_blank] == [0, 1]


def test_no_blank_where_the_recto_comes_by_itself() -> None:
    assert labels(paginate([section(2, recto=True), section(2, recto=True)])) == "1 2 3 4"


def test_rectos_are_the_first_page_and_every_second_one_after_it() -> None:
    assert [page.is_recto for page in paginate([section(4)]).pages] == [True, False, True, False]


def test_an_anchor_tells_its_page_and_label() -> None:
    book = paginate([section(3, ROMAN), section(2, recto=True, spots=(spot("anchor", "q", 1),))])
    assert (book.landing("q").page.index, book.label_of("q")) == (5, "2")
    assert [found.name for found in book.spots_on(book.pages[5])] == ["q"]
    assert book.spots_on(book.pages[3]) == ()


def test_an_anchor_that_is_nowhere_is_told() -> None:
    with pytest.raises(EngravingError, match='"q" is pointed to but lies on no page of the book'):
        paginate([section(1)]).label_of("q")


def test_two_anchors_of_one_name_are_all_told() -> None:
    twice = (spot("anchor", "a"), spot("anchor", "b"), spot("anchor", "a", 1), spot("anchor", "b", 2))
    with pytest.raises(EngravingError) as error:
        paginate([section(3, ROMAN, spots=twice)])
    assert str(error.value) == (
        'anchor "a" lies on page i and again on page ii\n\nanchor "b" lies on page i and again on page iii'
    )


def test_dangling_links_are_found_but_places_may_lead_nowhere() -> None:
    book = paginate([section(1, spots=(spot("link", "x"), spot("answer-page", "y"), spot("link", "z"))), section(1)])
    assert [(page.label, found.name) for page, found in book.dangling()] == [("1", "x"), ("1", "z")]


SECTIONS = st.lists(st.tuples(st.integers(1, 5), st.booleans()), min_size=1, max_size=8)


@given(front=SECTIONS, body=SECTIONS)
def test_what_always_holds(front: list[tuple[int, bool]], body: list[tuple[int, bool]]) -> None:
    sections = [section(n, ROMAN, recto) for n, recto in front] + [section(n, ARABIC, recto) for n, recto in body]
    book = paginate(sections)
    assert [page.index for page in book.pages] == list(range(len(book.pages)))
    assert [(page.section, page.page) for page in book.pages if not page.is_blank] == [
        (number, page) for number, one in enumerate(sections) for page in range(one.sheaf.pages)
    ]
    assert all(book.first_page(n).is_recto for n, one in enumerate(sections) if one.starts_recto)
    assert not any(book.pages[n].is_blank and book.pages[n + 1].is_blank for n in range(len(book.pages) - 1))


@given(front=SECTIONS, body=SECTIONS)
def test_body_labels_do_not_depend_on_the_front_matter(
    front: list[tuple[int, bool]], body: list[tuple[int, bool]]
) -> None:
    """So the contents page can be engraved before anyone knows how long it gets."""
    chapters = [section(n, ARABIC, recto or number == 0) for number, (n, recto) in enumerate(body)]
    whole = paginate([section(n, ROMAN, recto) for n, recto in front] + chapters)
    alone = paginate(chapters)
    assert [whole.first_page(len(front) + n).label for n in range(len(body))] == [
        alone.first_page(n).label for n in range(len(body))
    ]
