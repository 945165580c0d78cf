"""A folder becomes a book; what is wrong with its files is said with the file named."""

from __future__ import annotations

import os
import re
from datetime import date
from pathlib import Path

import pytest

from engraver.definition import check, read, read_groove, read_style
from engraver.errors import DefinitionError
from engraver.rhythm import Instrument, Limbs
from engraver.style import GhostLook, Style
from engraver.style.counting import syllables_of
from tests.definition.test_slate_stairs import SLATE_STAIRS

BOOK = "title: Stairs and Stones\ndate: 2026-01-31\n"


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A small book, named relative to where the author stands."""
    grooves = tmp_path / "book" / "grooves"
    grooves.mkdir(parents=True)
    (tmp_path / "book" / "book.yaml").write_text(BOOK)
    (grooves / "slate-stairs.yaml").write_text(SLATE_STAIRS)
    (grooves / "quarry.yaml").write_text(SLATE_STAIRS.replace("Slate Stairs", "Quarry"))
    monkeypatch.chdir(tmp_path)
    return Path("book")


def test_a_book_without_chapters_has_every_groove_in_order_of_name(folder: Path) -> None:
    book = read(folder)
    assert [chapter.groove.title for chapter in book.chapters] == ["Quarry", "Slate Stairs"]
    assert (book.title, book.date, book.language) == ("Stairs and Stones", date(2026, 1, 31), "en")
    assert book.cover.name == "quarry"
    assert [page.name for page in book.front] == ["rights", "contents", "cautions", "how-to", "key", "counting"]
    assert [page.name for page in book.back] == ["answers", "log", "plan", "index", "grades"]
    assert book.style == Style()


def test_parts_hold_their_chapters_in_order(folder: Path) -> None:
    parts = "parts:\n  - {title: One, chapters: [slate-stairs.yaml]}\n  - {title: Two, chapters: [quarry]}\n"
    (folder / "book.yaml").write_text(BOOK + parts + "cover: quarry\nback: [index]\n")
    book = read(folder)
    assert [(part.title, [chapter.name for chapter in part.chapters]) for part in book.parts] == [
        ("One", ["slate-stairs"]),
        ("Two", ["quarry"]),
    ]
    assert [chapter.name for chapter in book.chapters] == ["slate-stairs", "quarry"]
    assert (book.cover.name, [page.name for page in book.back]) == ("quarry", ["index"])


def test_a_groove_that_no_chapter_names_is_not_read(folder: Path) -> None:
    (folder / "book.yaml").write_text(BOOK + "chapters: [quarry]\n")
    (folder / "grooves" / "draft.yaml").write_text("nothing yet")
    assert [chapter.name for chapter in read(folder).chapters] == ["quarry"]


def test_the_style_changes_and_adds_rows_of_the_kit(folder: Path) -> None:
    (folder / "style.yaml").write_text(
        "paper: letter\nghosts: small\nhandedness: left\nstaff size: 18.5\ncolours: no\nkit:\n"
        "  kick: {head: diamond}\n  Gong: {position: 10, limbs: hands, key: 52, aliases: [tam]}\n"
    )
    groove = folder / "grooves" / "quarry.yaml"
    groove.write_text(groove.read_text().replace("crash:     {cycle", "tam:       {cycle"))
    book = read(folder)
    style = book.style
    assert (style.paper.name, style.ghosts, style.left_handed) == ("Letter", GhostLook.SMALL, True)
    assert (style.staff_size, style.colours) == (18.5, False)
    assert (style.kit[Instrument("bass drum")].head, style.kit[Instrument("bass drum")].key) == ("diamond", 36)
    assert style.kit[Instrument("gong")].limbs is Limbs.HANDS
    assert Instrument("gong") in dict(book.chapters[0].groove.layers[0].strokes)


def test_a_book_is_in_the_language_of_its_style_unless_it_says_another(folder: Path) -> None:
    (folder / "style.yaml").write_text("language: de\n")
    assert read(folder).language == "de"
    (folder / "book.yaml").write_text(BOOK + "language: nl\n")
    assert (read(folder).language, read(folder).style.language) == ("nl", "de")


@pytest.mark.parametrize(("tag", "words"), [("de", "de"), ("de-AT", "de"), ("DE", "de"), ("nl", "en")])
def test_a_style_that_names_no_language_has_the_words_of_the_book(folder: Path, tag: str, words: str) -> None:
    (folder / "book.yaml").write_text(BOOK + f"language: {tag}\n")
    for style in ("", "rests: full\n", "preset: large print\n"):
        (folder / "style.yaml").write_text(style)
        assert (read(folder).style.language, read_style(folder).language) == (words, words)
    (folder / "style.yaml").unlink()
    style = read(folder).style
    assert (style.language, style.syllables) == (words, syllables_of(words))
    assert style.kit[Instrument("crash")].label == {"de": "Crash-Becken", "en": "crash cymbal"}[words]


def test_an_empty_style_is_the_standard_style(folder: Path) -> None:
    (folder / "style.yaml").write_text("# nothing yet\n")
    assert read(folder).style == Style()


BOOK_FAULTS = [
    ("title: T\n", 'book/book.yaml:1:1: this book has no "date"'),
    (BOOK.replace("01-31", "02-30"), 'book/book.yaml:2:7: "2026-02-30" is not a date'),
    (BOOK + "language: english\n", 'book/book.yaml:3:11: "english" is not a language tag'),
    (BOOK + "chapters: [slate-stars]\n", 'book/book.yaml:3:12: there is no groove "slate-stars"'),
    (BOOK + "chapters: [quarry, quarry]\n", 'book/book.yaml:3:20: "quarry" is already a chapter in line 3'),
    (BOOK + "chapters: [../../etc/passwd]\n", 'book/book.yaml:3:12: there is no groove "../../etc/passwd"'),
    (BOOK + "chapters: [quarry]\ncover: slate-stairs\n", 'book/book.yaml:4:8: there is no chapter "slate-stairs"'),
    (BOOK + "cover: gravel\n", 'book/book.yaml:3:8: there is no groove "gravel"'),
    (BOOK + "front: [index]\n", 'book/book.yaml:3:9: "index" is not front matter'),
    (
        BOOK + "chapters: [quarry]\nparts: [{title: P, chapters: [slate-stairs]}]\n",
        "book/book.yaml:4:8: a book has chapters or parts, not both",
    ),
]


@pytest.mark.parametrize(("text", "expected"), BOOK_FAULTS)
def test_a_fault_of_a_book_reads(folder: Path, text: str, expected: str) -> None:
    (folder / "book.yaml").write_text(text)
    assert [str(problem).splitlines()[0] for problem in check(folder)] == [expected]


STYLE_FAULTS = [
    ("paper: A3\n", '1:8: "A3" is not a paper'),
    ("staff size: 4\n", '1:13: "4" is not a staff size'),
    ("staff size: nan\n", '1:13: "nan" is not a staff size'),
    ("design: ../etc\n", '1:9: "../etc" is not the name of a design'),
    ("ghosts: tiny\n", '1:9: "tiny" is not a choice for ghosts'),
    ("bars per line: many\n", '1:16: "many" is not a number of bars'),
    ("syllables: one and\n", '1:12: "one and" is not a set of counting syllables'),
    ("preset: large prnt\n", '1:9: "large prnt" is not a preset'),
    ("design: workbok\n", '1:9: "workbok" is not the name of a design'),
    ("paper: {width: 120, height: 250}\n", '1:16: "120" is not a width of paper'),
    ("paper: {width: 180}\n", '1:8: this paper has no "height"'),
    ("margins: {inner: -3}\n", '1:18: "-3" is not a margin'),
    ("margins: {inner: 30, outer: 20}\n", "1:10: these margins leave 160 mm of A4"),
    ("fonts: {text: Serif of Mine}\n", '1:15: "Serif of Mine" is not a family that is shipped'),
    ("fonts: {text: {regular: ../mine.otf}}\n", '1:25: "../mine.otf" is not a font file in the book\'s folder'),
    ("fonts: {text: {regular: book.yaml}}\n", '1:25: "book.yaml" is not a font file in the book\'s folder'),
    ("colours: no\ncoloured notes: yes\n", "2:17: coloured notes: yes has no colours to print, since colours: no"),
    ("accents: head side\n", "1:10: with two voices an accent at the heads of one looks like an accent of the other"),
    ("voices: one\nkit: {snare: {stem: down}}\n", "2:21: with voices: one all stems go up"),
    ("words: {indx: Register}\n", '1:9: "indx" is not a row of the words'),
    ("words: {bar n: Takt}\n", '1:16: the wording of "bar n" leaves out {n}'),
    ("words: {bar n: 'Takt {m}'}\n", '1:16: "bar n" has no place {m}'),
    ("words: {bar n: 'Takt {n'}\n", '1:16: the braces of "bar n" do not come out even'),
    ("words: {n bars: {many: '{n}'}}\n", '1:18: "many" is not a form of "n bars"'),
    ("words: {n bars: {one: '{n} bar'}}\n", '1:17: "n bars" has the forms one, other'),
    ("words: {instrument snare: Tom}\n", '1:27: "instrument snare" has the forms name, label, said'),
    ("words: {log columns: [date]}\n", '1:22: "log columns" is a list of 5'),
    ("colors: no\n", '1:1: "colors" is not a key of a style'),
    ("kit: {snare: {head: square}}\n", '1:21: "square" is not a notehead'),
    ("kit: {snare: {position: 40}}\n", "1:25: 40 is not a staff position that can be used"),
    ("kit: {ride: {position: 5}}\n", "1:7: ride looks like hi-hat: position 5, head x"),
    ("kit: {gong: {key: 52}}\n", '1:7: "gong" is not in the standard kit and has no position and no limbs'),
    ("kit: {snare: {aliases: [kick]}}\n", '1:7: "kick" already names bass drum'),
    ("kit: {snare: {across: far}}\n", '1:23: "far" is not a number of decimetres'),
    ("kit: {snare: {foot: left}}\n", "1:21: hands strike snare, so no foot plays it"),
    ("kit: {bass drum: {lead: yes}}\n", "1:25: feet play bass drum, so no hand keeps time on it"),
    ("kit: {crash: {pedal: press}}\n", "1:22: crash cannot ask for pedal: press"),
    ("kit: {bass drum: {pedal: open}}\n", "1:26: bass drum cannot ask for pedal: open"),
    ("kit: {rim shot: {surface: snar}}\n", '1:27: "snar" is not an instrument of the kit'),
    (
        "kit: {ride bell: {surface: ride, across: 2}}\n",
        "1:28: ride bell is struck on ride, which stands at 9, and not at 2",
    ),
    ("kit: {kick: {key: 35}, bass drum: {key: 36}}\n", "1:24: bass drum is already written in line 1"),
]


@pytest.mark.parametrize(("text", "expected"), STYLE_FAULTS)
def test_a_fault_of_a_style_reads(folder: Path, text: str, expected: str) -> None:
    (folder / "style.yaml").write_text(text)
    assert [str(problem).splitlines()[0] for problem in check(folder)] == [f"book/style.yaml:{expected}"]


def test_a_groove_is_not_blamed_for_a_fault_in_the_row_of_its_instrument(folder: Path) -> None:
    (folder / "style.yaml").write_text("kit: {gong: {position: high, limbs: hands, key: 52}}\n")
    groove = folder / "grooves" / "quarry.yaml"
    groove.write_text(groove.read_text().replace("crash:     {cycle", "gong:      {cycle"))
    assert [problem.message for problem in check(folder)] == [
        '"high" is not a staff position',
    ]


def test_all_faults_of_all_files_come_in_order_of_place(folder: Path) -> None:
    (folder / "book.yaml").write_text(BOOK + "colour: red\n")
    (folder / "style.yaml").write_text("paper: A3\n")
    for name in ("quarry", "slate-stairs"):
        path = folder / "grooves" / f"{name}.yaml"
        path.write_text(path.read_text().replace("tempo: 96", "tempo: fast").replace("snare:", "snar:"))
    with pytest.raises(DefinitionError) as caught:
        read(folder)
    assert caught.value.problems == check(folder)
    places = [str(problem.position) for problem in caught.value.problems]
    assert places == [
        "book/book.yaml:3:1",
        *(f"book/grooves/quarry.yaml:{place}" for place in ("3:8", "17:7", "20:7")),
        *(f"book/grooves/slate-stairs.yaml:{place}" for place in ("3:8", "17:7", "20:7")),
        "book/style.yaml:1:8",
    ]


def test_a_book_with_a_fault_in_its_own_rows_still_has_its_chapters_checked(folder: Path) -> None:
    (folder / "book.yaml").write_text("title: T\ndate: soon\nchapters: [quarry, slate-stars]\n")
    (folder / "grooves" / "draft.yaml").write_text("nothing yet")
    found = [str(problem).splitlines()[0] for problem in check(folder)]
    assert found == [
        'book/book.yaml:2:7: "soon" is not a date',
        'book/book.yaml:3:20: there is no groove "slate-stars"',
    ]


def test_files_that_cannot_be_read_are_faults(folder: Path) -> None:
    grooves = folder / "grooves"
    (grooves / "a-folder.yaml").mkdir()
    (grooves / "b-loop.yaml").symlink_to("b-loop.yaml")
    (grooves / "c-latin.yaml").write_bytes(b"title: T\nsubtitle: caf\xe9\n")
    (grooves / "d-huge.yaml").write_text("#" * 1_000_001)
    (grooves / "e-empty.yaml").write_text("")
    (grooves / "f-utf16.yaml").write_text("title: T\n", "utf-16")
    os.mkfifo(grooves / "g-pipe.yaml")
    (grooves / "h-short.yml").write_text(SLATE_STAIRS)
    found = {
        re.sub("^book/grooves/|: .*", "", str(problem).splitlines()[0]): problem.message for problem in check(folder)
    }
    assert found == {
        "a-folder.yaml:1:1": "this is not a file",
        "b-loop.yaml:1:1": "there is no such file",
        "c-latin.yaml:2:1": "byte 0xe9 is not UTF-8 text",
        "d-huge.yaml:1:1": "the file is larger than 1,000,000 bytes",
        "e-empty.yaml:1:1": 'this groove has no "layers"',
        "f-utf16.yaml:1:1": "byte 0xff is not UTF-8 text",
        "g-pipe.yaml:1:1": "this is not a file",
        "h-short.yml:1:1": "a groove file ends in .yaml",
    }


def test_a_folder_that_is_none_and_one_that_is_empty_are_faults(tmp_path: Path) -> None:
    assert [problem.message for problem in check(Path("nowhere"))] == ["there is no folder nowhere"]
    assert "there is no such file" in [problem.message for problem in check(tmp_path)]


def test_a_byte_order_mark_and_foreign_line_ends_are_accepted(tmp_path: Path) -> None:
    path = tmp_path / "groove.yaml"
    path.write_bytes(b"\xef\xbb\xbf" + SLATE_STAIRS.replace("\n", "\r\n").encode())
    assert read_groove(path, Style()).title == "Slate Stairs"
