"""How pages are filled: blocks of known heights are engraved, and the marks on the pages tell how full they are."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from pathlib import Path

import pytest
from pypdf import PdfReader

from engraver.binding import open_sheaf
from engraver.engraving import Engine, Engraved, Job, Workshop
from engraver.style import include_folders

ROOM = 100  # mm
TOP = '\\version "2.24.0"\n' + "".join(
    f"#(define {name} {value})"
    for name, value in {
        "page-width": "200",
        "page-height": ROOM + 43,  # the workbook's margins: 25 over the text, 18 under it
        "staff-points": "20",
        "ghost-look": "'small",
        "colours?": "#t",
        "cell-looks": "'()",
    }.items()
)
STAFF = "\\new DrumStaff \\drummode { sn4 sn sn sn }"
LINES = "\\score { \\new DrumStaff \\drummode { \\repeat unfold 20 { sn1 \\break } } }"


def block(height: int, over: int = 0) -> str:
    """Ink that hangs down from its base, and space over it, in millimetres."""
    return f"\\markup \\inked #{height} #{over}\n"


INKED = """
#(define-markup-command (inked layout props height over) (number? number?)
  (let ((mm (ly:output-def-lookup layout 'mm)))
    (ly:make-stencil (ly:stencil-expr (ly:round-filled-box (cons 0 mm) (cons (* mm (- height)) 0) 0))
      (cons 0 mm) (cons (* mm (- height)) (* mm over)))))
#(define-markup-command (on-the-spot layout props text) (string?)
  (let ((mm (ly:output-def-lookup layout 'mm)))
    (ly:make-stencil (ly:stencil-expr (interpret-markup layout props text)) (cons 0 mm) (cons 0 (* mm 20)))))
"""


# of no height: it parts what stands above from what stands below, and can be read in the PDF
RULE = """\\markup #(make-on-the-spot-markup "rule")
\\noPageBreak
"""


CASES: Mapping[str, str] = {
    "all on one": block(40) + block(60),
    "as few as can be": block(50) + block(50) + block(50) + block(50),
    "forced": block(10) + "\\pageBreak\n" + block(10),
    "kept together": block(60) + block(30) + "\\noPageBreak\n" + block(40),
    "space falls away": block(90) + block(40, over=20) + block(40, over=20),
    "a rule between": block(40) + RULE + block(40),
    "a rule at the top": block(90) + RULE + block(80),
    "no lonely line": block(30) * 3 + block(10) * 2,
    "too high": block(70) + "\\noPageBreak\n" + block(70),
    "a long passage": LINES,
    "a little too high": block(78) + block(7, over=4) + "\\noPageBreak\n\\score { " + STAFF + " }",
    "too close": block(82) + block(7) + "\\noPageBreak\n\\score { " + STAFF + " }",
    "a title and its staff": block(85) + block(10) + "\\noPageBreak\n\\score { " + STAFF + " }",
}


@pytest.fixture(scope="module")
def engraved(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Mapping[str, Engraved]]:
    jobs = [Job(name, f'{TOP}\n\\include "design.ily"\n{INKED}{body}') for name, body in CASES.items()]
    with Workshop(Engine.find(), include_folders("workbook"), tmp_path_factory.mktemp("store")) as shop:
        yield {result.job.name: result for result in shop.engrave(jobs)}


def fills(result: Engraved) -> list[int]:
    """How full each page is, in per cent; every page has one mark."""
    assert result.pdf, result.complaints
    sheaf = open_sheaf(Path(result.pdf))
    marks = [[spot for spot in sheaf.spots_on(page) if spot.is_fill] for page in range(sheaf.pages)]
    assert all(len(of_page) == 1 for of_page in marks)
    return [round(int(of_page[0].name) / 10) for of_page in marks]


@pytest.mark.parametrize(
    ("case", "expected"),
    [
        ("all on one", [100]),
        ("as few as can be", [100, 100]),
        ("forced", [10, 10]),
        ("kept together", [60, 70]),
        ("space falls away", [90, 100]),
        ("a rule between", [100]),
        ("a rule at the top", [90, 80]),
        ("no lonely line", [60, 50]),
        ("too high", [70, 70]),
    ],
)
def test_blocks_fill_pages(engraved: Mapping[str, Engraved], case: str, expected: list[int]) -> None:
    assert fills(engraved[case]) == expected


@pytest.mark.parametrize(("case", "expected"), [("a rule between", [True]), ("a rule at the top", [False, False])])
def test_a_rule_between_blocks_is_not_printed_at_the_top_of_a_page(
    engraved: Mapping[str, Engraved], case: str, expected: list[bool]
) -> None:
    result = engraved[case]
    assert result.pdf
    assert ["rule" in page.extract_text() for page in PdfReader(result.pdf).pages] == expected


def test_a_title_goes_with_its_staff(engraved: Mapping[str, Engraved]) -> None:
    first, second = fills(engraved["a title and its staff"])
    assert first == 85
    assert second > 15


def test_a_little_is_taken_from_the_space_over_music_where_a_page_would_not_hold_it(
    engraved: Mapping[str, Engraved],
) -> None:
    assert fills(engraved["a little too high"]) == [100]
    assert len(fills(engraved["too close"])) == 2


def test_a_passage_that_no_page_holds_is_parted_between_staves(engraved: Mapping[str, Engraved]) -> None:
    pages = fills(engraved["a long passage"])
    assert len(pages) > 1
    assert max(pages) <= 100


def test_nothing_is_too_full(engraved: Mapping[str, Engraved]) -> None:
    assert [result.complaints for result in engraved.values()] == [()] * len(CASES)
