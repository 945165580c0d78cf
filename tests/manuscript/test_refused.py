"""Chapters that cannot be made do not keep the others from being made, and are told together."""

from __future__ import annotations

from pathlib import Path

import pytest

from engraver import definition
from engraver.errors import NotationError
from engraver.manuscript.planning import plan_book
from engraver.manuscript.texts import opened_texts

SOUND = 'title: Sound\ntempo: 90\nlayers:\n  - name: Hands\n    strokes:\n      ride: "x---x---x---x---"\n'
THREE_HANDS = SOUND + '      snare: "x---------------"\n      crash: "x---------------"\n'


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    (tmp_path / "grooves").mkdir()
    for name, text in (("one", THREE_HANDS), ("two", SOUND), ("three", THREE_HANDS)):
        (tmp_path / "grooves" / f"{name}.yaml").write_text(text, "utf-8")
    (tmp_path / "book.yaml").write_text("title: T\ndate: 2026-01-31\nchapters: [one, two, three]\n", "utf-8")
    return tmp_path


def refused(error: NotationError) -> list[str]:
    """The files that the problems are in."""
    return [problem.position.path.name for problem in error.problems if problem.position]


def test_all_that_cannot_be_planned_is_told_at_once(folder: Path) -> None:
    with pytest.raises(NotationError) as refusal:
        plan_book(definition.read(folder))
    assert refused(refusal.value) == ["one.yaml", "three.yaml"]


def test_a_sound_chapter_is_there_before_the_others_are_told(folder: Path) -> None:
    made = []
    with opened_texts(folder / "texts", "T") as texts, pytest.raises(NotationError) as refusal:
        for chapter in texts.manuscripts(texts.read(folder)):
            made.append(chapter.name)
    assert made == ["two"]
    assert refused(refusal.value) == ["one.yaml", "three.yaml"]
