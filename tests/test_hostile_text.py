"""No text of an author runs, and each comes out as written or is refused.

As written: in normal form C, white space as single spaces, an instrument's own name in small letters.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from typing import Any

import ly.lex
import pypdfium2
import pytest
from pypdf import PdfReader

from engraver import build, definition, lilypond
from engraver.engraving import Engine, Job, Workshop
from engraver.errors import DefinitionError
from engraver.lilypond import source
from engraver.making.where import Where
from engraver.manuscript import book_matter, book_pages, collation
from engraver.manuscript.planning import plan_book
from tests.hostile import ACCEPTED, MARK, REFUSED, Fill, as_yaml, escaped, write_book

LINE_FIELDS = ("title", "subtitle", "origin")
REST = 'tempo: 90\nlayers: [{name: A, strokes: {snare: "x--- x--- x--- x---"}}]\n'


NAMES_THAT_FIT = {name: text for name, text in ACCEPTED.items() if len(text) <= 50}


def as_written(text: str) -> str:
    return " ".join(unicodedata.normalize("NFC", text).split())


# ------------------------------------------------------------------ kept or refused
def test_there_are_enough_of_them() -> None:
    assert len(ACCEPTED) >= 40 and len(REFUSED) >= 15


@pytest.mark.parametrize("text", ACCEPTED.values(), ids=ACCEPTED)
def test_a_text_is_kept_as_written(text: str) -> None:
    fields = dict.fromkeys(LINE_FIELDS, text) | {"text": escaped(text)}
    groove = definition.parse_groove("".join(f"{name}: {as_yaml(value)}\n" for name, value in fields.items()) + REST)
    said = " ".join(block.text for block in groove.text)
    assert [groove.title, groove.subtitle, groove.idea, said] == [as_written(text)] * 4


REASONS = re.compile(
    r"the character U\+[0-9A-F]{4,6} cannot (be printed|stand in a text)"
    r"|this is not YAML: found invalid Unicode character escape code"
    r"|this (word|text) has [0-9]+ characters"
    r"|this text is empty"
)


@pytest.mark.parametrize("field", [*LINE_FIELDS, "text"])
@pytest.mark.parametrize("text", REFUSED.values(), ids=REFUSED)
def test_a_text_that_cannot_be_printed_is_refused_with_its_place(text: str, field: str) -> None:
    if field == "text" and not text.strip():
        return  # a groove need not have one
    fields = {"title": "T", field: escaped(text) if field == "text" else text}
    lines = [f"{name}: {as_yaml(value)}" for name, value in fields.items()]
    with pytest.raises(DefinitionError) as caught:
        definition.parse_groove("\n".join(lines) + "\n" + REST)
    [problem] = caught.value.problems
    assert REASONS.fullmatch(problem.message), problem.message
    assert problem.position and problem.hint
    assert not set(str(problem)) & set("\x00\x07\x1b\x7f\x9b\u202e"), "a terminal is not to obey it either"


@pytest.mark.parametrize("text", REFUSED.values(), ids=REFUSED)
def test_a_book_with_such_texts_in_all_fields_names_each(text: str, tmp_path: Path) -> None:
    write_book(tmp_path / "songs", lambda field, limit: text if "title" in field else "Plain words" + field[-1])
    found = definition.check(tmp_path / "songs")
    places = {problem.position.path.name for problem in found if problem.position}
    assert {"book.yaml", "one.yaml", "two.yaml"} == places
    assert all(REASONS.fullmatch(problem.message) for problem in found)


# ------------------------------------------------------------------ nothing but strings differs
def sources(folder: Path) -> Iterator[tuple[str, str]]:
    """Every LilyPond text of a book, as building it makes them; each page label is 1."""
    book = definition.read(folder)
    made = plan_book(book)
    told = {chapter.plan.name: chapter.told(book.style) for chapter in made}
    pages = [*book_pages.pages_around(book, has_answers=True)]
    index = book_pages.index_page(book, "index", ["index", "grades"], Always())
    yield from ((f"chapter {number}", chapter.source.text) for number, chapter in enumerate(made, start=1))
    around = {page.name: book_matter.page_text(page, book, book.style, told) for page in (*pages, index)}
    yield from around.items()
    outlines = [collation.outline(chapter.plan, 1) for chapter in made]
    pieces = collation.book_pieces(book, outlines, around, book.style.say)
    worn = [lilypond.PageFurniture("1", True, piece.head, piece.opener, ()) for piece in pieces]
    yield "furniture", lilypond.furniture(book.style, worn)


class Always(dict[str, str]):
    def __missing__(self, anchor: str) -> str:
        return "1"


def tokens(text: str) -> list[tuple[str, str]]:
    """What python-ly reads outside of strings; of a string only that it is one. No two spaces differ."""
    found = []
    within = False
    for name, token in lexed(text):
        within = within and not name.endswith("QuotedEnd")
        if not within:
            found.append((name, "" if name == "Space" else token))
        within = within or name.endswith("QuotedStart")
    return found


def lexed(text: str) -> Iterator[tuple[str, str]]:
    state = ly.lex.state("lilypond").freeze()
    for line in text.split("\n"):
        found, state = lexed_line(state, line)
        yield from found


@cache
def lexed_line(frozen: Any, line: str) -> tuple[tuple[tuple[str, str], ...], Any]:
    """Remembered, since most lines of any two books are the same; a state says what a line is in the middle of."""
    state = ly.lex.State.thaw(frozen)
    found = tuple((type(token).__name__, str(token)) for token in state.tokens(line))
    return found, state.freeze()


def harmless(text: str) -> str:
    """As many words of as many letters."""
    return re.sub(r"\S", "n", as_written(text))


def filled(text: str) -> Fill:
    """The text where it fits; layers and sections, which may not have one name, have a number too."""

    def fill(field: str, limit: int) -> str:
        number = field[-1] if field[-1].isdigit() else ""
        return f"{text} {number}" if len(as_written(text)) + 2 <= limit else f"n {number}"

    return fill


def fixed(text: str) -> Fill:
    """An instrument of one name: the names of notes are made of its letters."""
    return lambda field, limit: "log drum" if field == "instrument" else filled(text)(field, limit)


@pytest.mark.parametrize("text", ACCEPTED.values(), ids=ACCEPTED)
def test_the_source_is_that_of_harmless_words_but_for_strings(text: str, tmp_path: Path) -> None:
    write_book(tmp_path / "hostile", fixed(text))
    write_book(tmp_path / "harmless", fixed(harmless(text)))
    pairs = list(zip(sources(tmp_path / "hostile"), sources(tmp_path / "harmless"), strict=True))
    assert len(pairs) == 14  # two chapters, two part openers, eight sheaves around them, index, furniture
    for (name, hostile), (_, plain) in pairs:
        assert tokens(hostile) == tokens(plain), name


@pytest.mark.parametrize("text", NAMES_THAT_FIT.values(), ids=NAMES_THAT_FIT)
def test_the_name_of_an_instrument_makes_letters_and_no_commands(text: str, tmp_path: Path) -> None:
    """Note names differ, so that only the kinds of the other tokens are compared."""
    write_book(tmp_path / "hostile", lambda field, _: text if field == "instrument" else f"n {field[-1]}")
    write_book(tmp_path / "harmless", lambda field, _: "gong" if field == "instrument" else f"n {field[-1]}")
    for (name, hostile), (_, plain) in zip(sources(tmp_path / "hostile"), sources(tmp_path / "harmless"), strict=True):
        assert kinds(hostile) == kinds(plain), name


def kinds(text: str) -> list[str]:
    """python-ly takes some words in drum mode apart; a run of letters is one note here."""
    return [name for name, _ in tokens(re.sub(r"(?<![\\A-Za-z\"])[A-Za-z]{3,}(?=[0-9])", "note", text))]


NAMES = ('a "b" #(system "touch ran") $x', "%{ \\include {n} «n» ~ ö #.(f) 'q'")


def test_the_names_of_files_run_as_little(tmp_path: Path) -> None:
    write_book(tmp_path / "hostile", lambda field, _: f"n {field[-1]}", NAMES)
    write_book(tmp_path / "harmless", lambda field, _: f"n {field[-1]}")
    for (name, hostile), (_, plain) in zip(sources(tmp_path / "hostile"), sources(tmp_path / "harmless"), strict=True):
        assert tokens(hostile) == tokens(plain), name


def test_text_that_is_not_quoted_would_be_noticed(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(source, "quoted", lambda text: source.Source(f'"{text}"'))
    hostile = ACCEPTED["Scheme in a closed string"]
    write_book(tmp_path / "hostile", fixed(hostile))
    write_book(tmp_path / "harmless", fixed(harmless(hostile)))
    pairs = zip(sources(tmp_path / "hostile"), sources(tmp_path / "harmless"), strict=True)
    assert any(tokens(bad) != tokens(plain) for (_, bad), (_, plain) in pairs)


# ------------------------------------------------------------------ on the page
class Dealer:
    """Deals the texts out to the fields, to each the first that fits; ``dealt`` says which came where."""

    def __init__(self, first: int) -> None:
        texts = list(ACCEPTED)
        self.left = texts[first:] + texts[:first]
        self.dealt: dict[str, str] = {}

    def __call__(self, field: str, limit: int) -> str:
        if field not in self.dealt:
            name = next(name for name in self.left if len(as_written(ACCEPTED[name])) <= limit)
            self.left.remove(name)
            self.left.append(name)
            self.dealt[field] = name
        return ACCEPTED[self.dealt[field]]


@pytest.fixture(scope="module", params=[0, 17, 34], ids=["first deal", "second deal", "third deal"])
def dealt(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> tuple[Dealer, build.Report]:
    """A book with all texts, differently dealt."""
    MARK.unlink(missing_ok=True)
    folder = tmp_path_factory.mktemp("books")
    dealer = Dealer(request.param)
    write_book(folder / "songs", dealer)
    return dealer, build.build(Where(folder / "songs", folder / "out"))


def ink(text: str) -> str:
    """What is compared: normal form C without white space, and without what has no ink of its own.

    White space goes because a line may end between two words, or within a long one, and because capitals are spaced;
    what a reader makes of a soft hyphen at the end of a line goes with it.
    """
    unseen = ("Cc", "Cf", "Cn")
    return "".join(
        c for c in unicodedata.normalize("NFC", text) if not c.isspace() and unicodedata.category(c) not in unseen
    )


def test_every_text_comes_out_in_the_pdf(dealt: tuple[Dealer, build.Report]) -> None:
    dealer, report = dealt
    assert set(dealer.dealt.values()) == set(ACCEPTED)
    pages = ink("".join(page.get_textpage().get_text_range() for page in pypdfium2.PdfDocument(report.book)))
    lost = {field: name for field, name in dealer.dealt.items() if not is_printed(field, ACCEPTED[name], pages)}
    assert lost == {}


def is_printed(field: str, text: str, pages: str) -> bool:
    if field == "instrument":
        text = text.lower()
    if field == "book label":  # printed in capitals
        text, pages = text.upper(), pages.upper()
    return all(ink(word) in pages or backwards(word) in pages for word in pieces(text))


def pieces(text: str) -> list[str]:
    """The whole text; word for word where it is written from right to left.

    How a reader orders such words, and the letters within one, differs from line to line.
    """
    return text.split() if any(unicodedata.bidirectional(c) in ("R", "AL") for c in text) else [text]


def backwards(word: str) -> str:
    """Only words from right to left may be found in the order in which they stand from left to right."""
    return ink(word)[::-1] if all(unicodedata.bidirectional(c) in ("R", "AL") for c in word) else ink(word)


def test_the_title_is_in_the_file_s_own_words(dealt: tuple[Dealer, build.Report]) -> None:
    dealer, report = dealt
    reader = PdfReader(report.book)
    assert (reader.metadata and reader.metadata.title) == as_written(ACCEPTED[dealer.dealt["book title"]])
    outline = [str(entry.title) for entry in flat(reader.outline)]
    for which, number in (("first", 1), ("second", 2)):
        title = as_written(ACCEPTED[dealer.dealt[f"{which} title"]])
        assert f"{number} {title}" in [as_written(entry) for entry in outline]


def flat(entries: list[Any]) -> Iterator[Any]:
    for entry in entries:
        if isinstance(entry, list):
            yield from flat(entry)
        else:
            yield entry


def test_nothing_ran_and_nothing_was_complained_of(dealt: tuple[Dealer, build.Report]) -> None:
    _, report = dealt
    assert not MARK.exists()
    assert [str(warning) for warning in report.warnings] == []


def test_the_mark_would_be_there_if_a_text_had_run(tmp_path: Path) -> None:
    text = f'\\version "2.24.0"\n{ACCEPTED["Scheme"]}\n{{ c\'4 }}\n'
    with Workshop(Engine.find(), [], tmp_path / "store") as shop:
        shop.engrave([Job("run", text)])
    assert MARK.exists()
    MARK.unlink()


def test_a_book_whose_files_have_such_names_is_built(tmp_path: Path) -> None:
    write_book(tmp_path / "songs", lambda field, _: f"n {field[-1]}", NAMES)
    report = build.build(Where(tmp_path / "songs", tmp_path / "out"))
    assert set(NAMES) < set(report.fresh)
    assert not (tmp_path / "ran").exists() and not Path("ran").exists()


def test_grooves_may_be_called_what_pages_of_the_book_are(tmp_path: Path) -> None:
    """Each piece of the book keeps its own pages."""
    write_book(tmp_path / "songs", lambda field, _: f"n {field[-1]}", ("title", "index"))
    report = build.build(Where(tmp_path / "songs", tmp_path / "out"))
    assert report.chapters == 2 and {"title", "index"} < set(report.fresh)
    plain = tmp_path / "plain"
    write_book(plain, lambda field, _: f"n {field[-1]}")
    assert report.pages == build.build(Where(plain, tmp_path / "out")).pages


def test_a_file_whose_name_is_no_text_is_refused(tmp_path: Path) -> None:
    write_book(tmp_path / "songs", lambda field, _: f"n {field[-1]}")
    for name in ("\udcff.yaml", "a\nb.yaml", "\x1b[31m.yaml"):
        (tmp_path / "songs" / "grooves" / name).write_text("title: T\n" + REST)
    assert [problem.message for problem in definition.check(tmp_path / "songs")] == [
        'the file name "\\x1b[31m.yaml" cannot be printed',
        'the file name "a\\nb.yaml" cannot be printed',
        'the file name "\\udcff.yaml" cannot be printed',
    ]
