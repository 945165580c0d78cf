"""Marks as addresses, and spots as LilyPond's Cairo back end leaves them in a PDF."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pypdf
import pytest
from hypothesis import given
from hypothesis import strategies as st

from engraver.binding import Sheaf, mark, open_sheaf
from engraver.binding.spots import read_mark
from engraver.errors import EngravingError

NAMES = st.text(st.characters(exclude_categories=("Cs",)), min_size=1)


@pytest.mark.parametrize(
    ("address", "kind", "name"),
    [
        ("engraver:anchor/exercise", "anchor", "exercise"),
        ("engraver:link/%C3%BCbung%201", "link", "übung 1"),  # RFC 3986, 2.5: UTF-8, then percent signs
        ("engraver:place/answer-page/a%2Fb", "answer-page", "a/b"),
    ],
)
def test_an_address_gives_kind_and_name(address: str, kind: str, name: str) -> None:
    assert read_mark(address) == (kind, name)


@pytest.mark.parametrize(
    "address",
    [
        "engraver:",
        "engraver:anchor/",
        "engraver:anchor/a/b",
        "engraver:place/x",
        "engraver:place/anchor/x",
        "engraver:Link/x",
        "https://example.org/anchor/x",
    ],
)
def test_anything_else_is_no_mark(address: str) -> None:
    assert read_mark(address) is None


@given(kind=st.sampled_from(["anchor", "link", "answer-page", "Seite/ü"]), name=NAMES)
def test_a_mark_can_be_read_back(kind: str, name: str) -> None:
    address = mark(kind, name)
    assert address.isascii() and read_mark(address) == (kind, name)


def test_spots_are_found_by_page(sheaf: Callable[..., Sheaf]) -> None:
    box = (10.0, 20.0, 30.0, 40.0)
    opened = sheaf("a", 3, [(0, "engraver:anchor/x", box), (2, "engraver:link/x", box), (2, "engraver:anchor/y", box)])
    assert [len(opened.spots_on(page)) for page in range(3)] == [1, 0, 2]
    assert [(spot.kind, spot.name) for spot in opened.spots_on(2)] == [("link", "x"), ("anchor", "y")]


def test_top_is_measured_from_the_upper_edge(sheaf: Callable[..., Sheaf]) -> None:
    spot = sheaf("a", 1, [(0, "engraver:anchor/x", (10, 20, 30, 40))]).spots[0]
    assert (spot.x0, spot.y0, spot.x1, spot.y1) == (10, 20, 30, 40)
    assert (spot.top, spot.bottom) == (842 - 40, 842 - 20)


def test_a_malformed_mark_is_told_with_its_page(draw: Callable[..., Path]) -> None:
    pdf = draw("bad", ["one", "two"], [(1, "engraver:anker/x", (0, 0, 1, 1))])
    with pytest.raises(EngravingError) as error:
        open_sheaf(pdf)
    assert str(error.value) == (
        f'"engraver:anker/x" on page 2 of "{pdf}" marks nothing that binding knows\n'
        "hint: marks are anchor/NAME, link/NAME and place/KIND/NAME"
    )


def test_a_missing_file_is_told(tmp_path: Path) -> None:
    with pytest.raises(EngravingError, match=r'gone\.pdf" is not there\nhint: engrave the chapter again'):
        open_sheaf(tmp_path / "gone.pdf")


@pytest.mark.parametrize("kept", [0, 1, 9, 200, -40])
def test_a_cut_off_file_is_told(draw: Callable[..., Path], kept: int) -> None:
    pdf = draw("cut", ["one", "two"])
    pdf.write_bytes(pdf.read_bytes()[:kept])
    with pytest.raises(EngravingError, match="cannot be read as a PDF"):
        open_sheaf(pdf)


def test_engraved_spots_are_exact_although_their_rectangles_are_rounded(engrave: Callable[..., Path]) -> None:
    """The mark is 10 x 2 staff spaces, put 10 mm from the left and from the top; at the default staff of 20 pt

    (LilyPond Notation Reference, "Setting the staff size") a space is 5 printer's points of 25.4 / 72.27 mm.
    """
    pdf = engrave("spot", '\\markup { \\combine \\spot "engraver:anchor/a%20b" \\block }')
    spot = open_sheaf(pdf).spots[0]
    margin, space = 10 / 25.4 * 72, 5 / 72.27 * 72
    assert spot.name == "a b"
    assert (spot.x0, spot.top) == pytest.approx((margin, margin), abs=0.01)
    assert (spot.x1 - spot.x0, spot.y1 - spot.y0) == pytest.approx((10 * space, 2 * space), abs=0.01)
    rounded = [float(x) for x in pypdf.PdfReader(pdf).pages[0]["/Annots"][0].get_object()["/Rect"]]
    outwards = (spot.x0 - rounded[0], spot.y0 - rounded[1], rounded[2] - spot.x1, rounded[3] - spot.y1)
    assert all(0 <= by < 1 for by in outwards) and max(outwards) > 0.1


def test_an_anchor_needs_no_area(engrave: Callable[..., Path]) -> None:
    empty = "(ly:make-stencil (list 'url-link \"engraver:anchor/x\" '(0 . 0) '(0 . 0)) '(0 . 0) '(0 . 0))"
    spot = open_sheaf(engrave("empty", f'\\markup {{ \\stencil #{empty} "text" }}')).spots[0]
    assert (spot.x0, spot.y0) == (spot.x1, spot.y1)
