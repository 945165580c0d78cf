"""Editions in book.yaml: what is left out is filled in, and what does not fit is told with its place."""

from __future__ import annotations

import shutil
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from unittest.mock import ANY

import pytest

from engraver import definition
from engraver.definition import BookDefinition
from engraver.definition.editions import EditionKind, Ink, PageRange
from engraver.errors import DefinitionError
from engraver.starter import copy_starter
from engraver.style import PAPERS

Write = Callable[[str], Path]


@pytest.fixture
def book(tmp_path: Path) -> Write:
    """book(yaml) -> the starter's folder, its book.yaml with these lines more."""

    def make(lines: str) -> Path:
        folder = tmp_path / "book"
        shutil.rmtree(folder, ignore_errors=True)
        copy_starter(folder)
        kept = [line for line in (folder / "book.yaml").read_text("utf-8").splitlines() if "licence" not in line]
        before_editions = kept[: next((n for n, line in enumerate(kept) if line.startswith("editions")), len(kept))]
        (folder / "book.yaml").write_text("\n".join([*before_editions, lines]), encoding="utf-8")
        return folder

    return make


def read(folder: Path) -> BookDefinition:
    return definition.read(folder)


def test_without_editions_there_is_one_for_the_screen(book: Write) -> None:
    (edition,) = read(book("")).editions
    assert (edition.kind, edition.paper, edition.ink) == (EditionKind.SCREEN, PAPERS["A4"], Ink.COLOUR)
    assert edition.has_links and not edition.recto and edition.gutter == 0
    assert read(book("editions: [screen]")).editions == (replace(edition, position=ANY),)


def test_a_kind_alone_is_an_edition(book: Write) -> None:
    screen, printed = read(book("editions: [screen, print]")).editions
    assert (screen.name, printed.name) == ("screen", "print")
    assert (printed.ink, printed.recto, printed.gutter, printed.bleed) == (Ink.BLACK, True, None, 0)
    assert not printed.has_links


def test_an_edition_on_another_paper_says_so_in_its_name(book: Write) -> None:
    names = [edition.name for edition in read(book("editions: [screen, {kind: screen, paper: Letter}]")).editions]
    assert names == ["screen", "screen Letter"]


def test_a_sample_has_chapters_or_pages(book: Write) -> None:
    (sample,) = read(book("editions: [{kind: sample, chapters: [first-steps.yaml], pages: 'i-iv, 2, 4-5'}]")).editions
    assert sample.chapters == ("first-steps",)
    assert sample.pages == (PageRange("i", "iv"), PageRange("2", "2"), PageRange("4", "5"))


# what is written, the part of it that is marked, and what is said
FAULTS = {
    "editions: []": "this list is empty",
    "editions: [paper]": '"paper" is not a kind of edition',
    "editions: [{paper: A4}]": 'this edition has no "kind"',
    "editions: [{kind: screen, gutter: 3}]": "a screen edition has no gutter",
    "editions: [{kind: sample, chapters: [first-steps], bleed: 3}]": "a sample edition has no bleed",
    "editions: [{kind: print, pages: 1-2}]": "a print edition has no pages",
    "editions: [{kind: print, ink: gold}]": '"gold" is not an ink',
    "editions: [{kind: print, bleed: 21}]": "21 is not a number of millimetres that can be used",
    "editions: [{kind: sample}]": "this sample has no pages",
    "editions: [{kind: sample, chapters: [first-stepz]}]": 'there is no chapter "first-stepz"',
    "editions: [{kind: sample, pages: i-4}]": '"i-4" is not a list of pages',
    "editions: [{kind: sample, pages: 4-}]": '"4-" is not a list of pages',
    "editions: [screen, {kind: print, name: Screen}]": 'two editions are called "Screen"',
    "licence: ../licence.txt": '"../licence.txt" is not the name of a text file',
    "licence: missing.txt": '"missing.txt" cannot be read',
}


@pytest.mark.parametrize("lines", FAULTS)
def test_what_does_not_fit_is_told_with_its_place(book: Write, lines: str) -> None:
    with pytest.raises(DefinitionError) as caught:
        read(book(lines))
    (problem,) = caught.value.problems
    assert problem.message == FAULTS[lines]
    assert problem.hint
    assert problem.position is not None and problem.position.text == lines


def test_the_licence_is_the_authors_text(book: Write) -> None:
    folder = book("licence: terms.txt")
    (folder / "terms.txt").write_text("For one player.\n", encoding="utf-8")
    assert read(folder).licence == "For one player.\n"
