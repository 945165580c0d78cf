"""Reading order: operators as Cairo writes them, and what is read aloud of them."""

from __future__ import annotations

import pytest

from engraver.binding.letters import Face, said
from engraver.binding.reading_order import FIGURE, PARAGRAPH, in_reading_order

WORDS = Face({code: chr(code) for code in range(32, 127)}, 1, is_music=False)
LIGATURES = Face({1: "ﬁ"}, 2, is_music=False)
MUSIC = Face({1: "\ue050"}, 2, is_music=True)
FACES = {"/f-0-0": WORDS, "/f-0-1": LIGATURES, "/f-1-0": MUSIC}


INSTEAD = "/Span << /ActualText <feff{}> >> BDC"

# operators inside a block of text, and what they say
SAID = {
    b"/f-0-0 1 Tf (Two)Tj": "Two",
    b"/f-0-0 1 Tf [(T)-4(w)35(o)-240(words)]TJ": "Two words",
    b"/f-0-0 1 Tf [(one)]TJ 0 -1.3 Td [(line)]TJ": "one line",
    b"/f-0-0 1 Tf (a \\(b\\) \\101)Tj": "a (b) A",
    b"/f-0-0 1 Tf [(of)]TJ %b /f-0-1 1 Tf [<>3<0001>]TJ EMC /f-0-0 1 Tf (us)Tj"
    % INSTEAD.format("0020").encode(): "of us",
    b"/f-0-0 1 Tf (a)Tj %b /f-0-1 1 Tf [<>-246<0001>]TJ EMC /f-0-0 1 Tf (ve)Tj"
    % INSTEAD.format("00660069").encode(): "a five",
    b"/f-1-0 1 Tf <0001>Tj": "",
}


@pytest.mark.parametrize("operators", SAID)
def test_operators_say_words_with_the_spaces_between_them(operators: bytes) -> None:
    assert said(operators, MUSIC, FACES)[0] == SAID[operators]


def test_music_alone_is_no_text() -> None:
    assert said(b"/f-1-0 1 Tf <0001>Tj", WORDS, FACES)[2] is False
    assert said(b"/f-1-0 1 Tf <0001>Tj /f-0-0 1 Tf (4)Tj", WORDS, FACES)[2] is True


def block(left: float, down: float, text: str, size: float = 10, font: str = "/f-0-0") -> bytes:
    return f"BT\n{size} 0 0 -{size} {left} {down} Tm\n{font} 1 Tf\n({text})Tj\nET\n".encode()


def read(drawn: bytes, figures: tuple[int, ...] = ()) -> list[tuple[str, str]]:
    return [(one.role, one.text) for one in in_reading_order(drawn, FACES, figures)[1]]


def test_lines_closely_below_one_another_are_a_paragraph() -> None:
    drawn = block(50, 100, "one") + block(50, 114, "two") + block(50, 150, "three")
    assert read(drawn) == [(PARAGRAPH, "one two"), (PARAGRAPH, "three")]


def test_another_size_or_edge_begins_another_paragraph() -> None:
    drawn = block(50, 100, "Title", size=20) + block(50, 114, "text") + block(90, 128, "aside")
    assert [text for _, text in read(drawn)] == ["Title", "text", "aside"]


def test_what_stands_beside_on_one_line_is_read_on() -> None:
    assert read(block(50, 100, "1") + block(80, 100.1, "Porch Light", size=14)) == [(PARAGRAPH, "1 Porch Light")]


def test_a_block_that_goes_to_two_places_is_cut() -> None:
    two = b"BT\n20 0 0 -20 50 100 Tm\n/f-0-0 1 Tf\n(Title)Tj\n10 0 0 -10 50 150 Tm\n(text)Tj\nET\n"
    assert [text for _, text in read(two)] == ["Title", "text"]


def test_a_link_that_marks_a_score_is_a_figure_in_its_place() -> None:
    link = b"/Link << /MCID 0 >> BDC\nEMC\n"
    drawn = block(50, 100, "before") + link + link + block(50, 300, "after")
    assert read(drawn, figures=(1,)) == [(PARAGRAPH, "before"), (FIGURE, ""), (PARAGRAPH, "after")]


def test_all_that_is_drawn_lies_in_one_sequence_and_no_ink_is_lost() -> None:
    lines = b"q 1 0 0 -1 0 842 cm\n0 0 m 10 10 l S\n"
    drawn = lines + block(50, 100, "words") + block(50, 130, "", font="/f-1-0").replace(b"()", b"<0001>") + b"Q\n"
    marked, _ = in_reading_order(drawn, FACES, ())
    kept = [part for part in marked.split() if part not in (b"/Artifact", b"BMC", b"EMC", b"/P", b"BDC")]
    without = b" ".join(kept).replace(b"<< /MCID 0 >> ", b"")
    assert without == b" ".join(drawn.split())
    assert marked.count(b"BMC") + marked.count(b"BDC") == marked.count(b"EMC") == 4
    depth = 0
    for operator in marked.split():
        depth += {b"BMC": 1, b"BDC": 1, b"EMC": -1}.get(operator, 0)
        assert depth in (0, 1)
