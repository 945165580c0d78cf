"""Changing one setting makes exactly the chapters anew that use it; the text of the others is the same to the byte.

The book in ``varied/`` has four chapters: *plain* (nothing special, two equal bars, then one in which the feet are
silent), *ghosts* (ghosts, accents, sticking, sixteenths), *wheel* (cells, some changed by ghosts), *feet* (6/8, foot
hi-hat, a flam). Each row of the table says which of them a change touches, and why; the change is the last line,
what stands above it is set before.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace
from pathlib import Path

import pytest

from engraver import definition
from engraver.definition.settings import settings
from engraver.manuscript.planning import plan_book
from engraver.style import Style

BOOK = Path(__file__).parent / "varied"
ALL = {"plain", "ghosts", "wheel", "feet"}
NONE: set[str] = set()

CHANGES: list[tuple[str, set[str], str]] = [
    ("preset: large print", ALL, "the size of the staff"),
    ("design: edition", ALL, "every page is of the design"),
    ("paper: Letter", ALL, "the size of every page"),
    ("margins: {inner: 6}", ALL, "what is left for every page"),
    ("staff size: 19", ALL, "every staff"),
    ("text size: 120", ALL, "all words"),
    ("fonts: {text: Source Sans Pro}", ALL, "the face of all words"),
    ("language: de", ALL, "all words"),
    ("words: {cell key: The cells}", {"wheel"}, "only a chapter with cells has that heading"),
    ("words: {hands row: R/L}", {"ghosts"}, "only this chapter has sticking"),
    ("words: {contents: What is in it}", NONE, "stands on no page of a chapter"),
    ("words: {instrument crash: {name: cymbal, label: cymbal, said: the cymbal}}", {"wheel"}, "who has a crash cymbal"),
    ("voices: one", ALL, "all have hands and feet"),
    ("ghosts: small", {"ghosts", "wheel"}, "who has ghost notes"),
    ("voices: one\naccents: head side", {"ghosts"}, "who has accents"),
    ("beams: beats", {"plain"}, "who has eighths in 4/4; sixteenths never share a beam over a beat"),
    ("rests: full", {"plain"}, "whose feet are silent for a bar"),
    ("repeat bars: yes", {"plain"}, "who has two equal bars in a row"),
    ("bars per line: 1", {"plain", "wheel", "feet"}, "who has more than one bar"),
    ("bar numbers: all bars", ALL, "all have bars"),
    ("tempo: bpm", ALL, "all have a tempo"),
    ("sticking: no", {"ghosts"}, "who has sticking"),
    ("counting: all bars", {"plain", "wheel", "feet"}, "who has more than one bar"),
    ("syllables: 1 e + a", {"plain", "ghosts", "wheel"}, "whose beats are divided; the eighths of 6/8 are counted"),
    ("cell names: primes", {"wheel"}, "who has changed cells"),
    ("colours: no", ALL, "numbers and headings are coloured too"),
    ("coloured notes: yes", {"wheel"}, "who has cells"),
    ("handedness: left", ALL, "the quickest limb is named on every opening page"),
    ("kit: {foot hi-hat: {head: diamond}}", {"feet"}, "who has the instrument"),
    ("kit: {crash: {stem: down}}", {"wheel"}, "who has the instrument"),
    ("kit: {snare: {label: Snare}}", NONE, "labels stand in the notation key alone"),
    ("kit: {cowbell: {head: diamond}}", NONE, "nobody has the instrument"),
]

Texts = Callable[[str], Mapping[str, str]]


@pytest.fixture(scope="module")
def texts(tmp_path_factory: pytest.TempPathFactory) -> Texts:
    book, folder = definition.read(BOOK), tmp_path_factory.mktemp("style")

    def written(rows: str) -> Mapping[str, str]:
        (folder / "style.yaml").write_text(rows, "utf-8")
        made = plan_book(replace(book, style=definition.read_style(folder)))
        return {chapter.plan.name: chapter.source.text for chapter in made}

    return written


@pytest.fixture(scope="module")
def standard(texts: Texts) -> Mapping[str, str]:
    return texts("")


@pytest.mark.parametrize(("rows", "changed", "reason"), CHANGES, ids=[rows for rows, _, _ in CHANGES])
def test_a_setting_changes_the_chapters_that_use_it(
    rows: str, changed: set[str], reason: str, texts: Texts, standard: Mapping[str, str]
) -> None:
    *before, _ = rows.split("\n")
    new, old = texts(rows), texts("\n".join(before)) if before else standard
    assert {name for name, text in new.items() if text != old[name]} == changed, reason


def test_every_setting_is_in_the_table() -> None:
    told = {rows.split("\n")[-1].partition(":")[0] for rows, _, _ in CHANGES}
    assert told == {each.name for each in settings()}


def test_the_book_is_written_in_the_standard_style() -> None:
    assert definition.read(BOOK).style == Style()
