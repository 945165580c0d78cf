"""What is remembered, under what, and what is told when it is made again."""

from __future__ import annotations

import os
import pickle
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

import pytest

from engraver import definition
from engraver.manuscript.planning import plan_book
from engraver.memory import Memory, Recalled, Shelf, pack, unpack
from engraver.rhythm import Instrument
from tests.conftest import BOOK

Recall = Callable[..., Recalled]


@pytest.fixture
def recall(tmp_path: Path) -> Recall:
    """recall(rows, read, ground) in a memory of its own, as a new program would have it; "made" is what is made."""

    def recall(rows: dict[str, str], read: str = "", ground: str = "g", made: bytes = b"made") -> Recalled:
        memory = Memory(tmp_path, "book")

        def make(note: Callable[[str], None]) -> bytes:
            for name in read.split():
                note(name)
            return made + " ".join(rows[name] for name in read.split()).encode()

        found = memory.recall("subject", {"its ground": ground}, rows.__getitem__, make)
        memory.close()
        return found

    return recall


def test_the_second_time_it_is_remembered(recall: Recall) -> None:
    assert recall({}).reason == "for the first time"
    assert recall({}).reason == ""


def test_only_rows_that_were_read_count(recall: Recall) -> None:
    recall({"a": "1", "b": "1"}, "a")
    assert recall({"a": "1", "b": "2"}, "a").reason == ""
    assert recall({"a": "2", "b": "2"}, "a").reason == '"a" changed'


def test_of_rows_that_changed_the_wider_are_told_first(tmp_path: Path) -> None:
    def reason(value: str) -> str:
        def make(note: Callable[[str], None]) -> bytes:
            for name in ("kit snare", "kit ride", "kit crash", "language"):
                note(name)
            return b""

        memory = Memory(tmp_path, "book")
        found = memory.recall("subject", {}, lambda name: value, make)
        memory.close()
        return found.reason

    assert [reason("1"), reason("2")] == [
        "for the first time",
        '"language", "kit crash", "kit ride" and 1 more changed',
    ]


def test_which_rows_are_read_may_depend_on_what_they_say(recall: Recall) -> None:
    recall({"a": "1", "b": "1"}, "a")
    recall({"a": "2", "b": "1"}, "a b")
    assert recall({"a": "1", "b": "2"}, "a").content == b"made1"
    assert recall({"a": "2", "b": "1"}, "a b").reason == ""
    assert recall({"a": "2", "b": "2"}, "a b").content == b"made2 2"


def test_a_change_of_the_ground_is_told_by_its_name(recall: Recall) -> None:
    recall({})
    assert recall({}, ground="h").reason == "its ground changed"
    assert recall({}, ground="g").reason == ""  # the first is still there


def test_what_could_not_be_made_is_not_remembered(tmp_path: Path) -> None:
    memory = Memory(tmp_path, "book")

    def fail(note: object) -> bytes:
        raise OSError

    with pytest.raises(OSError):
        memory.recall("subject", {}, str, fail)
    memory.close()
    assert Memory(tmp_path, "book").recall("subject", {}, str, lambda note: b"").reason == "for the first time"


def test_a_shelf_gives_back_what_it_was_given_or_nothing(tmp_path: Path) -> None:
    shelf = Shelf(tmp_path)
    shelf.put("ab12", b"content")
    assert Shelf(tmp_path).get("ab12") == b"content"
    place = tmp_path / "ab" / "12"
    for damaged in (b"", place.read_bytes()[:-1], place.read_bytes() + b"x", b"\0" * 60):
        place.write_bytes(damaged)
        again = Shelf(tmp_path)
        assert again.get("ab12") is None and again.damaged == {"ab12"}
        assert not place.exists()
        again.put("ab12", b"content")


def test_a_shelf_that_is_full_drops_what_was_used_longest_ago(tmp_path: Path) -> None:
    for number in range(4):
        shelf = Shelf(tmp_path)
        shelf.put(f"ab{number}", bytes(1000))
        shelf.close()
        os.utime(tmp_path / "ab" / str(number), (number, number))
    shelf = Shelf(tmp_path, limit=3500)
    assert shelf.get("ab0") is not None  # the oldest, but used now
    shelf.put("ab4", bytes(1000))
    shelf.close()
    assert sorted(path.name for path in (tmp_path / "ab").iterdir()) == ["0", "3", "4"]


def test_a_shelf_that_cannot_be_written_remembers_nothing_and_fails_nobody(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("no folder")
    shelf = Shelf(tmp_path / "file")
    shelf.put("ab12", b"content")
    shelf.close()
    assert shelf.get("ab12") is None


def test_values_of_ours_come_back_as_they_were() -> None:
    value = (Instrument("snare"), {"a": 1}, None)
    assert unpack(pack(value)) == value


def test_a_plan_comes_back_as_it_was() -> None:
    """The largest value that is remembered, with everything a groove, its analysis and its exercises hold."""
    book = definition.read(BOOK)
    for chapter in plan_book(book)[:3]:
        assert unpack(pack(chapter.plan)) == chapter.plan
        assert unpack(pack(chapter.definition)) == chapter.definition


@dataclass(frozen=True)
class Foreign:
    text: str


class Harm:
    def __reduce__(self) -> tuple[object, tuple[str]]:
        return os.system, ("touch harm",)


@pytest.mark.parametrize("value", [Foreign("a"), Path.home, os.system, Harm(), eval])
def test_bytes_that_name_anything_else_are_refused_and_nothing_is_run(
    value: object, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    with pytest.raises(ValueError, match="not a value of ours"):
        unpack(pickle.dumps(value))
    assert list(tmp_path.iterdir()) == []
