"""Books of generated grooves, which the bench builds: read without a fault, all different, always the same."""

from __future__ import annotations

from pathlib import Path

from engraver import definition
from engraver.manuscript.planning import plan_book
from tests.bench.generated_books import GROUNDS, LONG, write_book

NUMBER = 2 * len(GROUNDS)


def files(folder: Path) -> dict[str, bytes]:
    return {str(path.relative_to(folder)): path.read_bytes() for path in folder.rglob("*.yaml")}


def test_the_same_number_and_seed_give_the_same_bytes(tmp_path):
    first, again = (files(write_book(tmp_path / name, NUMBER)) for name in ("first", "again"))
    assert first == again
    assert first != files(write_book(tmp_path / "other", NUMBER, seed=2))


def test_every_groove_becomes_a_chapter_of_its_own(tmp_path):
    made = plan_book(definition.read(write_book(tmp_path, NUMBER)))
    texts = {chapter.source.text for chapter in made}
    meters = {str(chapter.plan.groove.bars[0].meter) for chapter in made}
    assert len(texts) == NUMBER
    assert len(meters) == len({ground.meter for ground in GROUNDS})
    assert {bool(chapter.plan.regrouped) for chapter in made} == {True, False}


def test_a_bigger_book_begins_with_the_grooves_of_a_smaller_one(tmp_path):
    small, big = (files(write_book(tmp_path / f"{size}", size)) for size in (3, 5))
    shared = {name: text for name, text in big.items() if name in small and name != "book.yaml"}
    assert shared == {name: text for name, text in small.items() if name != "book.yaml"}


def test_a_long_groove_is_the_last_chapter_and_is_parted(tmp_path):
    first, again = (write_book(tmp_path / name, 1, long=16) for name in ("first", "again"))
    assert files(first) == files(again)
    *_, long = plan_book(definition.read(first))
    assert (long.plan.name, len(long.plan.groove.bars)) == (LONG, 16)
    assert len(long.source.parts) > 2
